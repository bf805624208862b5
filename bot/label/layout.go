package label

import (
	"strings"

	"larderhand/bot/typeface"
)

// highestRune is the last the PDF library can embed.
const highestRune = 0xFFFF

// Sizes in points, places in millimetres.
const (
	labelWidth  = 100.0
	labelHeight = 60.0
	padding     = 4.0
	pointMM     = 25.4 / 72
	productSize = 14.0
	// smallestSize gives letters 1.2 mm high without ascenders, the least that
	// Regulation (EU) 1169/2011 article 13 asks for (from memory): the typeface's
	// x-height is 0.547 of its size.
	smallestSize = 6.3
)

// bodySizes are tried in turn until the label fits its height.
func bodySizes() []float64 { return []float64{8.5, 8, 7.5, 7, 6.6, smallestSize} }

// piece of text at a place; y is the letters' feet.
type set struct {
	x, y   float64
	size   float64
	strong bool
	text   string // in drawing order
}

// layout is a label ready to print: its text and how high it is.
type layout struct {
	sets   []set
	rules  []float64 // heights of lines across
	height float64
}

// setter measures and places the text of one label.
type setter struct {
	faces typeface.Faces
	width func(size float64, strong bool, visual string) float64
	out   layout
	y     float64
}

// lay sets a label out at the largest size that fits the usual height; at the
// smallest the label grows instead.
func lay(l Label, faces typeface.Faces, width func(float64, bool, string) float64) layout {
	var s *setter
	for _, size := range bodySizes() {
		s = &setter{faces: faces, width: width, y: padding}
		s.label(l, size)
		if s.out.height <= labelHeight {
			s.out.height = labelHeight
			break
		}
	}
	return s.out
}

// unprintable gives the ingredients and allergens the typeface lacks letters for.
// A box in place of a letter will do for a nickname, not for what someone may not
// eat.
func unprintable(l Label, faces typeface.Faces) []string {
	var out []string
	check := func(name string) {
		c := faces.Clean(name, highestRune)
		if plain(name) != "" && (c == "" || strings.ContainsRune(c, '□')) {
			out = append(out, "letters that can be printed for "+plain(name))
		}
	}
	for _, i := range l.Ingredients {
		check(i.Name)
	}
	for _, a := range l.Allergens {
		check(a)
	}
	return out
}

func (s *setter) clean(text string) string { return s.faces.Clean(text, highestRune) }

func (s *setter) label(l Label, size float64) {
	s.paragraph(l.Product, productSize, true)
	s.y += 0.6
	s.paragraph(l.statement(), size+1, true)
	s.y += 0.8
	s.flow(s.ingredients(l), size)
	if c := contains(l.Allergens); c != "" {
		s.y += 0.6
		s.paragraph(c, size, true)
	}
	s.y += 1
	s.out.rules = append(s.out.rules, s.y)
	s.y += 1
	s.columns(l, size)
	s.y += 0.6
	s.paragraph(l.keep(), size, true)
	s.out.height = s.y + padding - 1
}

// paragraph wraps a text over the label's width.
func (s *setter) paragraph(text string, size float64, strong bool) {
	measure := func(v string) float64 { return s.width(size, strong, v) }
	for _, line := range typeface.Wrap(s.clean(text), labelWidth-2*padding, measure) {
		s.down(size)
		s.put(padding, size, strong, typeface.Visual(line))
	}
}

// down moves to the feet of the next line of a size.
func (s *setter) down(size float64) { s.y += size * pointMM * 1.22 }

func (s *setter) put(x, size float64, strong bool, visual string) {
	s.out.sets = append(s.out.sets, set{x: x, y: s.y - size*pointMM*0.22, size: size, strong: strong, text: visual})
}

// ingredients are the words of the list. A right-to-left name is one word, so
// that it can be ordered as a whole.
func (s *setter) ingredients(l Label) []word {
	out := []word{{{text: "Ingredients:", strong: true}}}
	list := Sorted(l.Ingredients)
	for i, in := range list {
		end := ","
		if i == len(list)-1 {
			end = "."
		}
		name := s.clean(in.Name)
		if visual := typeface.Visual(name); visual != name {
			start, _ := first(name, l.Allergens)
			out = append(out, word{{text: visual, strong: start >= 0}, {text: end}})
			continue
		}
		out = append(out, words(append(spans(name, l.Allergens), span{text: end}))...)
	}
	return out
}

// word is what is not broken at a line's end; it may change weight inside.
type word []span

// words splits spans at their spaces.
func words(in []span) []word {
	var out []word
	open := false
	for _, p := range in {
		for i, part := range strings.Split(p.text, " ") {
			if i > 0 {
				open = false
			}
			if part == "" {
				continue
			}
			if !open {
				out = append(out, nil)
				open = true
			}
			out[len(out)-1] = append(out[len(out)-1], span{part, p.strong})
		}
	}
	return out
}

// flow sets words one after another, in lines.
func (s *setter) flow(list []word, size float64) {
	space := s.width(size, false, " ")
	right := labelWidth - padding
	x := padding
	s.down(size)
	for _, w := range list {
		if x > padding && x+s.wide(w, size) > right {
			x = padding
			s.down(size)
		}
		for _, p := range w {
			x = s.run(p, x, size)
		}
		x += space
	}
}

// run sets a stretch of one weight, broken inside if it alone is wider than a
// line, and gives where it ends.
func (s *setter) run(p span, x, size float64) float64 {
	measure := func(v string) float64 { return s.width(size, p.strong, v) }
	right := labelWidth - padding
	if x+measure(p.text) <= right {
		s.put(x, size, p.strong, p.text)
		return x + measure(p.text)
	}
	for i, line := range typeface.Wrap(p.text, right-padding, measure) {
		if i > 0 || x > padding {
			s.down(size)
		}
		x = padding
		s.put(x, size, p.strong, line)
		x += measure(line)
	}
	return x
}

func (s *setter) wide(w word, size float64) float64 {
	sum := 0.0
	for _, p := range w {
		sum += s.width(size, p.strong, p.text)
	}
	return sum
}

// columns sets the dates on the left, weight and batch on the right.
func (s *setter) columns(l Label, size float64) {
	top := s.y
	const middle = labelWidth/2 + 6
	for _, d := range l.dates() {
		s.down(size)
		s.put(padding, size, false, d.word)
		s.put(padding+s.width(size, false, d.word+"  "), size, true, d.day)
	}
	left := s.y
	s.y = top
	room := labelWidth - padding - middle
	right := []set{{size: size + 1, strong: true, text: "Net " + NetWeight(l.Net)}, {size: size, text: l.batch()}}
	if from := plain(l.From); from != "" {
		right = append(right, set{size: size, text: "Packed by " + from})
	}
	for _, r := range right {
		measure := func(v string) float64 { return s.width(r.size, r.strong, v) }
		for _, line := range typeface.Wrap(s.clean(r.text), room, measure) {
			s.down(r.size)
			s.put(middle, r.size, r.strong, typeface.Visual(line))
		}
	}
	s.y = max(s.y, left)
}
