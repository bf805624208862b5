package chart

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
)

const (
	keyRow    = vg.Length(44)
	keySample = vg.Length(86)
	keyShort  = vg.Length(60) // where three columns leave little room for words
)

// keys sets, from the bottom up, the events and which curve is which; it gives
// the height they end at.
func (d *smokeDay) keys(bottom vg.Length) vg.Length {
	bottom = d.eventKey(bottom)
	return d.curveKey(bottom) + 6
}

type keyEntry struct {
	sample stroke
	words  string
}

// curveKey shows each curve's stroke beside its letter and name, in as many
// columns as the number of curves asks for.
func (d *smokeDay) curveKey(bottom vg.Length) vg.Length {
	var entries []keyEntry
	if len(d.pit) > 0 {
		entries = append(entries, keyEntry{d.pitStroke(), "pit " + d.style.bareDegrees(d.pit[len(d.pit)-1].Temp) + "°"})
	}
	for _, q := range d.pieces {
		entries = append(entries, keyEntry{q.stroke, d.described(q)})
	}
	if more := len(d.data.Pieces) - len(d.pieces); more > 0 {
		entries = append(entries, keyEntry{words: fmt.Sprintf("and %d more", more)})
	}
	columns := columnsFor(len(entries), d.named())
	rows := (len(entries) + columns - 1) / columns
	width := (pageWidth - 2*margin) / vg.Length(columns)
	sample := keySample
	if columns > 2 {
		sample = keyShort
	}
	l := d.small().in(d.ink.text)
	for i, e := range entries {
		x := margin + width*vg.Length(i/rows)
		y := bottom + keyRow*vg.Length(rows-1-i%rows)
		if e.sample.width > 0 {
			d.rule(e.sample, x, y+18, x+sample)
		}
		d.write(l, x+sample+12, y+8, d.fit(l, e.words, width-sample-24))
	}
	return bottom + keyRow*vg.Length(rows)
}

// described is a piece as the key has it: letter, last reading, name.
func (d *smokeDay) described(q drawnPiece) string {
	parts := []string{q.ref}
	if n := len(q.core); n > 0 {
		parts = append(parts, d.style.bareDegrees(q.core[n-1].Temp)+"°")
	}
	return strings.Join(append(parts, q.name), " ")
}

func columnsFor(entries int, named bool) int {
	switch {
	case entries == 0:
		return 1
	case !named:
		return 4
	case entries <= 12:
		return 2
	default:
		return 3
	}
}

func (d *smokeDay) named() bool {
	for _, q := range d.pieces {
		if q.name != "" {
			return true
		}
	}
	return false
}

// rule draws a level line.
func (p *page) rule(s stroke, x0, y, x1 vg.Length) {
	p.StrokeLine2(s.line(), x0, y, x1, y)
}

func (d *smokeDay) pitStroke() stroke { return stroke{colour: d.ink.muted, width: 3} }
