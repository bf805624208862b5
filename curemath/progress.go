package curemath

import (
	"math"
	"time"
)

// Faces says how many faces of a slab the cure can pass.
type Faces int

const (
	// BothFaces: rind off.
	BothFaces Faces = iota
	// OneFace: rind on, so the cure must cross the whole thickness, which takes
	// up to four times as long.
	OneFace
)

// Slab is the piece as the diffusion model sees it: a plane sheet, much wider
// than thick. Fat 0 counts the slab as lean throughout and is remarked on.
type Slab struct {
	Thickness Millimetres
	Faces     Faces
	Fat       Percent
}

// TempSpan is a stretch of time at one temperature.
type TempSpan struct {
	For  time.Duration
	Temp Celsius
}

// Course is one slab curing: its shape, where its salt comes from, and the
// temperatures in order. The last temperature holds from then on, so one span
// is a steady fridge.
type Course struct {
	Slab   Slab
	Supply Supply
	Temps  []TempSpan
}

// ProgressRange is a share of the final state, low–typical–high from the spread
// of the published diffusivities.
type ProgressRange struct{ Low, Typical, High Percent }

// ProgressRemark is something a reader of the figure has to know.
type ProgressRemark int

const (
	// RemarkLeanAssumed: no fat share was given, fat would slow it.
	RemarkLeanAssumed ProgressRemark = iota + 1
	// RemarkColderThanAimed: under 34 °F for a time; slower, and near freezing.
	RemarkColderThanAimed
	// RemarkFrozen: under 28 °F for a time; counted as standing still.
	RemarkFrozen
	// RemarkWarmerThanFridge: over 40 °F for a time; counted as 40 °F, and the
	// fridge wants seeing to.
	RemarkWarmerThanFridge
	// RemarkThick: past 2.5 in., where the rules by the inch run short.
	RemarkThick
)

// Limits of the fridge range. 34–38 °F aimed at, 40 °F to act at: common
// practice, no source; home curing below 40 °F: NCHFP 6.1.3; bacteria quick
// above 50 °F in unsalted meat: USDA farm pork handbook; meat freezes at about
// 28 °F: from memory.
const (
	cureAimLow  Fahrenheit = 34
	cureAimHigh Fahrenheit = 40
	cureTooWarm Fahrenheit = 50
	cureFreezes Fahrenheit = 28
)

// Progress is how far the salt has moved into a slab. It is an estimate and an
// answer about salt alone: nitrite reacts as it goes and its published figures
// span two powers of ten, so no nitrite time is ever computed. The day rule and
// the feel of the slab decide.
type Progress struct {
	Elapsed time.Duration
	// Centre is the share of the final strength at the slowest point: mid-plane
	// with both faces open, the rind side with one.
	Centre ProgressRange
	// Uptake is the share of the final amount already inside. With a fixed dose
	// it is 100 from the start, since the dose lies on the meat.
	Uptake ProgressRange
	// Fourier is D·t ÷ l², dimensionless, for the typical diffusivity.
	Fourier float64
	Remarks []ProgressRemark
	Trail   Trail
}

// CureProgress computes how far a course has come after a time. Errors are
// ProgressError values. Source: Crank, The Mathematics of Diffusion, 2nd edition
// (1975), plane sheet; diffusivities from memory, scaled from published ones that
// are second-hand. The trail names each.
func CureProgress(c Course, elapsed time.Duration) (Progress, error) {
	if err := c.check(); err != nil {
		return Progress{}, err
	}
	if err := checkElapsed(elapsed); err != nil {
		return Progress{}, err
	}
	clock := newCureClock(c)
	return Progress{
		Elapsed: elapsed,
		Centre:  clock.centre(elapsed),
		Uptake:  clock.uptake(elapsed),
		Fourier: clock.fourier(elapsed).typical,
		Remarks: c.remarks(elapsed),
		Trail:   clock.trail(elapsed),
	}, nil
}

func (c Course) check() error {
	if err := checkThickness(c.Slab.Thickness); err != nil {
		return err
	}
	if err := checkFat(c.Slab.Fat); err != nil {
		return err
	}
	if len(c.Temps) == 0 {
		return ProgressError{Kind: ProgressNoTemperature}
	}
	for _, span := range c.Temps {
		if err := checkCureTemp(span.Temp); err != nil {
			return err
		}
		if err := checkElapsed(span.For); err != nil {
			return err
		}
	}
	return nil
}

func (c Course) remarks(elapsed time.Duration) []ProgressRemark {
	var out []ProgressRemark
	if c.Slab.Fat == 0 {
		out = append(out, RemarkLeanAssumed)
	}
	var cold, frozen, warm bool
	c.walk(elapsed, func(_ time.Duration, t Celsius) {
		// A hundredth of a degree is conversion dust, not a warm fridge.
		f := Fahrenheit(math.Round(float64(t.Fahrenheit())*100) / 100)
		cold = cold || (f < cureAimLow && f >= cureFreezes)
		frozen = frozen || f < cureFreezes
		warm = warm || f > cureAimHigh
	})
	if cold {
		out = append(out, RemarkColderThanAimed)
	}
	if frozen {
		out = append(out, RemarkFrozen)
	}
	if warm {
		out = append(out, RemarkWarmerThanFridge)
	}
	if c.Slab.Thickness > dayRuleMost {
		out = append(out, RemarkThick)
	}
	return out
}

// walk visits the stretches that make up the elapsed time, in order.
func (c Course) walk(elapsed time.Duration, visit func(time.Duration, Celsius)) {
	for i, span := range c.Temps {
		stretch := min(span.For, elapsed)
		if i == len(c.Temps)-1 {
			stretch = elapsed
		}
		if stretch > 0 {
			visit(stretch, span.Temp)
		}
		if elapsed -= stretch; elapsed <= 0 {
			return
		}
	}
}
