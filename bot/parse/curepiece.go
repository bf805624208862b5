package parse

import (
	"strings"

	"larderhand/curemath"
)

// pieceParts is a piece while it is put together.
type pieceParts struct {
	PieceLine
	times  int         // how often it is meant
	words  []wordRange // its flavouring
	each   bool
	weight item
}

// wordRange is a stretch of flavouring; apart if a comma stands before it.
type wordRange struct {
	from, to int // tokens
	apart    bool
}

// pieceMaker walks the items and hands each to the piece it belongs to.
type pieceMaker struct {
	*cureReader
	line   CureLine
	pieces []pieceParts
	// What stands in the present part of the line before its weight.
	inPart  bool // the part has a weight
	mm      *item
	rind    *item
	count   *item // with x, for the next weight
	slabs   *item // "3 slabs", for the whole line
	each    bool
	comma   bool // a break stands before the present item
	joined  int  // the items since the last flavouring word are joinable from here, else -1
	touched bool // something but soft words came since the last weight
}

// assemble makes the cure line of the items.
func (r *cureReader) assemble() (CureLine, *Problem) {
	m := pieceMaker{cureReader: r, joined: -1}
	for i := range r.items {
		if p := m.take(i); p != nil {
			return CureLine{}, p
		}
	}
	if p := m.endPart(); p != nil {
		return CureLine{}, p
	}
	return m.finish()
}

// take handles the item i.
func (m *pieceMaker) take(i int) *Problem {
	it := &m.items[i]
	switch it.kind {
	case breakItem:
		m.comma, m.touched, m.joined = true, true, -1
		return m.endPart()
	case joinItem:
		if m.weightNext(i + 1) {
			m.touched, m.joined = true, -1
			return m.endPart()
		}
		return nil
	case softItem:
		return nil
	case eachItem:
		m.each, m.joined = true, -1
		if n := len(m.pieces); m.inPart && n > 0 {
			m.pieces[n-1].each = true
		}
		return nil
	case wordItem:
		return m.word(i)
	case weightItem:
		return m.weigh(i)
	}
	m.joined, m.touched = -1, m.touched || it.kind != hardItem
	switch it.kind {
	case hardItem:
		return m.mixByWeight(i)
	case thicknessItem:
		return m.thick(it)
	case rindItem:
		return m.skin(it)
	case countItem:
		return m.counted(it)
	}
	return m.setting(it)
}

// weightNext says whether a weight comes before any word.
func (m *pieceMaker) weightNext(i int) bool {
	for ; i < len(m.items); i++ {
		switch m.items[i].kind {
		case weightItem:
			return true
		case softItem, hardItem, countItem, thicknessItem, rindItem, eachItem:
		default:
			return false
		}
	}
	return false
}

// word adds to the flavouring of the present piece.
func (m *pieceMaker) word(i int) *Problem {
	it := m.items[i]
	if len(m.pieces) == 0 {
		said := m.said(it.from, it.to)
		p := &Problem{Kind: UnknownWord, Said: said, Why: "I don't know that word before a weight; a flavouring goes after it", Example: "5 lb " + strings.ToLower(said)}
		if !m.hasWeight() {
			p.Why, p.Example = "I don't know that word", cureExample
		}
		return p
	}
	if p := m.mixByWeight(i); p != nil {
		return p
	}
	piece := &m.pieces[len(m.pieces)-1]
	if n := len(piece.words); n > 0 && m.joined >= 0 && !m.comma {
		piece.words[n-1].to = it.to
	} else {
		piece.words = append(piece.words, wordRange{it.from, it.to, m.comma && n > 0})
	}
	m.comma, m.joined, m.touched = false, i, true
	return nil
}

// mixByWeight refuses a weight that is the salt's or the mix's and no piece: "12
// g curing mix", "30 g salt", "5 lb 2 oz salt". Salt and pepper is a flavouring.
func (m *pieceMaker) mixByWeight(i int) *Problem {
	it := m.items[i]
	n := len(m.pieces)
	if it.key == noKey || n == 0 || !m.inPart || m.touched {
		return nil
	}
	w := m.pieces[n-1]
	const pinch = 250 // grams: less than any belly
	switch {
	case w.Weight < pinch:
	case it.kind == wordItem && i+1 < len(m.items) && m.items[i+1].kind == joinItem:
		return nil
	case n > 1, m.compound(w.weight):
	case it.kind == hardItem && m.items[i-1].kind == weightItem:
	default:
		return nil
	}
	return m.byWeight(w.weight, it)
}

// compound says whether a weight was said in two units: 5 lb 2 oz.
func (m *pieceMaker) compound(it item) bool {
	q, _ := m.quantityAt(it.from)
	return q.to != it.to
}

