package chart

import (
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"larderhand/curemath"
)

const (
	limitWidth = vg.Length(118) // margin on the right for the names of the limits
	signLane   = vg.Length(40)  // height of one row of event signs over the plot
)

// curves draws the plot itself into a part of the page.
func (d *smokeDay) curves(r vg.Rectangle) error {
	q := d.plot()

	r.Max.X -= limitWidth
	r.Max.Y -= bodySize + 8 // the unit stands over its axis
	lanes := d.signs(nil, nil)
	r.Max.Y -= signLane * vg.Length(lanes)
	c := d.crop(r)

	q.Add(layer(d.shades))
	if err := d.addFinishes(q); err != nil {
		return err
	}
	q.Add(layer(d.limits))
	if err := d.addCurves(q); err != nil {
		return err
	}
	q.Add(layer(d.ends))
	q.X.Min, q.X.Max = 0, d.scale.at(d.scale.end) // after Add, which widens them
	q.Y.Min, q.Y.Max = d.extent()
	q.X.Tick.Marker = plot.ConstantTicks(d.clockTicks())
	q.Y.Tick.Marker = plot.ConstantTicks(numberTicks(q.Y.Min, q.Y.Max, min(max(int((r.Max.Y-r.Min.Y)/50), 3), 9)))
	q.Draw(c)
	d.write(d.small().in(d.ink.text), r.Min.X, r.Max.Y+10, d.style.degreeUnit())
	if d.latest.IsZero() {
		g := ground(c, q)
		d.backed(d.body().at(0.5), (g.Min.X+g.Max.X)/2, (g.Min.Y+g.Max.Y)/2, "No readings yet")
	}
	return nil
}

// extent is the stretch of the temperature axis, in the conversation's degrees.
func (d *smokeDay) extent() (low, high float64) {
	var seen []float64
	for _, c := range d.allCurves() {
		for _, r := range c {
			seen = append(seen, d.style.degrees(r.Temp))
		}
	}
	for _, t := range []curemath.Celsius{d.data.Target, d.data.Ceiling} {
		if v, ok := d.limit(t); ok {
			seen = append(seen, v)
		}
	}
	if len(seen) == 0 {
		return d.style.degrees(0), d.style.degrees(80)
	}
	low, high = seen[0], seen[0]
	for _, v := range seen {
		low, high = min(low, v), max(high, v)
	}
	pad := max((high-low)*0.06, (20-(high-low))/2, 4)
	return low - pad, high + pad
}

// clockTicks are the hours, with the day written under each midnight.
func (d *smokeDay) clockTicks() []plot.Tick {
	if d.latest.IsZero() && len(d.happened()) == 0 {
		return nil
	}
	ticks := d.scale.ticks(7)
	whole := true // every tick is a midnight: write days only
	for _, t := range ticks {
		whole = whole && t.midnight
	}
	var out []plot.Tick
	under := "" // a second line for every tick if one has it, or they would not stand level
	if !whole && len(d.scale.midnights()) > 0 {
		under = "\n "
	}
	for i, t := range ticks {
		l := d.style.local(t.at)
		label := d.style.hour(t.at)
		switch {
		case whole && len(ticks) > 1:
			label = l.Format("Mon\n2 Jan")
		case t.midnight:
			label += l.Format("\nMon 2")
		case i == 0 && len(ticks) > 2 && !ticks[1].midnight && len(d.scale.midnights()) > 0:
			label += l.Format("\nMon 2")
		default:
			label += under
		}
		out = append(out, plot.Tick{Value: d.scale.at(t.at), Label: label})
	}
	return out
}

// shades draws what lies behind the curves: too hot, stalls, days, events.
func (d *smokeDay) shades(c draw.Canvas, x, y func(float64) vg.Length) {
	place := func(t time.Time) vg.Length { return min(max(x(d.scale.at(t)), c.Min.X), c.Max.X) }
	for _, e := range d.happened() {
		if e.Until.After(e.At) {
			d.box(rect(place(e.At), c.Min.Y, place(e.Until), c.Max.Y), d.ink.panel)
		}
	}
	if v, ok := d.limit(d.data.Ceiling); ok {
		d.box(rect(c.Min.X, y(v), c.Max.X, c.Max.Y), mix(d.ink.alarm, d.ink.paper, 0.13))
	}
	for _, t := range d.scale.midnights() {
		if d.latest.IsZero() {
			break
		}
		d.StrokeLine2(draw.LineStyle{Color: d.ink.muted, Width: 2}, place(t), c.Min.Y, place(t), c.Max.Y)
	}
	d.signs(&c, place)
}

