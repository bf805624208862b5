package chart

import (
	"fmt"
	"slices"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Finish is when a piece is thought to reach the target: an estimate and its
// range. The zero value draws nothing.
type Finish struct {
	Low, Typical, High time.Time
}

func (f Finish) known() bool { return given(f.Low) && given(f.Typical) && given(f.High) }

// after puts the three times in order and none of them before the last reading.
// A range that is all in the past says nothing any more.
func (f Finish) after(last time.Time) Finish {
	t := []time.Time{f.Low, f.Typical, f.High}
	slices.SortFunc(t, time.Time.Compare)
	if !f.known() || !t[2].After(last) {
		return Finish{}
	}
	return Finish{later(t[0], last), later(t[1], last), t[2]}
}

// linesOfFinish is how many pieces' finish is spelt out before the rest is
// summed up.
const linesOfFinish = 3

// finishLines say in words when the pieces should be done, and that this is an
// estimate; it gives the height left.
func (d *smokeDay) finishLines(top vg.Length) vg.Length {
	var expected []drawnPiece
	for _, q := range d.pieces {
		if q.finish.known() {
			expected = append(expected, q)
		}
	}
	if len(expected) == 0 {
		return top
	}
	slices.SortStableFunc(expected, func(a, b drawnPiece) int { return a.finish.Typical.Compare(b.finish.Typical) })
	var lines []string
	if len(expected) <= linesOfFinish {
		for _, q := range expected {
			lines = append(lines, d.finishOf(q, q.ref+" done about "))
		}
	} else {
		lines = []string{
			d.finishOf(expected[0], "First "+expected[0].ref+", about "),
			d.finishOf(expected[len(expected)-1], "Last "+expected[len(expected)-1].ref+", about "),
		}
	}
	for _, line := range lines {
		top -= d.body().line()
		d.write(d.body(), margin, top+8, d.fit(d.body(), line, pageWidth-2*margin))
	}
	return top
}

func (d *smokeDay) finishOf(q drawnPiece, intro string) string {
	clock := func(t time.Time) string { return d.style.clock(t, q.finish.Typical) }
	share := ""
	if s := d.data.Share; s > 0 && s < 100 {
		share = fmt.Sprintf(", %.0f %%", float64(s))
	}
	return fmt.Sprintf("%s%s (%s–%s%s), an estimate", intro, d.style.clock(q.finish.Typical, d.latest), clock(q.finish.Low), clock(q.finish.High), share)
}

// shownFinishes are the pieces whose finish is drawn: all if they are few, else
// the first and the last to be done.
func (d *smokeDay) shownFinishes() []drawnPiece {
	var out []drawnPiece
	for _, q := range d.pieces {
		if q.finish.known() {
			out = append(out, q)
		}
	}
	if len(out) <= linesOfFinish {
		return out
	}
	slices.SortStableFunc(out, func(a, b drawnPiece) int { return a.finish.Typical.Compare(b.finish.Typical) })
	return []drawnPiece{out[0], out[len(out)-1]}
}

// addFinishes draws the way from the last reading to the target: a shaded band
// between the earliest and the latest finish, a dotted line to the typical one.
func (d *smokeDay) addFinishes(q *plot.Plot) error {
	target, ok := d.limit(d.data.Target)
	if !ok {
		return nil
	}
	shown := d.shownFinishes()
	for _, p := range shown {
		from := d.points(p.core[len(p.core)-1:])[0]
		to := func(f float64) plotter.XY { return plotter.XY{X: f, Y: target} }
		low, typical, high := d.scale.at(p.finish.Low), d.scale.at(p.finish.Typical), d.scale.at(p.finish.High)
		band, err := plotter.NewPolygon(plotter.XYs{from, to(low), to(high)})
		if err != nil {
			return err
		}
		band.Color = mix(p.stroke.colour, d.ink.paper, 0.2)
		band.LineStyle = draw.LineStyle{Color: p.stroke.colour, Width: 2}
		way, err := curveOf(plotter.XYs{from, to(typical)}, stroke{p.stroke.colour, []vg.Length{3, 9}, 4})
		if err != nil {
			return err
		}
		dot, err := plotter.NewScatter(plotter.XYs{to(typical)})
		if err != nil {
			return err
		}
		dot.GlyphStyle = draw.GlyphStyle{Color: p.stroke.colour, Radius: 8, Shape: draw.CircleGlyph{}}
		q.Add(band, way)
		if typical <= d.scale.at(d.scale.end) {
			q.Add(dot)
		}
	}
	return nil
}
