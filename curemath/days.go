package curemath

import (
	"fmt"
	"math"
)

// Days is how long a slab lies in its cure before the firmness check. It is a
// habit of the trade, not a guarantee; firmness all through decides.
type Days struct {
	Min, Max int
	// FromFaces and WholeThickness are the two readings of the day rule, in
	// days. Min takes the longer of them.
	FromFaces, WholeThickness float64
	Warnings                  []Warning
	Trail                     Trail
}

const (
	dayRuleEach             = 0.25 // inch a day
	dayRulePlus             = 2.0  // days
	dayRuleMost Millimetres = 2.5 * Inch

	thinnest Millimetres = 3
	thickest Millimetres = 10 * Inch
)

// DayRule gives the days in the cure for a slab: a quarter inch a day plus two
// days. The rule is told in two readings, counted from each face (thickness ÷
// 0.5 + 2) and over the whole thickness (÷ 0.25 + 2); both exist, second-hand,
// and the longer is taken, then stretched to the habit of 7 to 10 days for 1.5
// to 2 inches. With the rind on, cure enters through one face, and the older
// seven days an inch (from memory) and the square law of diffusion stretch it.
// Over 2.5 inches a rule in days an inch is too short, because penetration time
// runs with thickness squared; the rule is then stretched by its ratio to 2.5 inches, held
// against the estimate of CureTimeTo, and the longer taken; so it is a little before that,
// where the estimate is already the longer.
//
// Errors are *Refusal.
func DayRule(t Millimetres, rindOn bool) (Days, error) {
	if !finite(float64(t)) {
		return Days{}, &Refusal{Kind: NotANumber, Field: "thickness"}
	}
	if t < thinnest || t > thickest {
		return Days{}, &Refusal{Kind: ThicknessOutOfRange, Thickness: t, Said: figure(float64(t), 1) + " mm"}
	}
	in := t.Inches()
	d := Days{FromFaces: in/(2*dayRuleEach) + dayRulePlus, WholeThickness: in/dayRuleEach + dayRulePlus}
	l := newLedger(6)
	rule := Source{Document: "day rule of the trade, two readings", Status: SecondHand}
	l.step("A quarter inch a day from each face, plus two", rule).
		figure(in, 2).say(" in ÷ 0.5 + 2 = ").figure(d.FromFaces, 1).say(" days")
	l.step("Over the whole thickness", rule).
		figure(in, 2).say(" in ÷ 0.25 + 2 = ").figure(d.WholeThickness, 1).say(" days")
	low, high := d.WholeThickness, d.WholeThickness+dayRulePlus
	if in >= 1.5-1e-9 && in <= 2+1e-9 && !rindOn {
		low, high = max(low, 7), max(high, 10)
		l.step("Habit for 1.5 to 2 in", rule).say("7 to 10 days")
	}
	if rindOn {
		perInch := in * 7
		squared := in/(2*dayRuleEach)*4 + dayRulePlus
		low = max(low, perInch, squared) // the longer of the rules, as everywhere
		high = max(high, low+dayRulePlus)
		l.step("Seven days an inch, rind on", Source{Document: "older dry cure", Status: FromMemory}).
			figure(in, 2).say(" in × 7 = ").figure(perInch, 1).say(" days")
		l.step("One face open takes four times as long as two", computed()).
			figure(in, 2).say(" in ÷ 0.5 × 4 + 2 = ").figure(squared, 1).say(" days")
		d.warn(WarnRindOn, computed(), "With the rind on, cure enters through one face only and takes far longer: by the estimate the rind's side of lean meat needs about %s days (from memory). Take the rind off if you can.", figure(estimate(in, true).typical, 0))
	}
	if t > dayRuleMost {
		k := float64(t / dayRuleMost)
		l.step("Thicker than 2.5 in, stretched by its ratio", computed()).
			figure(low, 1).say(" days × ").figure(in, 2).say(" ÷ 2.5 = ").figure(low*k, 1).say(" days")
		low, high = low*k, high*k
	}
	if est := estimate(in, rindOn); t > dayRuleMost || !rindOn && est.typical > low {
		l.step("Estimate, nine tenths at the centre of lean meat at 36 °F", saltDiffusivitySource()).
			figure(est.typical, 1).say(" days (").figure(est.quickest, 1).say(" to ").figure(est.longest, 1).say(")")
		d.warn(WarnBeyondDayRule, computed(), "A slab of %s in is too thick for a rule in days an inch, so the longer is taken of the rule, %s days, and the estimate for the middle of lean meat, about %s days (%s to %s; from memory). Feel the middle: it decides. Better still, cut it thinner.",
			figure(in, 1), figure(low, 0), figure(est.typical, 0), figure(est.quickest, 0), figure(est.longest, 0))
		high += max(0, est.typical-low)
		low = max(low, est.typical)
	}
	d.Min, d.Max = int(math.Ceil(low-1e-9)), int(math.Ceil(high-1e-9))
	l.step("Taken, the longer", practice()).say(daysSaid(d.Min, d.Max))
	d.Trail = l.trail()
	return d, nil
}

// estimateDays is the days until the centre has nine tenths of its salt.
type estimateDays struct{ quickest, typical, longest float64 }

// inchEstimate is that of a lean slab of an inch, both faces open, in a fridge at 36 °F
// (common practice, no source): what CureTimeTo gives (computed; the tests hold it to that).
func inchEstimate() estimateDays { return estimateDays{1.488883, 2.382209, 5.955511} }

// estimate goes with the square of the thickness, and takes four times as long through one
// face as through two.
func estimate(inches float64, rindOn bool) estimateDays {
	e, k := inchEstimate(), inches*inches
	if rindOn {
		k *= 4
	}
	return estimateDays{e.quickest * k, e.typical * k, e.longest * k}
}

// DaysUnknown is for a belly nobody has measured: as for a slab of 2 inches,
// the thick end of a belly, with a warning to measure it.
func DaysUnknown(rindOn bool) Days {
	d, err := DayRule(2*Inch, rindOn)
	if err != nil {
		return Days{}
	}
	d.warn(WarnThicknessUnknown, practice(), "The thickness is not known, so this is for a 2 in belly. Measure it at the thickest place.")
	return d
}

func (d *Days) warn(k WarningKind, src Source, format string, args ...any) {
	d.Warnings = append(d.Warnings, Warning{Kind: k, Source: src, Text: fmt.Sprintf(format, args...)})
}

func daysSaid(low, high int) string {
	if low == high {
		return fmt.Sprintf("%d days", low)
	}
	return fmt.Sprintf("%d to %d days", low, high)
}