// signs sets the events over the plot, in as many rows as it takes for no two to
// touch, with a dotted line down each. It returns the number of rows; with a nil
// canvas it only counts them.
func (d *smokeDay) signs(c *draw.Canvas, place func(time.Time) vg.Length) int {
	const most, apart = 3, vg.Length(34)
	if place == nil {
		perSecond := (pageWidth - 2*margin - limitWidth - 60) / vg.Length(d.scale.at(d.scale.end))
		place = func(t time.Time) vg.Length { return perSecond * vg.Length(d.scale.at(t)) }
	}
	var taken [most]vg.Length // right end of each row
	for i := range taken {
		taken[i] = -10 * apart
	}
	rows := 0
	for _, e := range d.happened() {
		x := place(e.At)
		row := 0
		for row < most-1 && x-taken[row] < apart {
			row++
		}
		taken[row] = x
		rows = max(rows, row+1)
		if c == nil {
			continue
		}
		m := d.mark(e.Kind)
		d.StrokeLine2(draw.LineStyle{Color: d.ink.muted, Width: 2, Dashes: []vg.Length{3, 7}}, x, c.Min.Y, x, c.Max.Y+signLane*vg.Length(row))
		d.backed(d.small().in(m.colour).at(0.5), x, c.Max.Y+signLane*vg.Length(row)+10, m.sign)
	}
	return rows
}

// limit gives a limit on the conversation's scale if there is one to draw.
func (d *smokeDay) limit(t curemath.Celsius) (float64, bool) {
	if !(t > 0) || t > hottest {
		return 0, false
	}
	return d.style.degrees(t), true
}

// limits draws target and ceiling across and names them on the right.
func (d *smokeDay) limits(c draw.Canvas, _, y func(float64) vg.Length) {
	type line struct {
		word string
		at   float64
		s    stroke
	}
	var lines []line
	if v, ok := d.limit(d.data.Target); ok {
		lines = append(lines, line{"target", v, stroke{d.ink.text, []vg.Length{14, 8}, 3}})
	}
	if v, ok := d.limit(d.data.Ceiling); ok {
		lines = append(lines, line{"ceiling", v, stroke{d.ink.alarm, []vg.Length{24, 6, 5, 6}, 4}})
	}
	var want []float64
	for _, l := range lines {
		d.rule(l.s, c.Min.X, y(l.at), c.Max.X)
		want = append(want, float64(y(l.at)))
	}
	look := d.small()
	for i, at := range spreadOut(want, float64(2*look.line()), float64(c.Min.Y)+30, float64(c.Max.Y)-20) {
		l := lines[i]
		d.write(look.in(l.s.colour).strong(), c.Max.X+10, vg.Length(at)+6, l.word)
		d.write(look.in(l.s.colour).strong(), c.Max.X+10, vg.Length(at)-look.size+2, whole(l.at)+"°")
	}
}

// addCurves draws the readings. Where they are few each is marked, so that a
// reader sees what was measured and what is only joined up.
func (d *smokeDay) addCurves(q *plot.Plot) error {
	const few = 60
	most := min(mostOfCurve, max(leastOfMany, mostOfAll/(len(d.pieces)+1)))
	add := func(readings []Reading, s stroke, shape draw.GlyphDrawer) error {
		readings = thin(readings, most)
		if len(readings) == 0 {
			return nil
		}
		xy := d.points(readings)
		if len(xy) > 1 {
			line, err := curveOf(xy, s)
			if err != nil {
				return err
			}
			q.Add(line)
		}
		if len(xy) <= few && len(d.pieces) <= crowd {
			dots, err := plotter.NewScatter(xy)
			if err != nil {
				return err
			}
			dots.GlyphStyle = draw.GlyphStyle{Color: s.colour, Radius: s.width + 2, Shape: shape}
			q.Add(dots)
		}
		return nil
	}
	if err := add(d.pit, d.pitStroke(), draw.CircleGlyph{}); err != nil {
		return err
	}
	shapes := []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}}
	for i, p := range d.pieces {
		if err := add(p.core, p.stroke, shapes[i%len(shapes)]); err != nil {
			return err
		}
	}
	return nil
}

func (d *smokeDay) points(readings []Reading) plotter.XYs {
	xy := make(plotter.XYs, len(readings))
	for i, r := range readings {
		xy[i].X, xy[i].Y = d.scale.at(r.At), d.style.degrees(r.Temp)
	}
	return xy
}
