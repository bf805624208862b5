package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// pattern tells a bar from its neighbours without its colour.
type pattern int

const (
	solid pattern = iota
	slanted
	crossed
	level
	hollow
)

// patterned fills a box with a colour and draws a pattern over it.
func (p *page) patterned(r vg.Rectangle, fill, over color.RGBA, how pattern) {
	if r.Max.X <= r.Min.X || r.Max.Y <= r.Min.Y {
		return
	}
	const step, width = vg.Length(14), vg.Length(3)
	ls := draw.LineStyle{Color: over, Width: width}
	p.box(r, fill)
	switch how {
	case slanted:
		p.slants(r, ls, step, 1)
	case crossed:
		p.slants(r, ls, step, 1)
		p.slants(r, ls, step, -1)
	case level:
		for y := r.Min.Y + step/2; y < r.Max.Y; y += step {
			p.StrokeLine2(ls, r.Min.X, y, r.Max.X, y)
		}
	}
	edge := draw.LineStyle{Color: over, Width: width}
	p.StrokeLines(edge, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}, r.Min})
}

// slants draws lines at 45° across a box, rising (1) or falling (-1), cut at its
// edges.
func (p *page) slants(r vg.Rectangle, ls draw.LineStyle, step vg.Length, way float64) {
	w, h := r.Max.X-r.Min.X, r.Max.Y-r.Min.Y
	for off := step - h; off < w; off += step {
		x0, x1 := max(off, 0), min(off+h, w)
		y0, y1 := x0-off, x1-off
		if way < 0 {
			y0, y1 = h-y0, h-y1
		}
		p.StrokeLine2(ls, r.Min.X+x0, r.Min.Y+y0, r.Min.X+x1, r.Min.Y+y1)
	}
}
