package curemath

import "time"

// CoolingWindow is a stretch of cooling that may not take longer than Within,
// counted from the core passing From to its coming to To.
type CoolingWindow struct {
	From, To Fahrenheit
	Within   time.Duration
}

// CoolingRule is one published set of windows.
type CoolingRule struct {
	// Key is short and stable, for storing which rule was used.
	Key string
	// Name is how the rule is named to a person.
	Name    string
	Windows []CoolingWindow
	// StartWithin is how soon after the heat the chilling has to begin; 0 when
	// the rule does not say.
	StartWithin time.Duration
	// CoolOnTo is where the cooling has to go on to after the last window, without
	// a time; 0 when the last window already ends there.
	CoolOnTo Fahrenheit
	Source   Source
	// NeedsIngoing is the least ingoing nitrite that makes a product "cured" for
	// this rule; 0 when the rule is for any product.
	NeedsIngoing PPM
	NeedsSource  Source
}

// Keys of the rules.
const (
	CoolingCured    = "cured"
	CoolingOption1  = "option-1"
	CoolingOption2  = "option-2"
	CoolingKitchens = "kitchen"
)

// CuredFrom is the ingoing nitrite from which a product counts as cured; see
// CuredSource.
const CuredFrom PPM = 100

// Cured says whether a product with that ingoing nitrite counts as cured. A figure that
// is CuredFrom but for the last bits of a division does.
func Cured(ingoing PPM) bool { return ingoing > CuredFrom-noise }

// CuredSource is where CuredFrom is from.
func CuredSource() Source {
	return Source{Document: "FSIS stabilization guideline", Date: "2021", Status: FromMemory}
}

// CoolingRules gives every cooling rule, the one for cured products first.
// Source: FSIS Appendix B (1999) for the first three, of which the cured one is
// second-hand; a military kitchen card from the Food Code for the last.
func CoolingRules() []CoolingRule {
	const h, m = time.Hour, time.Minute
	return []CoolingRule{
		{
			Key:  CoolingCured,
			Name: "stabilization of a cured product",
			Windows: []CoolingWindow{
				{130, 80, 5 * h},
				{80, 45, 10 * h},
			},
			Source:       Source{Document: "FSIS Appendix B", Status: SecondHand},
			NeedsIngoing: CuredFrom,
			NeedsSource:  CuredSource(),
		},
		{
			Key:  CoolingOption1,
			Name: "stabilization of any cooked product, option 1",
			Windows: []CoolingWindow{
				{130, 80, 90 * m},
				{80, 40, 5 * h},
			},
			Source: Source{Document: "FSIS Appendix B", Section: "option 1", Date: "1999", Status: Found},
		},
		{
			Key:  CoolingOption2,
			Name: "stabilization of any cooked product, option 2",
			Windows: []CoolingWindow{
				{120, 80, h},
				{120, 55, 6 * h},
			},
			StartWithin: 90 * m,
			CoolOnTo:    40,
			Source:      Source{Document: "FSIS Appendix B", Section: "option 2", Date: "1999", Status: Found},
		},
		{
			Key:  CoolingKitchens,
			Name: "kitchen code",
			Windows: []CoolingWindow{
				{140, 70, 2 * h},
				{70, 41, 4 * h},
			},
			Source: Source{
				Document: "military kitchen card from the Food Code", Status: Found,
				Note: "the Food Code itself now begins at 135 °F (from memory)",
			},
		},
	}
}

// CoolingRuleByKey finds a rule by its key; it carries its source.
func CoolingRuleByKey(key string) (CoolingRule, bool) {
	for _, r := range CoolingRules() {
		if r.Key == key {
			return r, true
		}
	}
	return CoolingRule{}, false
}

// CoolingRuleFor picks the rule for a product by its ingoing sodium nitrite: the
// cured one from 100 ppm (from memory), option 1 for less and for an unknown
// dose (0).
func CoolingRuleFor(ingoing PPM) CoolingRule {
	rules := CoolingRules()
	if Cured(ingoing) {
		return rules[0]
	}
	return rules[1]
}
