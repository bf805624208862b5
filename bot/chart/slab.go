package chart

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// draw sets the plot into a part of the page.
func (s *slab) draw(r vg.Rectangle) error {
	q := s.plot()
	unit := s.small().in(s.ink.text)
	r.Max.Y -= bodySize + 8
	s.write(unit, r.Min.X, r.Max.Y+10, "salt, % of final")
	r.Min.Y += unit.line()
	r.Max.X -= 16
	c := s.crop(r)
	q.Add(layer(s.evened))
	for _, p := range slices.Backward(s.profiles) {
		line, err := curveOf(p.xy, p.stroke)
		if err != nil {
			return err
		}
		q.Add(line)
	}
	q.Add(layer(s.marks))
	q.X.Min, q.X.Max = 0, max(s.depth, 1e-3) // after Add, which widens them
	q.Y.Min, q.Y.Max = 0, s.highest()
	q.X.Tick.Marker = plot.ConstantTicks(nil)
	if s.depth > 0 {
		q.X.Tick.Marker = plot.ConstantTicks(numberTicks(0, q.X.Max, 8))
	}
	q.Y.Tick.Marker = plot.ConstantTicks(numberTicks(0, q.Y.Max, 8))
	q.Draw(c)
	g := ground(c, q)
	faces := []string{"face", "face"}
	if s.data.RindOn {
		faces[1] = "rind"
	}
	s.write(unit.strong(), g.Min.X, r.Min.Y-unit.size, faces[0])
	s.write(unit.at(0.5), (g.Min.X+g.Max.X)/2, r.Min.Y-unit.size, "depth, "+s.style.thicknessUnit())
	s.write(unit.strong().at(1), g.Max.X, r.Min.Y-unit.size, faces[1])
	if len(s.profiles) == 0 {
		s.backed(s.body().at(0.5), (g.Min.X+g.Max.X)/2, (g.Min.Y+g.Max.Y)/2, "Nothing to show yet")
	}
	return nil
}

func (s *slab) highest() float64 {
	high := 110.0
	for _, p := range s.profiles {
		for _, v := range p.xy {
			high = max(high, v.Y*1.05)
		}
	}
	return min(high, highestShare*100)
}

// evened is the line the salt settles at.
func (s *slab) evened(c draw.Canvas, _, y func(float64) vg.Length) {
	s.rule(stroke{s.ink.text, []vg.Length{14, 8}, 3}, c.Min.X, y(100), c.Max.X)
}

// marks are the day numbers on the curves and today's range at the slowest place.
func (s *slab) marks(c draw.Canvas, x, y func(float64) vg.Length) {
	at, badges := s.depth/2, s.depth*0.39
	if s.data.RindOn {
		at, badges = s.depth*0.985, s.depth*0.66
	}
	var want []float64
	for _, p := range s.profiles {
		want = append(want, float64(y(min(near(p.xy, badges), s.highest()))))
	}
	for i, v := range spreadOut(want, 36, float64(c.Min.Y)+20, float64(c.Max.Y)-20) {
		p := s.profiles[i]
		s.badge(s.small(), vg.Point{X: x(badges), Y: vg.Length(v)}, fmt.Sprint(p.day), p.stroke)
	}
	low, typical, high, ok := s.slowest()
	if !ok {
		return
	}
	bar := draw.LineStyle{Color: s.ink.text, Width: 5}
	top := min(y(high), c.Max.Y)
	s.StrokeLine2(bar, x(at), y(low), x(at), top)
	for _, end := range []vg.Length{y(low), top} {
		s.StrokeLine2(bar, x(at)-14, end, x(at)+14, end)
	}
	dot := draw.GlyphStyle{Color: s.ink.text, Radius: 11, Shape: draw.CircleGlyph{}}
	s.DrawGlyph(dot, vg.Point{X: x(at), Y: min(y(typical), c.Max.Y)})
}

// near gives the curve's value at the point closest to a depth.
func near(xy plotter.XYs, depth float64) float64 {
	best := xy[0]
	for _, v := range xy {
		if math.Abs(v.X-depth) < math.Abs(best.X-depth) {
			best = v
		}
	}
	return best.Y
}