func (m *pieceMaker) byWeight(weight, it item) *Problem {
	return &Problem{Kind: NotAPercent, Said: m.said(weight.from, it.to), Why: it.key.byWeight(), Example: it.key.example()}
}

// weigh begins a piece.
func (m *pieceMaker) weigh(i int) *Problem {
	it := m.items[i]
	n := len(m.pieces)
	if m.inPart && n > 0 && !m.touched {
		if sameWeight(m.pieces[n-1].Weight, it.grams) {
			return nil // said again in another unit
		}
		if i+1 < len(m.items) && m.items[i+1].key != noKey && m.items[i+1].kind != setItem {
			return m.byWeight(it, m.items[i+1])
		}
		return &Problem{
			Kind: Ambiguous, Said: m.said(m.pieces[n-1].weight.from, it.to), Why: "that is two weights in a row",
			Example: "6 lb, 3 kg",
		}
	}
	if p := m.maybeOunces(i); p != nil {
		return p
	}
	piece := pieceParts{PieceLine: PieceLine{Weight: it.grams}, times: 1, each: m.each && !m.inPart, weight: it}
	if m.inPart { // a new piece without a comma before it
		m.mm, m.rind = nil, nil
	}
	if m.mm != nil {
		piece.Thickness = m.mm.mm
	}
	if m.rind != nil {
		piece.RindOn = ptr(m.rind.on)
	}
	if m.count != nil {
		piece.times = m.count.count
	}
	m.mm, m.rind, m.count = nil, nil, nil
	m.pieces = append(m.pieces, piece)
	m.inPart, m.touched, m.comma, m.joined = true, false, false, -1
	return nil
}

// maybeOunces asks about "4 lb, 8 oz": one piece or two.
func (m *pieceMaker) maybeOunces(i int) *Problem {
	if i < 2 || m.items[i-2].kind != weightItem || m.items[i-1].kind != breakItem && m.items[i-1].kind != joinItem {
		return nil
	}
	big, small := m.items[i-2], m.items[i]
	q, _ := m.quantityAt(big.from)
	s, _ := m.quantityAt(small.from)
	if m.at(big.to).kind == newline || q.unit.symbol != "lb" || q.to != big.to || s.unit.symbol != "oz" || small.grams >= curemath.Pound {
		return nil
	}
	pounds, ounces := m.said(big.from, big.to), m.said(small.from, small.to)
	return &Problem{
		Kind: Ambiguous, Said: m.said(big.from, small.to), Why: "that could be one piece or two",
		Example: working(pounds+" "+ounces, weightExample),
	}
}

func (m *pieceMaker) thick(it *item) *Problem {
	n := len(m.pieces)
	switch {
	case m.inPart && m.pieces[n-1].Thickness == 0:
		m.pieces[n-1].Thickness = it.mm
	case !m.inPart && m.mm == nil:
		m.mm = it
	default:
		return m.twice(it, "one thickness for a piece, please: its thickest part")
	}
	return nil
}

func (m *pieceMaker) skin(it *item) *Problem {
	n := len(m.pieces)
	switch {
	case m.inPart && m.pieces[n-1].RindOn == nil:
		m.pieces[n-1].RindOn = ptr(it.on)
	case !m.inPart && m.rind == nil:
		m.rind = it
	default:
		return m.twice(it, "the rind is on or off, not both")
	}
	return nil
}

func (m *pieceMaker) counted(it *item) *Problem {
	switch {
	case it.times && m.count == nil:
		m.count = it
	case !it.times && m.slabs == nil:
		m.slabs = it
	default:
		return m.twice(it, "that counts the pieces twice")
	}
	return nil
}

func (m *pieceMaker) twice(it *item, why string) *Problem {
	return &Problem{Kind: SaidTwice, Said: m.said(it.from, it.to), Why: why, Example: "6 lb 1.5 in juniper, 3 kg 4 cm coffee"}
}

// endPart closes the part of the line before a comma: what it said without a
// weight holds for the whole line.
func (m *pieceMaker) endPart() *Problem {
	if !m.inPart {
		if m.mm != nil {
			if m.line.Thickness != 0 {
				return m.twice(m.mm, "one thickness for all pieces, please")
			}
			m.line.Thickness = m.mm.mm
		}
		if m.rind != nil {
			if m.line.RindOn != nil {
				return m.twice(m.rind, "the rind is on or off, not both")
			}
			m.line.RindOn = ptr(m.rind.on)
		}
	}
	m.inPart, m.mm, m.rind = false, nil, nil
	return nil
}
