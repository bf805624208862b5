package chart

import (
	"fmt"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// CalendarData is every running batch of a conversation.
type CalendarData struct {
	Now  time.Time
	Rows []CalendarRow
}

// CalendarRow is one batch: what it has been through, what is planned, what is
// due next.
type CalendarRow struct {
	Batch   int
	Flavour string
	Spans   []Span
	Next    Due
}

// Stage is where a batch is.
type Stage int

// The stages in their order.
const (
	Curing Stage = iota
	Drying
	Smoking
	Cooling
	Packed
	stages
)

// Span is a time in one stage; what lies after Now is drawn as a plan. A zero To
// is a stage still going on with no end planned.
type Span struct {
	Stage    Stage
	From, To time.Time
}

// Due is the next chore; the zero value writes nothing.
type Due struct {
	What string
	At   time.Time
}

const (
	rowHeight   = vg.Length(118)
	barHeight   = vg.Length(52)
	mostRows    = 18
	daysBefore  = 14 * 24 * time.Hour
	daysAfter   = 21 * 24 * time.Hour
	leastWindow = 8 * 24 * time.Hour
)

// Calendar draws a strip for each batch with its stages by colour and pattern, a
// line for now, and the next chore, as a PNG 1080 pixels wide and as high as the
// batches need.
func Calendar(data CalendarData, style Style) ([]byte, error) { return pack(drawCalendar(data, style)) }

func drawCalendar(data CalendarData, style Style) (*page, error) {
	rows := min(len(data.Rows), mostRows)
	height := margin + titleSize + 40 + smallSize*2.6 + rowHeight*vg.Length(max(rows, 1)) + keyRow*2 + margin
	if len(data.Rows) > rows {
		height += smallSize * leading
	}
	p, err := newPage(style, height)
	if err != nil {
		return nil, err
	}
	c := &strip{page: p, data: data, scale: windowOf(data, style)}
	c.draw(height)
	return p, nil
}

type strip struct {
	*page
	data  CalendarData
	scale timeScale
}

// windowOf is the stretch of days shown: what the batches cover, but no more
// than two weeks back and three ahead.
func windowOf(data CalendarData, style Style) timeScale {
	now := data.Now
	if !given(now) {
		for _, r := range data.Rows {
			for _, s := range r.Spans {
				if given(s.From) {
					now = later(now, s.From)
				}
			}
		}
	}
	first, last := now.Add(-24*time.Hour), now.Add(24*time.Hour)
	for _, r := range data.Rows {
		for _, s := range r.Spans {
			if given(s.From) {
				first = earlier(first, s.From)
			}
			last = later(last, s.To)
		}
		last = later(last, r.Next.At)
	}
	first = later(first, now.Add(-daysBefore))
	last = earlier(last, now.Add(daysAfter))
	if last.Sub(first) < leastWindow {
		last = first.Add(leastWindow)
	}
	l := style.local(first)
	start := time.Date(l.Year(), l.Month(), l.Day(), 0, 0, 0, 0, l.Location())
	return timeScale{style: style, start: start, end: last}
}

func (c *strip) x(t time.Time) vg.Length {
	share := c.scale.at(t) / c.scale.at(c.scale.end)
	return margin + (pageWidth-2*margin)*vg.Length(min(max(share, 0), 1))
}

func (c *strip) draw(height vg.Length) {
	title := fmt.Sprintf("%d batches", len(c.data.Rows))
	switch len(c.data.Rows) {
	case 0:
		title = "No batches running"
	case 1:
		title = "One batch"
	}
	top := height - margin - titleSize
	c.write(c.title(), margin, top+4, title)
	if given(c.data.Now) {
		now := c.style.local(c.data.Now).Format("Mon 2 Jan, ") + c.style.clock(c.data.Now, time.Time{})
		c.write(c.small().at(1), pageWidth-margin, top+4, now)
	}
	top -= 40
	rows := c.data.Rows[:min(len(c.data.Rows), mostRows)]
	body := top - smallSize*2.6
	foot := body - rowHeight*vg.Length(max(len(rows), 1))
	c.days(top, foot)
	for i, r := range rows {
		c.row(r, body-rowHeight*vg.Length(i))
	}
	if given(c.data.Now) {
		c.StrokeLine2(draw.LineStyle{Color: c.ink.text, Width: 4, Dashes: []vg.Length{12, 6}}, c.x(c.data.Now), foot, c.x(c.data.Now), body+6)
	}
	if more := c.data.Rows[len(rows):]; len(more) > 0 {
		var names []string
		for _, r := range more {
			names = append(names, fmt.Sprint(r.Batch))
		}
		foot -= smallSize * leading
		c.write(c.small(), margin, foot+8, c.fitList(c.small(), append([]string{"also running: " + names[0]}, names[1:]...), pageWidth-2*margin))
	}
	c.key(foot - 12)
}

// days rules a line for each day and writes the dates, as dense as they fit.
func (c *strip) days(top, foot vg.Length) {
	l := c.small().in(c.ink.text)
	free := vg.Length(0)
	for _, t := range c.scale.walk(24*60, 1) {
		x := c.x(t.at)
		c.StrokeLine2(draw.LineStyle{Color: c.ink.grid, Width: 2}, x, foot, x, top-smallSize*2.4)
		local := c.style.local(t.at)
		number, word := local.Format("2"), local.Format("Mon")
		if local.Day() == 1 || free == 0 {
			number = local.Format("2 Jan")
		}
		w := max(c.widthOf(l, number), c.widthOf(l, word))
		if x < free || x+w > pageWidth-margin/2 {
			continue
		}
		c.write(l.strong(), x+4, top-smallSize, number)
		c.write(l.in(c.ink.muted), x+4, top-smallSize*2.15, word)
		free = x + w + 20
	}
}

func (c *strip) key(top vg.Length) {
	l := c.small().in(c.ink.text)
	x := margin
	y := top - keyRow
	for s := range stages {
		fill, how := c.stageLook(s)
		word := s.String()
		c.patterned(rect(x, y, x+48, y+32), fill, c.stageLine(fill), how)
		c.write(l, x+58, y+6, word)
		x += 58 + c.widthOf(l, word) + 30
	}
	c.write(c.small(), margin, y-keyRow+6, strings.Join([]string{"faded: planned", "dashed line: now"}, " · "))
}
