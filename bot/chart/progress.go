package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"larderhand/curemath"
)

// ProgressData is how far the cure has moved into a slab, as a model has it.
type ProgressData struct {
	Batch     int
	Flavour   string
	Piece     string // letter or name; may be empty
	Thickness curemath.Millimetres
	RindOn    bool // one face closed: the salt comes from the other alone
	Today     int  // day of the cure
	Profiles  []Profile
	Slowest   Slowest
}

// Profile is the salt across the slab on one day of the cure, as shares of what
// it will be everywhere in the end (1 is evened out), evenly spaced from the open
// face to the other face, both faces included. Two values are the fewest.
type Profile struct {
	Day   int
	Share []float64
}

// Slowest is the salt today at the place that cures last (the middle; the rind
// if it is on) as shares of the final salt. The zero value draws nothing.
type Slowest struct {
	Low, Typical, High float64
}

const (
	progressHeight = vg.Length(1130)
	mostProfiles   = 6
	highestShare   = 2.0 // near a fresh face the model runs to infinity
)

// Progress draws salt against depth, today and on later days, as a PNG of 1080
// by 1130 pixels. The picture says that it shows an estimate.
func Progress(data ProgressData, style Style) ([]byte, error) { return pack(drawProgress(data, style)) }

func drawProgress(data ProgressData, style Style) (*page, error) {
	p, err := newPage(style, progressHeight)
	if err != nil {
		return nil, err
	}
	s := newSlab(p, data)
	top := p.heading(progressHeight-margin, p.batchTitle(data.Batch, data.Flavour), s.subtitle())
	for _, line := range p.wrap(p.body(), s.slowestLine(), pageWidth-2*margin) {
		top -= p.body().line()
		p.write(p.body(), margin, top+8, line)
	}
	bottom := s.key(p.caution(margin, "An estimate by diffusion, with salt as the tracer. The planned days and the feel of the slab decide, not this curve."))
	if err := s.draw(rect(margin, bottom, pageWidth-margin, top-8)); err != nil {
		return nil, err
	}
	return p, nil
}

// caution sets a sentence at the foot and gives the height above it.
func (p *page) caution(bottom vg.Length, text string) vg.Length {
	l := p.small()
	lines := p.wrap(l, text, pageWidth-2*margin)
	for _, line := range slices.Backward(lines) {
		p.write(l, margin, bottom+8, line)
		bottom += l.line()
	}
	return bottom + 6
}

// slab is the data made fit to draw.
type slab struct {
	*page
	data     ProgressData
	depth    float64 // thickness in the conversation's unit
	profiles []drawnProfile
}

type drawnProfile struct {
	day    int
	xy     plotter.XYs // depth, percent
	stroke stroke
}

func newSlab(p *page, data ProgressData) *slab {
	s := &slab{page: p, data: data, depth: p.style.thickness(data.Thickness)}
	if !(s.depth > 0) || s.depth > 1e5 {
		s.depth = 0
		return s
	}
	for _, q := range data.Profiles {
		if len(s.profiles) == mostProfiles {
			break
		}
		xy := s.across(q.Share)
		if len(xy) < 2 {
			continue
		}
		k := p.ink.curve(len(s.profiles))
		if q.Day != data.Today {
			k.width = 4
		} else {
			k.width = 7
		}
		s.profiles = append(s.profiles, drawnProfile{day: q.Day, xy: xy, stroke: k})
	}
	return s
}

// across places shares by depth; what is not a number leaves a gap that the
// curve bridges.
func (s *slab) across(share []float64) plotter.XYs {
	const most = 400
	var xy plotter.XYs
	step := max(1, len(share)/most)
	for i := 0; i < len(share); i += step {
		if i+step >= len(share) {
			i = len(share) - 1 // the far face is always drawn
		}
		if v, ok := finite(share[i], 0, highestShare*2); ok {
			xy = append(xy, plotter.XY{X: s.depth * float64(i) / float64(max(1, len(share)-1)), Y: v * 100})
		}
	}
	return xy
}

func (s *slab) subtitle() string {
	parts := []string{"Cure moving in"}
	if n := s.name(pieceWord(s.data.Piece)); n != "" {
		parts = append(parts, "piece "+n)
	}
	if s.depth > 0 {
		size := whole(s.depth) + " mm"
		if s.style.Inches {
			size = strconv.FormatFloat(math.Round(s.depth*100)/100, 'f', -1, 64) + " in"
		}
		if s.data.RindOn {
			size += ", rind on"
		}
		parts = append(parts, size)
	}
	return strings.Join(parts, " · ")
}

func (s *slab) slowest() (low, typical, high float64, ok bool) {
	v := []float64{s.data.Slowest.Low, s.data.Slowest.Typical, s.data.Slowest.High}
	for i := range v {
		c, fine := finite(v[i], 0, highestShare)
		if !fine {
			return 0, 0, 0, false
		}
		v[i] = c
	}
	slices.Sort(v)
	return v[0] * 100, v[1] * 100, v[2] * 100, v[2] > 0 && s.depth > 0
}

func (s *slab) place() string {
	if s.data.RindOn {
		return "Under the rind"
	}
	return "Middle"
}

func (s *slab) slowestLine() string {
	low, typical, high, ok := s.slowest()
	if !ok {
		return ""
	}
	return fmt.Sprintf("%s, day %d: about %.0f %% of final salt (%.0f–%.0f %%), estimate", s.place(), s.data.Today, typical, low, high)
}

// key shows each day's stroke.
func (s *slab) key(bottom vg.Length) vg.Length {
	l := s.small().in(s.ink.text)
	const columns = 3
	width := (pageWidth - 2*margin) / columns
	rows := (len(s.profiles) + columns - 1) / columns
	for i, q := range s.profiles {
		x := margin + width*vg.Length(i%columns)
		y := bottom + keyRow*vg.Length(rows-1-i/columns)
		s.rule(q.stroke, x, y+18, x+keySample)
		words := fmt.Sprintf("day %d", q.day)
		if q.day == s.data.Today {
			words += ", today"
		}
		s.write(l, x+keySample+12, y+8, s.fit(l, words, width-keySample-24))
	}
	return bottom + keyRow*vg.Length(rows) + 6
}

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
