package curemath

// WarningKind says what a person must be told beside a result.
type WarningKind int

const (
	// WarnFinerScale: the dose is so small that a 0.1 g scale is too coarse.
	WarnFinerScale WarningKind = iota + 1
	// WarnScaleTooCoarse: even a 0.01 g scale is off by more than a twentieth.
	WarnScaleTooCoarse
	// WarnMixBringsSalt: the mix alone carries more salt than was asked for.
	WarnMixBringsSalt
	// WarnMixBringsSugar: the mix alone carries more sugar than was asked for.
	WarnMixBringsSugar
	// WarnSaltLow and WarnSaltHigh: outside the range bacon is eaten at.
	WarnSaltLow
	WarnSaltHigh
	// WarnCapped: the aim was a hair over the limit and was taken down to it.
	WarnCapped
	// WarnPolicyFloor: under what the rule set's policy asks for.
	WarnPolicyFloor
	// WarnRoundedUnderFloor: rounding down took the dose under the floor.
	WarnRoundedUnderFloor
	// WarnLimitDoubt: the limit itself is not read from the law.
	WarnLimitDoubt
	// WarnRulesUnknown: the country is not known; the strictest rules are used.
	WarnRulesUnknown
	// WarnAscorbateMissing: the rule set wants ascorbate with this method.
	WarnAscorbateMissing
	// WarnPickupAssumed: the pick-up is a guess until it is weighed.
	WarnPickupAssumed
	// WarnReadingsDiffer: one reading of a brine is a cure and the other is not.
	WarnReadingsDiffer
	// WarnBrineWontDissolve: the pickle asks for more salt than water takes.
	WarnBrineWontDissolve
	// WarnThicknessUnknown: days were given without a measured slab.
	WarnThicknessUnknown
	// WarnBeyondDayRule: the slab is too thick for a rule in days an inch.
	WarnBeyondDayRule
	// WarnRindOn: cure enters through one face only.
	WarnRindOn
	// WarnRestUnknown: what is in the mix besides nitrite only its packet says.
	WarnRestUnknown
	// WarnDrained: liquor that drains away is not taken off the nitrite.
	WarnDrained
)

// Warning is something a person must be told beside a result.
type Warning struct {
	Kind   WarningKind
	Text   string
	Source Source
}
