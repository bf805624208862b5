package curemath

import (
	"cmp"
	"slices"
)

// WeighStage is when a belly was put on the scale.
type WeighStage int

const (
	WeighedGreen  WeighStage = iota + 1 // raw, before the cure
	WeighedCured                        // out of the cure, rinsed and patted dry
	WeighedDried                        // after the pellicle or a longer drying
	WeighedSmoked                       // smoked and cooled, ready to slice
	WeighedSliced                       // sliced and trimmed, as packed
)

// String gives the trade's word for the stage.
func (s WeighStage) String() string {
	switch s {
	case WeighedGreen:
		return "green"
	case WeighedCured:
		return "cured"
	case WeighedDried:
		return "dried"
	case WeighedSmoked:
		return "smoked"
	case WeighedSliced:
		return "sliced"
	default:
		return "no stage"
	}
}

// Weighing is one weight with its stage.
type Weighing struct {
	Stage  WeighStage
	Weight Grams
}

// YieldLine is one stage of a yield.
type YieldLine struct {
	Stage  WeighStage
	Weight Grams
	// OfGreen and OfBefore are percents of the fresh weight and of the stage
	// weighed before; 100 for the first line.
	OfGreen, OfBefore Percent
	// Lost is what went since the stage before; negative for a gain.
	Lost Grams
}

// FreshBelly is how the rule stands that bacon ready to slice weighs no more
// than the fresh belly did.
type FreshBelly int

const (
	// FreshBellyNotYet: not smoked and weighed yet.
	FreshBellyNotYet FreshBelly = iota + 1
	// FreshBellyMet: no heavier than the fresh belly.
	FreshBellyMet
	// FreshBellyOver: heavier; it may not be sold as bacon (where the rule holds).
	FreshBellyOver
)

// YieldRemark is something odd about the weights.
type YieldRemark int

const (
	// YieldGained: the weight rose at a stage where it can only fall. A slip of
	// the scale or of the stage.
	YieldGained YieldRemark = iota + 1
	// YieldUnusual: the smoked weight is under 75 % of green, far from the 85–95 %
	// that is planned with (common practice, no source).
	YieldUnusual
)

const unusualYield Percent = 75

// Yield is what became of a belly.
type Yield struct {
	Lines []YieldLine // in order of stage
	// Loss is the loss from green to the last stage; negative for a gain.
	Loss       Percent
	FreshBelly FreshBelly
	// Excess is what the belly weighs over its fresh weight with FreshBellyOver.
	Excess  Grams
	Remarks []YieldRemark
	Trail   Trail
}

func freshBellySource() Source {
	return Source{Document: "9 CFR", Section: "319.107", Status: SecondHand}
}

// Yields works out the percents of a belly's weights, in whatever order they are
// given. The green weight must be among them, each stage at most once. Errors
// are YieldError values. Source of the fresh-belly rule: 9 CFR 319.107,
// second-hand; weigh with or without the rind both times.
func Yields(weighings []Weighing) (Yield, error) {
	ordered := slices.Clone(weighings)
	slices.SortStableFunc(ordered, func(a, b Weighing) int { return cmp.Compare(a.Stage, b.Stage) })
	for i, w := range ordered {
		if w.Stage < WeighedGreen || w.Stage > WeighedSliced {
			return Yield{}, YieldError{Kind: YieldBadStage}
		}
		if checkYieldWeight(w.Weight) != nil {
			return Yield{}, YieldError{Kind: YieldBadWeight, Stage: w.Stage}
		}
		if i > 0 && ordered[i-1].Stage == w.Stage {
			return Yield{}, YieldError{Kind: YieldStageTwice, Stage: w.Stage}
		}
	}
	if len(ordered) == 0 || ordered[0].Stage != WeighedGreen {
		return Yield{}, YieldError{Kind: YieldNoGreen}
	}

	green := ordered[0].Weight
	y := Yield{FreshBelly: FreshBellyNotYet}
	l := newLedger(len(ordered) + 1)
	before := green
	for _, w := range ordered {
		line := YieldLine{
			Stage:    w.Stage,
			Weight:   w.Weight,
			OfGreen:  percentOf(w.Weight, green),
			OfBefore: percentOf(w.Weight, before),
			Lost:     before - w.Weight,
		}
		y.Lines = append(y.Lines, line)
		l.step("Weight "+w.Stage.String(), computed()).
			grams(w.Weight).say(" ÷ ").grams(green).say(" × 100 = ").figure(float64(line.OfGreen), 1).say(" % of green")
		y.note(w, green, line)
		before = w.Weight
	}
	y.Loss = 100 - y.Lines[len(y.Lines)-1].OfGreen
	if y.FreshBelly != FreshBellyNotYet {
		word := "no heavier than the fresh belly: met"
		if y.FreshBelly == FreshBellyOver {
			word = "heavier than the fresh belly: over"
		}
		l.step("Bacon against its fresh belly", freshBellySource()).say(word)
	}
	y.Trail = l.trail()
	return y, nil
}

func (y *Yield) note(w Weighing, green Grams, line YieldLine) {
	if w.Stage >= WeighedDried && line.Lost < 0 && !slices.Contains(y.Remarks, YieldGained) {
		y.Remarks = append(y.Remarks, YieldGained)
	}
	if w.Stage != WeighedSmoked {
		return
	}
	y.FreshBelly = FreshBellyMet
	if w.Weight > green {
		y.FreshBelly, y.Excess = FreshBellyOver, w.Weight-green
	}
	if line.OfGreen < unusualYield {
		y.Remarks = append(y.Remarks, YieldUnusual)
	}
}

func percentOf(part, whole Grams) Percent { return Percent(100 * float64(part/whole)) }

// PlannedYield is what a hot-smoked belly of a fresh weight is planned to come
// to: 85 to 95 % of it, 90 in the middle (common practice, no source).
func PlannedYield(green Grams) (low, typical, high Grams, err error) {
	if err := checkYieldWeight(green); err != nil {
		return 0, 0, 0, err
	}
	return Percent(85).Of(green), Percent(90).Of(green), Percent(95).Of(green), nil
}
