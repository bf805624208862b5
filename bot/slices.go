package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// The size of a slab whose measures nobody told: common practice, no source.
const (
	usualSlice curemath.Millimetres = 250 // along the knife
	usualInch  curemath.Millimetres = 254 // the same, ten inches, for who thinks in those
	longest    curemath.Millimetres = 1500
	usualSlab  curemath.Millimetres = 38 // its height
)

var (
	slicesLong = regexp.MustCompile(`(?i)[\s,]*(\d\S*(?:\s*[a-z"”]+)?)\s+long\b`)
	slabLong   = regexp.MustCompile(`(?i)[\s,]*\bslab\s+(\d\S*(?:\s*[a-z"”]+)?)`)
)

// sliceBody reads "4 mm", "4 mm, 24 cm long" (the slices) and "4 mm, slab 50 cm"
// (the slab, along which the knife walks).
func sliceBody(s course.State, body course.Body, text string) (course.Body, error) {
	if text == "" {
		return body, nil
	}
	bad := func(what, as string) error {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as the %s.", clip(what, 40), as), Example: fmt.Sprintf("slice %d 4 mm, 24 cm long", s.Number)}
	}
	extra := map[string]string{}
	for _, m := range []struct {
		key, as string
		of      *regexp.Regexp
	}{{"slices_mm", "length of the slices", slicesLong}, {"slab_mm", "length of the slab", slabLong}} {
		found := m.of.FindStringSubmatch(text)
		if found == nil {
			continue
		}
		size, ok := longSize(found[1])
		if !ok || size < 20 {
			return body, bad(found[1], m.as)
		}
		extra[m.key] = trim(float64(size), 1)
		text = strings.Replace(text, found[0], "", 1)
	}
	thick, err := parse.Thickness(strings.Trim(text, " ,;"))
	if err != nil || thick > 50 {
		return body, bad(text, "thickness of a slice")
	}
	body.Slice, body.Text = thick, ""
	if len(extra) > 0 {
		body.Extra = extra
	}
	return body, nil
}

var sized = regexp.MustCompile(`(?i)^(\d+(?:[.,]\d+)?)\s*(mm|cm|in|inch|inches|"|”)$`)

// longSize reads the length of a slab or a slice, which may be more than a slab is
// thick.
func longSize(text string) (curemath.Millimetres, bool) {
	m := sized.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, false
	}
	x, err := decimal(m[1])
	if err != nil {
		return 0, false
	}
	size := curemath.Millimetres(x)
	switch strings.ToLower(m[2]) {
	case "mm":
	case "cm":
		size *= 10
	default:
		size *= 25.4
	}
	return size, size <= longest
}

// saySlices says how many slices there are by weight, of the pieces named or, with "",
// of all.
func (t *Turn) saySlices(r *reply.Reply, s course.State, of []string, body course.Body) {
	if body.Slice <= 0 {
		return
	}
	long, slab := millimetres(body.Extra["slices_mm"]), millimetres(body.Extra["slab_mm"])
	guessed, faced, lines := false, false, 0
	for _, p := range s.Pieces {
		if of[0] != "" && !slices.Contains(of, p.Letter) || lines == mostPieces {
			continue
		}
		who := ""
		if (of[0] == "" || len(of) > 1) && len(s.Pieces) > 1 {
			who = p.Letter + ": "
		}
		weight, weighed := lastWeight(s, p.Letter)
		if slab > 0 && weighed {
			if n, err := curemath.SlicesOfSlab(weight, slab, body.Slice); err == nil {
				r.Say(who, count(n.Count, "slice"), ", ", t.byWeight(n), ", ", grams(n.Each.Typical, 0), " each.")
				lines++
				continue
			}
		}
		height, length := p.Thickness, long
		if height <= 0 {
			height, guessed = usualSlab, true
		}
		if length <= 0 {
			length, guessed = t.usualLong(), true
		}
		n, err := curemath.SlicesOfFace(length, height, body.Slice)
		if err != nil {
			continue
		}
		faced = true
		lines++
		about := "about "
		if who == "" {
			about = "About "
		}
		line := []any{who, about, t.byWeight(n), ", ", grams(n.Each.Typical, 0), " each"}
		if weighed {
			line = append(line, fmt.Sprintf(": some %.0f of the %s", float64(weight/n.Each.Typical), t.units().meat(weight)))
		}
		r.Say(append(line, ".")...)
	}
	switch {
	case guessed:
		r.Say(fmt.Sprintf("Reckoned with slices %s long where nobody measured (common practice, no source) and 0.95 to 1.05 g/ml (from memory). Closer next time: ", t.units().thickness(orUsual(long, t.usualLong()))),
			reply.Type(fmt.Sprintf("slice %d %s mm, %s long", s.Number, trim(float64(body.Slice), 1), t.units().thickness(t.usualLong()))))
	case faced:
		r.Say("Reckoned with belly of 0.95 to 1.05 g/ml (from memory).")
	}
}

func orUsual(long, usual curemath.Millimetres) curemath.Millimetres {
	if long > 0 {
		return long
	}
	return usual
}

func (t *Turn) usualLong() curemath.Millimetres {
	if t.units() == us {
		return usualInch
	}
	return usualSlice
}

func millimetres(s string) curemath.Millimetres {
	if s == "" {
		return 0
	}
	m, _ := longSize(s + " mm")
	return m
}

// byWeight is slices a pound or a kilo, with their range.
func (t *Turn) byWeight(n curemath.Slices) string {
	c, of := n.PerPound, "a pound"
	if t.units() == metric {
		c, of = n.PerKilogram, "a kilo"
	}
	text := fmt.Sprintf("%.0f slices %s", c.Typical, of)
	if low, high := fmt.Sprintf("%.0f", c.Low), fmt.Sprintf("%.0f", c.High); low != high {
		text += " (" + low + " to " + high + ")"
	}
	return text
}

// lastWeight is what a piece weighed when it was last on the scale after the cure.
func lastWeight(s course.State, letter string) (curemath.Grams, bool) {
	list := weighings(s, letter)
	last := list[len(list)-1]
	return last.Weight, last.Stage > curemath.WeighedGreen
}
