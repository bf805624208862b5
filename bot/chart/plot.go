package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// layer draws one thing over the others on the plotting ground; x and y turn
// values into places.
type layer func(c draw.Canvas, x, y func(float64) vg.Length)

// Plot makes a layer something the plotting library draws.
func (l layer) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	l(c, x, y)
}

// plot gives an empty plot with our lettering, a grid and no box.
func (p *page) plot() *plot.Plot {
	q := plot.New()
	q.BackgroundColor = nil
	q.TextHandler = p.handler()
	for _, a := range []*plot.Axis{&q.X, &q.Y} {
		a.LineStyle = draw.LineStyle{Color: p.ink.muted, Width: 2}
		a.Padding = 0
		align, valign := a.Tick.Label.XAlign, a.Tick.Label.YAlign
		a.Tick.Label = p.textStyle(p.small().in(p.ink.text))
		a.Tick.Label.XAlign, a.Tick.Label.YAlign = align, valign
		a.Tick.LineStyle = draw.LineStyle{Color: p.ink.muted, Width: 2}
		a.Tick.Length = 8
		a.Label.TextStyle = p.textStyle(p.small())
	}
	grid := plotter.NewGrid()
	grid.Vertical = draw.LineStyle{Color: p.ink.grid, Width: 2}
	grid.Horizontal = grid.Vertical
	q.Add(grid)
	return q
}

// ground is the part of a plot's canvas the curves are drawn in.
func ground(c draw.Canvas, q *plot.Plot) vg.Rectangle { return q.DataCanvas(c).Rectangle }

// crop gives the part of the page a plot is drawn in.
func (p *page) crop(r vg.Rectangle) draw.Canvas {
	return draw.Canvas{Canvas: p.Canvas.Canvas, Rectangle: r}
}

// curveOf makes a clipped line of points.
func curveOf(xy plotter.XYs, s stroke) (*plotter.Line, error) {
	line, err := plotter.NewLine(xy)
	if err != nil {
		return nil, err
	}
	line.LineStyle = s.line()
	return line, nil
}

// badge writes a short word on a pill of a colour, centred on a place.
func (p *page) badge(l look, at vg.Point, s string, fill stroke) {
	l.colour = p.ink.paper
	l.bold = true
	w := max(p.widthOf(l, s)+18, l.size*1.25)
	h := l.size * 1.3
	radius := h / 2
	var path vg.Path
	path.Move(vg.Point{X: at.X - w/2 + radius, Y: at.Y - radius})
	path.Line(vg.Point{X: at.X + w/2 - radius, Y: at.Y - radius})
	path.Arc(vg.Point{X: at.X + w/2 - radius, Y: at.Y}, radius, -halfTurn/2, halfTurn)
	path.Line(vg.Point{X: at.X - w/2 + radius, Y: at.Y + radius})
	path.Arc(vg.Point{X: at.X - w/2 + radius, Y: at.Y}, radius, halfTurn/2, halfTurn)
	path.Close()
	p.SetColor(fill.colour)
	p.Fill(path)
	p.write(l.at(0.5), at.X, at.Y-l.size*0.34, s)
}

const halfTurn = 3.141592653589793

// backed writes on a patch of paper, so that curves behind do not strike it out.
func (p *page) backed(l look, x, y vg.Length, s string) {
	w := p.widthOf(l, s)
	left := x - w*vg.Length(l.align)
	p.box(rect(left-4, y-l.size*0.22, left+w+4, y+l.size*0.86), p.ink.paper)
	p.write(l, x, y, s)
}
