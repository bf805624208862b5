// Package course is the way a piece of belly goes from the cure to the packet:
// the steps in their order, what a batch's journal says has been done, and what
// ought to be said about it when. It is pure: journals in, states and wants out.
package course

import "slices"

// Step is one step on the way; it is also the kind of the journal entry that
// records it.
type Step string

// The steps, in the order they are walked.
const (
	Firm    Step = "firm"    // the cure check: firm all through
	Rinsed  Step = "rinse"   // cure rinsed off, patted dry
	Fried   Step = "fry"     // a test slice fried and tasted
	Drying  Step = "dry"     // set to dry uncovered
	Tacky   Step = "tacky"   // surface dry and tacky
	Season  Step = "season"  // glazed and seasoned
	Smoking Step = "smoke"   // into the smoke
	Smoked  Step = "smoked"  // out of the smoke
	Cooled  Step = "cooled"  // cooled down
	Chilled Step = "chilled" // chilled through, overnight
	Sliced  Step = "slice"   // squared and sliced
	Packed  Step = "pack"    // packed, weighed and labelled
)

// Stage is where a batch as a whole stands.
type Stage string

// The stages.
const (
	Curing    Stage = "curing"
	DryStage  Stage = "drying"
	InSmoke   Stage = "smoking"
	Cooling   Stage = "cooling"
	Done      Stage = "packed"
	Closed    Stage = "closed"
	Discarded Stage = "discarded"
)

// Info describes a step.
type Info struct {
	Step  Step
	Stage Stage  // the stage a piece is in while this step is the next one
	Ask   string // what the ping asks for
	Done  string // how the record reads, after the pieces' names
	How   string // one line of how to do it; "" where that hangs on the cure
	Press string // label of the button that records it
}

// Steps lists the steps in order. How a piece is cooled hangs on the rule for its
// cure, so that step has no How.
func Steps() []Info {
	return []Info{
		{Firm, Curing, "cure check: press it in the middle and at the edges", "firm all through", "It should feel firm all through, like the heel of your hand; a soft middle needs more days.", "Firm all through"},
		{Rinsed, Curing, "rinse the cure off and pat dry", "rinsed and patted dry", "Low, slow water so nothing splashes; clean the sink afterwards.", "Rinsed"},
		{Fried, Curing, "fry a thin test slice and taste", "test slice fried", "Cook the slice through. Too salty: soak the piece in cold water in the fridge and fry again.", "Tastes right"},
		{Drying, DryStage, "set it to dry uncovered on a rack in the fridge", "set to dry", "Uncovered, 4 to 24 hours, until the surface feels tacky (common practice, no source).", "Set to dry"},
		{Tacky, DryStage, "touch the surface: is it tacky?", "tacky", "Smoke takes to a tacky surface; a wet one turns sour and streaky.", "Tacky"},
		{Season, DryStage, "glaze and season", "glazed and seasoned", "Brush thinly; thick sugar burns in a long smoke.", "Seasoned"},
		{Smoking, DryStage, "light the pit and start the smoke", "in the smoke", "Keep the pit under 160 °F (71 °C) and never over 170 °F (77 °C), or the fat renders; aim for 150 °F (66 °C) at the core (common practice, no source).", "Smoke started"},
		{Smoked, InSmoke, "is the core at its target?", "out of the smoke", "Measure in the thickest part. 18 to 24 hours of light smoke are usual (common practice, no source).", "Out of the smoke"},
		{Cooled, Cooling, "cool it down", "cooled", "", "Cooled"},
		{Chilled, Cooling, "chilled overnight: ready to square and slice", "chilled through", "Overnight in the fridge, uncovered or loosely wrapped; cold bacon slices clean.", "Chilled"},
		{Sliced, Cooling, "square the slab and slice", "squared and sliced", "Keep the trimmings for beans and soup; they are cured too.", "Sliced"},
		{Packed, Cooling, "pack, weigh and label", "packed", "Weigh what is packed: the yield goes with the label.", "Packed"},
	}
}

// Describe finds the description of a step.
func Describe(s Step) (Info, bool) {
	for _, i := range Steps() {
		if i.Step == s {
			return i, true
		}
	}
	return Info{}, false
}

// order is the steps as Steps lists them, without their words.
func order() [12]Step {
	return [...]Step{Firm, Rinsed, Fried, Drying, Tacky, Season, Smoking, Smoked, Cooled, Chilled, Sliced, Packed}
}

// index is a step's place in the order, or -1.
func index(s Step) int {
	steps := order()
	return slices.Index(steps[:], s)
}
