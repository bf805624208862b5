package chart

import (
	"strings"
	"unicode"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	tileHeight  = vg.Length(122)
	tileGap     = vg.Length(16)
	valueSize   = vg.Length(50)
	curveHeight = vg.Length(420)
)

// text makes something typed, a sentence or more, fit to set on lines of its own.
func (p *page) text(s string) string { return p.faces.Clean(firstRunes(s, textLimit), unicode.MaxRune) }

// tiles are boxes with one figure each, three abreast, or two if they are four
// or fewer.
func (p *page) tiles(facts []Fact) block {
	columns := 3
	if len(facts) <= 4 {
		columns = 2
	}
	columns = min(columns, len(facts))
	rows := (len(facts) + columns - 1) / columns
	width := (pageWidth-2*margin+tileGap)/vg.Length(columns) - tileGap
	return block{
		height: vg.Length(rows)*(tileHeight+tileGap) + 8,
		draw: func(p *page, top vg.Length) error {
			for i, f := range facts {
				x := margin + vg.Length(i%columns)*(width+tileGap)
				y := top - vg.Length(i/columns+1)*(tileHeight+tileGap) + 4
				p.box(rect(x, y, x+width, y+tileHeight), p.ink.panel)
				value := p.title().sized(valueSize)
				room := width - 40
				if s, c := p.sign(f.Verdict); s != "" {
					p.write(value.in(c).at(1), x+width-18, y+56, s)
					room -= 56
				}
				value = p.shrunk(value, p.name(f.Value), room)
				p.write(value, x+20, y+56, p.fit(value, p.name(f.Value), room))
				label := p.small()
				p.write(label, x+20, y+18, p.fit(label, p.name(f.Label), width-40))
			}
			return nil
		},
	}
}

// shrunk sets a line smaller, down to body size, if it would not fit else.
func (p *page) shrunk(l look, s string, width vg.Length) look {
	if w := p.widthOf(l, s); w > width {
		l.size = max(l.size*width/w, bodySize)
	}
	return l
}

// heading2 is a word over a group, with a rule.
func (p *page) heading2(word string) block {
	l := p.body().strong()
	return block{
		height: l.line() + 26,
		draw: func(p *page, top vg.Length) error {
			y := top - 16 - l.size
			p.write(l.in(p.ink.text), margin, y, p.fit(l, p.name(word), pageWidth-2*margin))
			p.StrokeLine2(draw.LineStyle{Color: p.ink.grid, Width: 3}, margin, y-12, pageWidth-margin, y-12)
			return nil
		},
	}
}

// fact is a label on the left and its value, wrapped, on the right. A label of
// none gives the value the whole width.
func (p *page) fact(f Fact) block {
	label, value := p.body().in(p.ink.muted), p.body()
	x := margin + labelWidth
	name := p.name(f.Label)
	if name == "" {
		x = margin
	}
	room := pageWidth - margin - x
	sign, colour := p.sign(f.Verdict)
	if sign != "" {
		room -= 48
	}
	lines := p.paragraph(value, f.Value, room, valueLines)
	rows := max(len(lines), 1)
	return block{
		height: vg.Length(rows)*value.line() + 6,
		draw: func(p *page, top vg.Length) error {
			y := top - value.size
			p.write(label, margin, y, p.fit(label, name, labelWidth-16))
			if sign != "" {
				p.write(value.strong().in(colour), x, y, sign)
				x += 48
			}
			for i, line := range lines {
				p.write(value, x, y-value.line()*vg.Length(i), line)
			}
			return nil
		},
	}
}

// paragraph wraps a text to a number of lines; the last ends in an ellipsis if
// there was more.
func (p *page) paragraph(l look, s string, width vg.Length, most int) []string {
	lines := p.wrap(l, p.text(s), width)
	if len(lines) > most {
		rest := strings.Join(lines[most-1:], " ")
		lines = append(lines[:most-1:most-1], p.fit(l, rest, width))
	}
	return lines
}

// note is what someone said, behind a bar.
func (p *page) note(s string) block {
	l := p.body()
	lines := p.paragraph(l, s, pageWidth-2*margin-34, valueLines)
	height := vg.Length(len(lines))*l.line() + 14
	return block{
		height: height,
		draw: func(p *page, top vg.Length) error {
			p.box(rect(margin, top-height+10, margin+8, top-2), p.ink.muted)
			for i, line := range lines {
				p.write(l, margin+30, top-l.size-l.line()*vg.Length(i), line)
			}
			return nil
		},
	}
}

// sentence is a text over the whole width.
func (p *page) sentence(s string, l look) block {
	lines := p.paragraph(l, s, pageWidth-2*margin, sentenceLines)
	return block{
		height: vg.Length(len(lines))*l.line() + 24,
		draw: func(p *page, top vg.Length) error {
			for i, line := range lines {
				p.write(l, margin, top-18-l.size-l.line()*vg.Length(i), line)
			}
			return nil
		},
	}
}

// smallCurve is the smoke in small: curves and limits, no key.
func smallCurve(data SmokeData) block {
	return block{
		height: curveHeight,
		draw: func(p *page, top vg.Length) error {
			data.Events = nil
			d := newSmokeDay(p, data)
			for i := range d.pieces {
				d.pieces[i].finish = Finish{}
			}
			d.scale = d.span()
			return d.curves(rect(margin, top-curveHeight+10, pageWidth-margin, top))
		},
	}
}
