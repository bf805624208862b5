package chart

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/plot/vg"

	"larderhand/curemath"
)

// SmokeData is a day at the pit.
type SmokeData struct {
	Batch   int
	Flavour string
	Pit     []Reading // in any order; broken readings are left out
	Pieces  []SmokePiece
	Target  curemath.Celsius // core target; 0 draws no line
	Ceiling curemath.Celsius // the pit's upper limit; 0 draws no line
	Events  []Event
	// Share is how often the finish ranges are meant to hold (80 %); 0 leaves the
	// figure out.
	Share curemath.Percent
}

// SmokePiece is one piece in the smoke.
type SmokePiece struct {
	Ref    string // short: a, b, 12
	Name   string // may be empty
	Core   []Reading
	Finish Finish
}

const smokeHeight = vg.Length(1350)

// Smoke draws the curves of pit and pieces against the clock, with target,
// ceiling, expected finish and what happened, as a PNG of 1080 by 1350 pixels.
func Smoke(data SmokeData, style Style) ([]byte, error) { return pack(drawSmoke(data, style)) }

func drawSmoke(data SmokeData, style Style) (*page, error) {
	p, err := newPage(style, smokeHeight)
	if err != nil {
		return nil, err
	}
	d := newSmokeDay(p, data)
	top := p.heading(smokeHeight-margin, p.batchTitle(data.Batch, data.Flavour), d.subtitle())
	top = d.finishLines(top)
	bottom := d.keys(margin)
	if err := d.curves(rect(margin, bottom, pageWidth-margin, top)); err != nil {
		return nil, err
	}
	return p, nil
}

// batchTitle is "Batch 3 · juniper".
func (p *page) batchTitle(batch int, flavour string) string {
	title := fmt.Sprintf("Batch %d", batch)
	if f := p.name(flavour); f != "" {
		title += " · " + f
	}
	return title
}

// heading sets a title and a line under it, and gives the height left.
func (p *page) heading(top vg.Length, title, under string) vg.Length {
	width := pageWidth - 2*margin
	top -= titleSize
	p.write(p.title(), margin, top+4, p.fit(p.title(), title, width))
	top -= p.small().line() + 4
	p.write(p.small(), margin, top+8, p.fit(p.small(), under, width))
	return top
}

// smokeDay is the data made fit to draw.
type smokeDay struct {
	*page
	data   SmokeData
	pit    []Reading
	pieces []drawnPiece
	scale  timeScale
	latest time.Time // of any reading
}

type drawnPiece struct {
	ref, name string
	core      []Reading
	finish    Finish
	stroke    stroke
}

// most pieces drawn; a batch of more is not read off a phone.
const mostPieces = 26

// crowd is how many pieces still leave room for marks on their readings.
const crowd = 8

func newSmokeDay(p *page, data SmokeData) *smokeDay {
	d := &smokeDay{page: p, data: data, pit: tidy(data.Pit)}
	for i, q := range data.Pieces[:min(len(data.Pieces), mostPieces)] {
		ref := pieceWord(firstRunes(p.faces.Clean(firstRunes(q.Ref, nameLimit), unicode.MaxRune), 3))
		piece := drawnPiece{
			ref:    cmp.Or(ref, letterOf(i)),
			name:   p.name(q.Name),
			core:   tidy(q.Core),
			stroke: p.ink.curve(i),
		}
		if len(data.Pieces) > crowd {
			piece.stroke.width = 3
		}
		if n := len(piece.core); n > 0 && data.Target > 0 {
			piece.finish = q.Finish.after(piece.core[n-1].At)
		}
		d.pieces = append(d.pieces, piece)
	}
	d.scale = d.span()
	return d
}

// pieceWord writes a piece's letter large, as people speak of it.
func pieceWord(ref string) string {
	if utf8.RuneCountInString(ref) <= 3 {
		return strings.ToUpper(ref)
	}
	return ref
}

func letterOf(i int) string { return string(rune('A' + i%26)) }

// span is the time the picture covers: every reading, what happened, and the
// finish if that does not push the readings into a corner.
func (d *smokeDay) span() timeScale {
	var first, last time.Time
	see := func(t time.Time) {
		if !given(t) {
			return
		}
		if first.IsZero() || t.Before(first) {
			first = t
		}
		if last.IsZero() || t.After(last) {
			last = t
		}
	}
	for _, c := range d.allCurves() {
		if len(c) > 0 {
			see(c[0].At)
			see(c[len(c)-1].At)
		}
	}
	d.latest = last
	for _, e := range d.happened() {
		see(e.At)
		see(e.Until)
	}
	if first.IsZero() {
		first = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
		last = first
	}
	if last.Sub(first) < 20*time.Minute {
		first, last = first.Add(-20*time.Minute), last.Add(20*time.Minute)
	}
	length := last.Sub(first)
	end := last.Add(time.Duration(float64(length) * d.roomForNames()))
	furthest := last.Add(max(6*time.Hour, length*3/2))
	for _, q := range d.pieces {
		if q.finish.known() {
			end = later(end, earlier(q.finish.High.Add(length/20), furthest))
		}
	}
	return timeScale{style: d.style, start: first, end: end}
}

// roomForNames is the share of the readings' length kept free to their right for
// the names at the ends of the curves.
func (d *smokeDay) roomForNames() float64 {
	const width, inRow, rows = 800.0, 58.0, 12
	need := 60 + inRow*float64(1+len(d.pieces)/rows)
	if d.valuesAtEnds() {
		need += 56
	}
	return need / (width - need)
}

func (d *smokeDay) allCurves() [][]Reading {
	out := [][]Reading{d.pit}
	for _, q := range d.pieces {
		out = append(out, q.core)
	}
	return out
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// subtitle says what is drawn and when: "Smoke day · Fri 14 – Sat 15 Mar 2025, CET".
func (d *smokeDay) subtitle() string {
	if d.latest.IsZero() {
		return "Smoke day · no readings yet"
	}
	from, to := d.style.local(d.scale.start), d.style.local(d.latest)
	when := to.Format("Mon 2 Jan 2006, MST")
	if day(from) != day(to) {
		when = from.Format("Mon 2 Jan") + " – " + when
	}
	return "Smoke day · " + when
}
