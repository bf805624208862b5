package parse

import (
	"time"

	"larderhand/curemath"
)

// Reading is what a thermometer said: the pit, a core, or both.
type Reading struct {
	Piece     string // "a", "b" … or "" for the batch or its only piece
	Pit, Core *curemath.Fahrenheit
	At        time.Time // now unless a time was said
	HasTime   bool      // a time was said
}

const (
	readingExample = "pit 148 core 121"
	// mostReadings is how many lines are taken at once: a reading every five
	// minutes for a day and a half.
	mostReadings = 500
)

// Readings reads one or more readings, in the order they were said; lines and
// semicolons part them, and each may have its own time.
//
//	pit 148 core 121        148F pit, 121F core       151/124 (pit/core)
//	core a 121 b 118        at 14:30 core 49C         20 min ago pit 148
//	P148 C121 (no piece besides in the text)
//
// A sign (F, °C) wins over def, and within one line holds for the numbers
// without one. A pit with cores of named pieces comes as a Reading of its own
// before them. Times are read as by Past. Nothing is said about whether a
// reading makes sense: pit 1480 is given back. Errors are *Problem.
func Readings(s string, def TempUnit, now time.Time) ([]Reading, error) {
	l, p := open(s, readingExample)
	if p != nil {
		return nil, p
	}
	l.spellPlaces()
	var out []Reading
	for i := 0; i < len(l.toks); {
		end := i
		for end < len(l.toks) && !l.at(end).is(";") && l.at(end).kind != newline {
			end++
		}
		if end > i {
			r := readingLine{line: line{src: s, toks: l.toks[i:end]}, def: def, now: now}
			got, p := r.read()
			if p != nil {
				return nil, p
			}
			out = append(out, got...)
		}
		if len(out) > mostReadings {
			return nil, &Problem{Kind: TooMany, Said: l.said(i, end), Why: "that is more readings than I take at once; send them as a file", Example: readingExample}
		}
		i = end + 1
	}
	if len(out) == 0 {
		return nil, &Problem{Kind: NotAReading, Said: quote(s), Why: "I see no reading there", Example: readingExample}
	}
	return out, nil
}

// place is where a thermometer hangs.
type place int

const (
	nowhere place = iota
	pit
	core
)

// placeNamed knows the words for the two places.
func placeNamed(s string) place {
	switch s {
	case "pit", "smoker", "chamber", "grate", "smokehouse", "cabinet", "air", "ambient", "oven":
		return pit
	case "core", "cores", "meat", "internal", "probe", "middle", "inside", "centre", "center", "belly", "slab", "piece":
		return core
	}
	return nowhere
}

// spellPlaces writes out the p and c of "P148 C121". Where another piece is named, c
// is the piece of that letter.
func (l line) spellPlaces() {
	before := func(i int) bool { // a number comes next
		k := i + 1
		for l.at(k).is(":") || l.at(k).is("=") {
			k++
		}
		return l.at(i).kind == word && l.at(k).kind == numeric
	}
	pits, others := 0, 0
	for i, t := range l.toks {
		switch {
		case !before(i) || len(t.text) != 1:
		case t.is("p"):
			pits++
		case t.text >= "a" && t.text <= "z" && !t.is("c") && !t.is("f"):
			others++
		}
	}
	if pits == 0 {
		return
	}
	for i, t := range l.toks {
		switch {
		case !before(i):
		case t.is("p"):
			l.toks[i].text = "pit"
		case t.is("c") && others == 0:
			l.toks[i].text = "core"
		}
	}
}

// spot is one thermometer: the pit, or the core of a piece.
type spot struct {
	place place
	piece string
}

// spotValue is a temperature as said, with its spot.
type spotValue struct {
	spot
	q quantity
}

// readingLine reads one line of readings.
type readingLine struct {
	line
	def      TempUnit
	now      time.Time
	values   []spotValue
	at       time.Time
	hasTime  bool
	pending  []spot // named, still without a value
	last     place  // of the word said last
	lettered bool   // a piece was named
	first    bool   // values stand before their words: 148 pit
}

func (r *readingLine) read() ([]Reading, *Problem) {
	for i := 0; i < len(r.toks); {
		next, p := r.step(i)
		if p != nil {
			return nil, p
		}
		i = next
	}
	if len(r.pending) > 0 {
		return nil, r.problem(NotAReading, 0, len(r.toks), "a number is missing")
	}
	if len(r.values) == 0 {
		return nil, r.problem(NotAReading, 0, len(r.toks), "I see no reading there")
	}
	return r.finish()
}

func (r *readingLine) problem(k Kind, i, j int, why string) *Problem {
	return &Problem{Kind: k, Said: r.said(i, j), Why: why, Understood: r.understood(i), Example: readingExample}
}

