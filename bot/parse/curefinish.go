package parse

import (
	"strconv"
	"strings"

	"larderhand/curemath"
)

// mostFlavour is how many characters of a flavouring are kept.
const mostFlavour = 60

// setting stores what holds for the whole line.
func (m *pieceMaker) setting(it *item) *Problem {
	c := &m.line
	fresh := true
	switch it.kind {
	case setItem:
		fresh = m.share(it)
	case methodItem:
		switch {
		case c.Method == "" || c.Method == it.method:
			c.Method = it.method
		case c.Method == "pump" && it.method == "brine": // pumped with brine
		default:
			fresh = false
		}
	case daysItem:
		fresh = c.Days == nil
		c.Days = ptr(it.count)
	case fromItem:
		fresh = c.From == nil
		c.From = ptr(it.at)
	case fridgeItem:
		fresh = c.Fridge == nil
		c.Fridge = ptr(it.celsius)
	}
	if !fresh {
		return &Problem{Kind: SaidTwice, Said: m.said(it.from, it.to), Why: "that was set once already in this line", Example: "5 lb salt 2.5 % sugar 1 %"}
	}
	return nil
}

// share stores a percentage or ppm, and says whether it was free.
func (m *pieceMaker) share(it *item) bool {
	c := &m.line
	put := func(where **curemath.Percent) bool {
		free := *where == nil
		*where = ptr(it.percent)
		return free
	}
	putPPM := func(where **curemath.PPM) bool {
		free := *where == nil
		*where = ptr(it.ppm)
		return free
	}
	switch it.key {
	case saltKey:
		return put(&c.Salt)
	case sugarKey:
		return put(&c.Sugar)
	case mixKey:
		return put(&c.Mix)
	case nitrateKey:
		return put(&c.MixNitrate)
	case nitriteKey:
		return putPPM(&c.Nitrite)
	case ascorbateKey:
		return putPPM(&c.Ascorbate)
	}
	return true
}

// finish checks what only the whole line tells and hands the line over.
func (m *pieceMaker) finish() (CureLine, *Problem) {
	c := m.line
	if m.one != nil {
		if c.Mix != nil && *c.Mix != *m.one {
			return c, &Problem{Kind: Ambiguous, Said: "no. 1 and another percent", Why: "a mix numbered 1 holds 6.25 % nitrite, and the line says another percent too; take the one on the packet", Example: "5 lb juniper, mix 6.25 %"}
		}
		c.Mix = m.one
	}
	if c.MixNitrate != nil && c.Mix == nil {
		return c, &Problem{Kind: NoUnit, Said: "nitrate", Why: "nitrate comes in a mix; say what the mix holds", Example: nitrateKey.example()}
	}
	if p := m.countPieces(); p != nil {
		return c, p
	}
	for _, piece := range m.pieces {
		piece.Flavouring = m.flavour(piece.words)
		if p := RefusedFlavouring(piece.Flavouring); p != nil { // put together by leaving a word out
			return c, p
		}
		if piece.Thickness == 0 {
			piece.Thickness = c.Thickness
		}
		for range piece.times {
			c.Pieces = append(c.Pieces, piece.PieceLine)
			if len(c.Pieces) > MostPieces {
				return c, &Problem{Kind: TooMany, Said: m.said(piece.weight.from, piece.weight.to), Why: "a batch holds at most 26 pieces, a to z", Example: "6 lb juniper, 3.2 kg coffee"}
			}
		}
	}
	if len(c.Pieces) == 1 && c.Pieces[0].RindOn != nil {
		if c.RindOn != nil && *c.RindOn != *c.Pieces[0].RindOn {
			return c, &Problem{Kind: SaidTwice, Said: "rind", Why: "the rind is on or off, not both", Example: "5 lb belly rind on"}
		}
		c.RindOn = c.Pieces[0].RindOn
	}
	if m.one == nil && !m.saysAnything() {
		return c, &Problem{Kind: NotAWeight, Said: quote(m.src), Why: "I see no weight there", Example: cureExample}
	}
	return c, nil
}

// countPieces settles "3 slabs" and "each".
func (m *pieceMaker) countPieces() *Problem {
	n := len(m.pieces)
	if m.slabs == nil {
		if m.each && n == 1 && m.pieces[0].times == 1 {
			w := m.said(m.pieces[0].weight.from, m.pieces[0].weight.to)
			return &Problem{Kind: Ambiguous, Said: w, Why: "how many pieces are there of that weight?", Example: "2 x " + working(w, "5 lb")}
		}
		return nil
	}
	total := 0
	for _, p := range m.pieces {
		total += p.times
	}
	count, said := m.slabs.count, m.said(m.slabs.from, m.slabs.to)
	switch {
	case total == count || n == 0:
		return nil
	case n == 1 && total == 1 && (m.pieces[0].each || m.each):
		m.pieces[0].times = count
		return nil
	case n == 1 && total == 1:
		w := m.said(m.pieces[0].weight.from, m.pieces[0].weight.to)
		return &Problem{Kind: Ambiguous, Said: said, Why: "is " + w + " the weight of each, or of all together?", Example: strconv.Itoa(min(count, MostPieces)) + " x " + working(w, "5 lb")}
	}
	return &Problem{Kind: Ambiguous, Said: said, Why: "I count " + strconv.Itoa(total) + " weights", Example: "6 lb juniper, 3.2 kg coffee"}
}

// flavour writes the words of a flavouring as they were typed.
func (m *pieceMaker) flavour(words []wordRange) string {
	var b strings.Builder
	for i, w := range words {
		switch {
		case i > 0 && w.apart:
			b.WriteString(", ")
		case i > 0:
			b.WriteByte(' ')
		}
		b.WriteString(m.src[m.toks[w.from].start:m.toks[w.to-1].end])
		if b.Len() > 8*mostFlavour {
			break
		}
	}
	return tidy(b.String(), mostFlavour)
}

// saysAnything says whether the line has more in it than words without meaning.
func (m *pieceMaker) saysAnything() bool {
	for _, it := range m.items {
		switch it.kind {
		case breakItem, joinItem, softItem, hardItem, eachItem, countItem:
		default:
			return true
		}
	}
	return false
}

// understood says what the items before a problem were, for the person: "a
// weight of 5 lb, thickness 1.5 in".
func (r *cureReader) understood(p *Problem) string {
	if !r.done {
		_ = r.settle() // as far as it goes; p is the problem to tell
	}
	var got []string
	for _, it := range r.items {
		said := r.said(it.from, it.to)
		if strings.Contains(p.Said, said) && it.kind != breakItem && it.kind != softItem {
			break
		}
		switch it.kind {
		case weightItem:
			got = append(got, "a weight of "+said)
		case thicknessItem:
			got = append(got, "thickness "+said)
		case setItem:
			if it.qty.to > 0 { // not "no sugar"
				said = it.key.name() + " " + said
			}
			got = append(got, said)
		case fridgeItem, daysItem, rindItem, methodItem, fromItem:
			got = append(got, said)
		}
		if len(got) == 4 {
			break
		}
	}
	return strings.Join(got, ", ")
}
