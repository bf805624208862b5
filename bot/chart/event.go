package chart

import (
	"fmt"
	"image/color"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
)

// EventKind says what happened at the pit.
type EventKind int

// The kinds that have a mark of their own.
const (
	Noted EventKind = iota
	WoodAdded
	Wrapped
	Stalled
	FireOut
	TooHot
	eventKinds
)

// Event is something that happened during the smoke.
type Event struct {
	Kind  EventKind
	At    time.Time
	Until time.Time // end of a stall or of another stretch; zero for a moment
	Note  string    // for Noted: what is said of it in the key
}

// mark is the sign of an event in the picture and the word for it in the key.
type mark struct {
	sign, word string
	colour     color.RGBA
}

func (p *page) mark(k EventKind) mark {
	switch k {
	case WoodAdded:
		return mark{"▲", "wood added", p.ink.text}
	case Wrapped:
		return mark{"■", "wrapped", p.ink.text}
	case Stalled:
		return mark{"≈", "stall", p.ink.text}
	case FireOut:
		return mark{"✗", "fire out", p.ink.alarm}
	case TooHot:
		return mark{"⚠", "pit too hot", p.ink.alarm}
	default:
		return mark{"●", "note", p.ink.text}
	}
}

// happened are the events that have a time, by time.
func (d *smokeDay) happened() []Event {
	var out []Event
	for _, e := range d.data.Events {
		if !given(e.At) {
			continue
		}
		if !given(e.Until) {
			e.Until = time.Time{}
		}
		if e.Kind < 0 || e.Kind >= eventKinds {
			e.Kind = Noted
		}
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b Event) int { return a.At.Compare(b.At) })
	return out
}

// eventKey gives one line for each kind that happened: its sign, its word and
// the times, as many as fit.
func (d *smokeDay) eventKey(bottom vg.Length) vg.Length {
	l := d.small().in(d.ink.text)
	events := d.happened()
	for k := range eventKinds {
		var times []string
		for _, e := range events {
			if e.Kind == k {
				times = append(times, d.timesOf(e))
			}
		}
		if len(times) == 0 {
			continue
		}
		m := d.mark(k)
		x := margin + 44
		d.write(l.in(m.colour).at(0.5), margin+16, bottom+8, m.sign)
		x += d.write(l.strong(), x, bottom+8, m.word+" ")
		d.write(l, x, bottom+8, d.fitList(l, times, pageWidth-margin-x))
		bottom += l.line()
	}
	return bottom
}

func (d *smokeDay) timesOf(e Event) string {
	out := d.style.clock(e.At, d.latest)
	if e.Until.After(e.At) {
		out += "–" + d.style.clock(e.Until, e.At)
	}
	if n := d.name(e.Note); n != "" {
		out += " " + n
	}
	return out
}

// fitList joins as many items as fit and says how many are left over.
func (p *page) fitList(l look, items []string, width vg.Length) string {
	for n := len(items); n > 0; n-- {
		s := strings.Join(items[:n], ", ")
		if n < len(items) {
			s += fmt.Sprintf(" and %d more", len(items)-n)
		}
		if n == 1 || p.widthOf(l, s) <= width {
			return p.fit(l, s, width)
		}
	}
	return ""
}
