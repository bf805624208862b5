package chart

import (
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

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

// tip is the end of a curve and the badge that names it.
type tip struct {
	at     vg.Point
	word   string
	value  string
	stroke stroke
}

// ends names each curve beside its last reading, moved apart where curves end
// together, with a thin line from the curve to its name.
func (d *smokeDay) ends(c draw.Canvas, x, y func(float64) vg.Length) {
	const (
		gap      = vg.Length(36)
		out      = vg.Length(46)
		abreast  = vg.Length(58)
		together = 130 // pixels within which ends share one column of names
	)
	columns := map[int][]tip{}
	var order []int
	add := func(readings []Reading, word string, s stroke) {
		if len(readings) == 0 {
			return
		}
		last := readings[len(readings)-1]
		t := tip{
			at:     vg.Point{X: x(d.scale.at(last.At)), Y: y(d.style.degrees(last.Temp))},
			word:   word,
			value:  d.style.bareDegrees(last.Temp) + "°",
			stroke: s,
		}
		back := int(x(d.scale.at(d.latest))-t.at.X) / together
		if _, ok := columns[back]; !ok {
			order = append(order, back)
		}
		columns[back] = append(columns[back], t)
	}
	for _, q := range d.pieces {
		add(q.core, q.ref, q.stroke)
	}
	add(d.pit, "pit", d.pitStroke())
	for _, k := range order {
		tips := columns[k]
		var right vg.Length
		want := make([]float64, len(tips))
		for i, t := range tips {
			right = max(right, t.at.X)
			want[i] = float64(t.at.Y)
		}
		side := min(right+out, c.Max.X-30)
		rows := max(1, int((c.Max.Y-c.Min.Y)/gap))
		abreastBy := (len(tips) + rows - 1) / rows
		places := spreadOut(want, float64(gap)/float64(abreastBy), float64(c.Min.Y)+20, float64(c.Max.Y)-20)
		rank := ranks(places)
		place := func(i int) vg.Point {
			x := side + abreast*vg.Length(rank[i]%abreastBy)
			return vg.Point{X: min(x, c.Max.X-24), Y: vg.Length(places[i])}
		}
		for i, t := range tips {
			at := place(i)
			d.StrokeLine2(draw.LineStyle{Color: t.stroke.colour, Width: 2}, t.at.X, t.at.Y, at.X, at.Y)
		}
		for i, t := range tips {
			at := place(i)
			d.badge(d.small(), at, t.word, t.stroke)
			if d.valuesAtEnds() {
				w := max(d.widthOf(d.small().strong(), t.word), d.small().size) / 2
				d.backed(d.small().in(d.ink.text), at.X+w+16, at.Y-10, t.value)
			}
		}
	}
}

// valuesAtEnds tells whether there is room to write the last readings beside the
// ends; a forecast is drawn there, and a crowd leaves none. The key has them too.
func (d *smokeDay) valuesAtEnds() bool {
	return len(d.pieces) <= crowd && len(d.shownFinishes()) == 0
}

// ranks gives each value's place from the lowest up.
func ranks(v []float64) []int {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case v[a] < v[b]:
			return -1
		case v[a] > v[b]:
			return 1
		}
		return a - b
	})
	out := make([]int, len(v))
	for r, i := range order {
		out[i] = r
	}
	return out
}
