package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

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
