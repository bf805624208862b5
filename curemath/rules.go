package curemath

import (
	"slices"
	"strings"
)

// Rules are the rule sets this package knows, read from the embedded file.
type Rules struct {
	sets      []RuleSet
	strictest RuleSet
}

// RuleSet is one country's or body's limits.
type RuleSet struct {
	ID, Name string
	// Remark a person who chose this set must read; often empty.
	Remark  string
	Aliases []string
	// Unknown: the set stands in for a country that is not known here.
	Unknown bool
	// PolicyFloor is what policy asks a refrigerated cured product to hold at
	// least; zero if the set has none. It is advice, Limit.Min is a stop.
	PolicyFloor       PPM
	PolicyFloorSource Source

	rind       float64
	rindSource Source
	limits     []Limit
}

const (
	// DefaultRules is the rule set of a conversation that chose none.
	DefaultRules = "us"
	// StrictestRules is the lowest limit of all sets, method by method.
	StrictestRules = "strictest"
	bacon          = "bacon"
)

// ByID finds a rule set by its id ("us", "eu", "ca", "codex", "uk",
// "strictest") or a country's name. For anything else it gives the strictest
// set with a remark, and false.
func (r Rules) ByID(id string) (RuleSet, bool) {
	id = strings.ToLower(strings.TrimSpace(id))
	if id == StrictestRules {
		return r.strictest, true
	}
	for _, s := range r.sets {
		if s.ID == id || slices.Contains(s.Aliases, id) {
			return s, true
		}
	}
	s := r.strictest
	s.Unknown = true
	s.Remark = "That country's limits are not known here, so the strictest of all are used. Your own food law decides."
	return s, false
}

// Default is the set of a conversation that chose none. Each row of a set names its source.
func (r Rules) Default() RuleSet {
	s, _ := r.ByID(DefaultRules)
	return s
}

// All lists the sets, the strictest last. Each row of a set names its source.
func (r Rules) All() []RuleSet {
	return append(slices.Clone(r.sets), r.strictest)
}

// Limits lists every row of the set, those set aside too. Each names its source.
func (r RuleSet) Limits() []Limit { return slices.Clone(r.limits) }

// BaconLimit is the limit for bacon cured that way: the lowest row in use. With
// the rind on a tenth comes off (calculations handbook, chapter 3). For no
// method it is the lowest of all methods; for a set without rows it is zero,
// which allows nothing.
func (r RuleSet) BaconLimit(m Method, rindOn bool) Limit {
	var low Limit
	for _, l := range r.limits {
		if l.Product != bacon || !l.used() || (m != 0 && !l.covers(m)) {
			continue
		}
		if low.Max == 0 || l.Max < low.Max || (l.Max == low.Max && l.Source.Status < low.Source.Status) {
			low = l
		}
	}
	if rindOn && low.Max > 0 {
		low.Max = PPM(float64(low.Max) * r.rind)
		low.Min = PPM(float64(low.Min) * r.rind)
		low.RindOn = true
	}
	return low
}

// Aim is what to aim at when the person named nothing: DefaultNitrite, or the
// limit where that is lower. It is on the weight without rind. The default
// is our own choice, common practice; the limit names its document.
func (r RuleSet) Aim(m Method) PPM {
	return min(DefaultNitrite, r.BaconLimit(m, false).Max)
}

// RindFactor is what a limit and an aim are multiplied by for a belly with its
// rind on, and where that comes from.
func (r RuleSet) RindFactor() (float64, Source) { return r.rind, r.rindSource }
