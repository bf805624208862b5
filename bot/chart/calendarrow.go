package chart

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"gonum.org/v1/plot/vg"
)

// row draws one batch below a height: words first, its bar under them.
func (c *strip) row(r CalendarRow, top vg.Length) {
	base := top - 44
	next, alarm := c.due(r.Next)
	l := c.body()
	due := c.small().in(c.ink.text).at(1)
	if alarm {
		due = due.in(c.ink.alarm).strong()
	}
	const half = (pageWidth - 2*margin) * 0.56
	next = c.fit(due, next, half)
	room := pageWidth - 2*margin - c.widthOf(due, next) - 24
	name := fmt.Sprint(r.Batch)
	if f := c.page.name(r.Flavour); f != "" {
		name += " · " + f
	}
	name = c.fit(l.strong(), name, room)
	c.box(rect(margin-4, base-8, margin+c.widthOf(l.strong(), name)+6, base+l.size), c.ink.paper)
	c.write(l.strong(), margin, base, name)
	if next != "" {
		c.box(rect(pageWidth-margin-c.widthOf(due, next)-6, base-8, pageWidth-margin+4, base+l.size), c.ink.paper)
		c.write(due, pageWidth-margin, base, next)
	}
	bar := base - 14
	spans := slices.Clone(r.Spans)
	slices.SortStableFunc(spans, func(a, b Span) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Stage, b.Stage))
	})
	for _, s := range spans {
		c.span(s, bar)
	}
}

// due is the next chore in words, and whether its time has passed.
func (c *strip) due(d Due) (words string, late bool) {
	what := c.page.name(d.What)
	if what == "" {
		return "", false
	}
	if !given(d.At) {
		return "next: " + what, false
	}
	when := c.style.clock(d.At, c.data.Now)
	if gap := d.At.Sub(c.data.Now); gap > 6*24*time.Hour || gap < -6*24*time.Hour {
		when = c.style.local(d.At).Format("2 Jan")
	}
	if given(c.data.Now) && d.At.Before(c.data.Now) {
		return fmt.Sprintf("⚠ late: %s, %s", what, when), true
	}
	return fmt.Sprintf("next: %s, %s", what, when), false
}

// span draws one stage; the part after now in a lighter shade, as a plan.
func (c *strip) span(s Span, top vg.Length) {
	if s.To.IsZero() {
		s.To = c.data.Now
	}
	if !given(s.From) || !given(s.To) || !s.To.After(s.From) || s.Stage < 0 || s.Stage >= stages {
		return
	}
	x0, x1 := c.x(s.From), c.x(s.To)
	if x1-x0 < 1 {
		return // all of it before or after the days shown
	}
	fill, how := c.stageLook(s.Stage)
	plan := mix(fill, c.ink.paper, 0.35)
	now := x1
	if given(c.data.Now) {
		now = min(max(c.x(c.data.Now), x0), x1)
	}
	r := func(a, b vg.Length) vg.Rectangle { return rect(a, top-barHeight, b, top) }
	c.patterned(r(x0, x1), plan, c.stageLine(plan), how)
	c.patterned(r(x0, now), fill, c.stageLine(fill), how)
	word := s.Stage.String()
	if s.From.Before(c.scale.start) {
		word = "‹ " + word
	}
	if s.To.After(c.scale.end) {
		word += " ›"
	}
	l := c.small()
	if w := c.widthOf(l, word); w+16 < x1-x0 {
		at := x0 + 8
		over, ink := fill, c.stageInk(s.Stage)
		if x0+8+w > now {
			if x1-now > w+20 {
				at, over, ink = now+10, plan, c.ink.text
			} else if x0 == now {
				over, ink = plan, c.ink.text
			}
		}
		if how != solid {
			c.box(rect(at-4, top-barHeight+8, at+w+4, top-8), over)
		}
		c.write(l.in(ink), at, top-barHeight+16, word)
	}
}
