package chart

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

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