// step reads what stands at token i and gives the token after it.
func (r *readingLine) step(i int) (int, *Problem) {
	if next, p := r.time(i); next > i || p != nil {
		return next, p
	}
	t := r.line.at(i)
	switch {
	case t.kind == numeric:
		return r.value(i)
	case placeNamed(t.text) != nowhere:
		return r.named(i), nil
	case t.kind == word && len(t.text) == 1 && t.text[0] >= 'a' && t.text[0] <= 'z':
		r.letter(t.text)
		return i + 1, nil
	case readingFiller(t), t.is("-") && len(r.pending) == 0:
		return i + 1, nil
	}
	return i, r.problem(NotAReading, i, i+1, "I know pit, core and the letters of the pieces")
}

func readingFiller(t token) bool {
	switch t.text {
	case ",", ".", ":", "=", "/", "&", "(", ")", "|", "•", "*", "->", "and", "is", "at", "now", "temp", "temps", "temperature", "temperatures",
		"reading", "readings", "the", "of", "in", "it", "says", "its":
		return t.kind != numeric
	}
	return false
}

// named notes the word for a place.
func (r *readingLine) named(i int) int {
	at := placeNamed(r.line.at(i).text)
	// "core temp" and "meat probe" name one place, "a core" the core of a.
	if n := len(r.pending); n > 0 && at == core && r.pending[n-1].place == core {
		r.last = core
		return i + 1
	}
	r.pending = append(r.pending, spot{place: at})
	r.last = at
	return i + 1
}

// letter notes the letter of a piece; it belongs to the core just named, or
// names a core itself.
func (r *readingLine) letter(s string) {
	r.lettered = true
	if n := len(r.pending); n > 0 && r.pending[n-1] == (spot{place: core}) {
		r.pending[n-1].piece = s
		return
	}
	r.pending = append(r.pending, spot{core, s})
	r.last = core
}

// value reads the number at token i and gives it to the spot it belongs to.
func (r *readingLine) value(i int) (int, *Problem) {
	q, other, next := r.numbers(i)
	if q.num.fault != "" {
		return i, r.problem(NotANumber, i, q.to, q.num.fault)
	}
	if other.to > 0 {
		spots := r.pending
		if len(spots) == 0 {
			spots = []spot{{place: pit}, {place: core}}
		}
		if len(spots) == 1 && spots[0].piece != "" {
			spots = []spot{{place: pit}, spots[0]}
		}
		if len(spots) != 2 || other.num.base > 0 {
			return i, r.problem(Ambiguous, i, next, "two numbers with a stroke are pit and core")
		}
		r.values = append(r.values, spotValue{spots[0], q}, spotValue{spots[1], other})
		r.pending = nil
		return next, nil
	}
	after := next // 148 in the pit
	for r.line.at(after).is("in") || r.line.at(after).is("at") || r.line.at(after).is("the") {
		after++
	}
	switch {
	case len(r.pending) == 1 && !r.first:
		r.values = append(r.values, spotValue{r.pending[0], q})
		r.pending = nil
		return next, nil
	case len(r.pending) == 0 && (r.first || len(r.values) == 0) && placeNamed(r.line.at(after).text) != nowhere:
		r.first = true
		r.values = append(r.values, spotValue{spot{place: placeNamed(r.line.at(after).text)}, q})
		return after + 1, nil
	}
	p := r.problem(Ambiguous, i, next, "is that the pit or the core?")
	if q.num.fault == "" && !q.num.comma && q.num.value >= 1 && q.num.value <= 1000 {
		p.Example = "core " + plain(q.num.value)
	}
	return i, p
}

// numbers reads one temperature, or two with a stroke between.
func (r *readingLine) numbers(i int) (q, other quantity, next int) {
	t := r.line.at(i)
	q = r.temp(i)
	if t.num.base > 0 { // 151/124
		other = q
		other.negative = false
		q.num = number{value: float64(t.num.top), whole: true}
		other.num = number{value: float64(t.num.base), whole: true}
		return q, other, other.to
	}
	if r.line.at(q.to).is("/") && r.line.at(q.to+1).kind == numeric {
		other = r.temp(q.to + 1)
		return q, other, other.to
	}
	return q, quantity{}, q.to
}

// temp reads the temperature at token i. A lone letter before another number is
// the next piece and no scale, once pieces are named: a 121 c 118.
func (r *readingLine) temp(i int) quantity {
	q, _ := r.quantityAt(i)
	bare := quantity{num: r.line.at(i).num, negative: r.line.at(i).signed, from: i, to: i + 1}
	if q.unit.dim != heat {
		return bare
	}
	if u := r.line.at(i + 1); r.lettered && q.to == i+2 && u.kind == word && len(u.text) == 1 && !u.glued && r.valueAfter(i+2) {
		return bare
	}
	return q
}

func (r *readingLine) valueAfter(i int) bool {
	for r.line.at(i).is(":") || r.line.at(i).is("=") {
		i++
	}
	return r.line.at(i).kind == numeric
}
