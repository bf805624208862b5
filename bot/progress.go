package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// usualFridge is what a fridge is counted at until a person says otherwise: the
// middle of the 34 to 38 °F a cure is kept at (common practice, no source).
const usualFridge curemath.Celsius = 2.2

// A cure is kept no colder and no warmer than this.
const (
	coldestFridge curemath.Fahrenheit = 31 // the meat freezes a little below: common practice, no source
	warmestFridge curemath.Fahrenheit = 40 // home-preservation review, NCHFP 6.1.3
)

func fridge(s store.Settings) curemath.Celsius {
	if s.Fridge != nil {
		return *s.Fridge
	}
	return usualFridge
}

func showFridge(t *Turn, s store.Settings) string { return t.units().temp(fridge(s).Fahrenheit()) }

// takeFridge takes up how cold the fridge is. One that is too warm or freezes is
// refused, since a cure may not be kept in it.
func takeFridge(t *Turn, s *store.Settings, text string) error {
	f, err := parse.Temperature(text, t.tempUnit())
	if err != nil {
		return err
	}
	if f < coldestFridge || f > warmestFridge {
		return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s is no fridge to cure in: 34 to 38 °F (1 to 3 °C), never over 40 °F (4 °C) and not frozen (NCHFP 6.1.3; the range is common practice, no source).", t.units().temp(f)), Example: "set fridge 36 °F"}
	}
	c := f.Celsius()
	s.Fridge = &c
	return nil
}

// curing describes a piece to the diffusion model; ok is false if its thickness is
// not known, and of a pump, whose salt comes from within. Fat is not asked for, so the
// slab counts as lean, which is the quicker.
func (t *Turn) curing(s course.State, p store.Piece) (c curemath.Course, ok bool) {
	if p.Thickness <= 0 {
		return c, false
	}
	c.Slab = curemath.Slab{Thickness: p.Thickness}
	if p.RindOn {
		c.Slab.Faces = curemath.OneFace
	}
	c.Temps = []curemath.TempSpan{{For: 24 * time.Hour, Temp: fridge(t.Conv.Settings)}}
	switch s.Plan.Method {
	case "", curemath.DryRub.String(), curemath.DryBox.String():
		return c, true
	case curemath.Immersion.String():
		sum, err := t.asOpened(s).solveWet(s.Plan.Asked)
		if err != nil {
			return c, false
		}
		c.Supply, err = curemath.LimitedBrine(sum.water, p.Weight, c.Slab.Fat)
		return c, err == nil
	}
	return c, false
}

// sayProgress says how far the salt has moved into the slowest piece still in the
// cure, as the estimate it is, next to the day rule.
func (t *Turn) sayProgress(r *reply.Reply, s course.State) {
	best, found := curemath.Progress{}, false
	which := ""
	for _, p := range s.Pieces {
		if _, done := p.Marks[course.Firm]; done {
			continue
		}
		c, ok := t.curing(s, p.Piece)
		if !ok {
			continue
		}
		got, err := curemath.CureProgress(c, t.Now.Sub(s.Opened))
		if err != nil {
			continue // nothing to estimate is nothing to say
		}
		if !found || got.Centre.Typical < best.Centre.Typical {
			best, found, which = got, true, p.Letter
		}
	}
	if !found || t.Now.Sub(s.Opened) < 24*time.Hour {
		return
	}
	of := ""
	if len(s.Pieces) > 1 {
		of = " of piece " + which
	}
	r.Say(fmt.Sprintf("Estimate, as lean meat and from memory: salt at the centre%s is about %.0f %% (%.0f to %.0f %%) of where it will end. The day rule (%s) and firmness decide, never this.",
		of, clampShare(best.Centre.Typical), clampShare(best.Centre.Low), clampShare(best.Centre.High), dateText(s.CheckDateOf(which, t.Loc))))
}

// clampShare keeps an estimate from claiming that all is done.
func clampShare(p curemath.Percent) float64 { return min(float64(p), 99) }
