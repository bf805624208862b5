package curemath

import (
	_ "embed"
	"fmt"
)

//go:embed data/mixes.json
var mixesFile []byte

// MixKind says what a thing called a cure really is.
type MixKind int

const (
	// HoldsNitrite: a curing mix that cures.
	HoldsNitrite MixKind = iota + 1
	// NitrateOnly: saltpetre; no nitrite in it.
	NitrateOnly
	// HoldsNone: no cure at all, such as pink table salt.
	HoldsNone
	// Ambiguous: the words fit a cure and fit something that is none.
	Ambiguous
	// Poison: pure nitrite, which is refused.
	Poison
)

// String gives the words the data file uses.
func (k MixKind) String() string {
	switch k {
	case HoldsNitrite:
		return "holds nitrite"
	case NitrateOnly:
		return "nitrate only"
	case HoldsNone:
		return "no nitrite"
	case Ambiguous:
		return "ambiguous"
	case Poison:
		return "poison"
	default:
		return "no kind"
	}
}

// UnmarshalText reads the words String writes.
func (k *MixKind) UnmarshalText(text []byte) error {
	for c := HoldsNitrite; c <= Poison; c++ {
		if c.String() == string(text) {
			*k = c
			return nil
		}
	}
	return fmt.Errorf("mix kind %q is not known", text)
}

// KnownMix is a curing mix as sold.
type KnownMix struct {
	ID   string
	Kind MixKind
	Mix  Mix
	// Low and High bound the nitrite of what is sold under the name.
	Low, High Percent
	// Ask: the percent on the packet must be asked for before it is used.
	Ask     bool
	Aliases []string
	Remark  string
}

// Mixes are the curing mixes this package knows, read from the embedded file.
type Mixes struct {
	all    []KnownMix
	byName map[string]int
	spoon  measure
}

type mixJSON struct {
	ID                             string
	Name                           string
	Kind                           MixKind
	Nitrite, Nitrate, Sugar, Other Percent
	Low, High                      Percent
	RestUnknown                    bool `json:"rest_unknown"`
	Ask                            bool
	Aliases                        []string
	Remark                         string
	Source                         Source
}

// LoadMixes reads the embedded mixes; each names its source. An error is a mistake in
// the file the program was built with.
func LoadMixes() (Mixes, error) {
	var f struct {
		Note  string
		Spoon struct {
			Tsp    triple
			Source Source
		}
		Mixes []mixJSON
	}
	if err := strictJSON(mixesFile, &f); err != nil {
		return Mixes{}, fmt.Errorf("curing mixes: %w", err)
	}
	if !f.Spoon.Tsp.ok() || f.Spoon.Source.Status == 0 {
		return Mixes{}, fmt.Errorf("curing mixes: spoon %v", f.Spoon.Tsp)
	}
	out := Mixes{byName: make(map[string]int), spoon: measure{tsp: band[Grams](f.Spoon.Tsp), source: f.Spoon.Source}}
	for i, j := range f.Mixes {
		k := KnownMix{
			ID: j.ID, Kind: j.Kind, Low: j.Low, High: j.High, Ask: j.Ask,
			Aliases: j.Aliases, Remark: j.Remark,
			Mix: Mix{Name: j.Name, Nitrite: j.Nitrite, Nitrate: j.Nitrate, Sugar: j.Sugar, Other: j.Other, RestUnknown: j.RestUnknown, Source: j.Source},
		}
		if k.Kind == 0 {
			k.Kind = HoldsNitrite
			if err := k.Mix.check(); err != nil {
				return Mixes{}, fmt.Errorf("curing mix %s: %w", j.ID, err)
			}
		}
		if k.High == 0 {
			k.Low, k.High = k.Mix.Nitrite, k.Mix.Nitrite
		}
		if j.ID == "" || j.Source.Status == 0 || k.Low > k.Mix.Nitrite || k.High < k.Mix.Nitrite {
			return Mixes{}, fmt.Errorf("curing mix %d (%s): no id, no source, or a range around nothing", i+1, j.ID)
		}
		for _, name := range append(j.Aliases, j.Name, j.ID) {
			key := ingredientKey(name)
			if at, twice := out.byName[key]; twice && at != i {
				return Mixes{}, fmt.Errorf("curing mix name %q is used twice", name)
			}
			out.byName[key] = i
		}
		out.all = append(out.all, k)
	}
	return out, nil
}

// All lists the mixes in the order of the file; each names its source.
func (m Mixes) All() []KnownMix { return append([]KnownMix(nil), m.all...) }

// ByName finds a mix by the words a person uses for it. Letter case, accents of
// spelling such as "#1" and "no. 1", and spaces do not matter. A mix names its source.
func (m Mixes) ByName(words string) (KnownMix, bool) {
	i, ok := m.byName[ingredientKey(words)]
	if !ok {
		return KnownMix{}, false
	}
	return m.all[i], true
}

// Use is ByName for a person choosing a mix to cure with: it refuses what does
// not cure, what must not be in a kitchen, and what needs its percent named. A
// mix names its source.
func (m Mixes) Use(words string) (Mix, error) {
	k, ok := m.ByName(words)
	if !ok {
		return Mix{}, &Refusal{Kind: MixUnknown, Said: "unknown", Field: words}
	}
	switch {
	case k.Kind == HoldsNone:
		return Mix{}, &Refusal{Kind: MixHoldsNone, Said: k.Mix.Name, Hint: k.Remark, Mix: k.Mix}
	case k.Kind == NitrateOnly:
		return Mix{}, &Refusal{Kind: NitrateInBacon, Hint: k.Remark, Mix: k.Mix}
	case k.Kind != HoldsNitrite || k.Ask:
		return Mix{}, &Refusal{Kind: MixUnknown, Said: "unknown", Hint: k.Remark, Mix: k.Mix}
	}
	return k.Mix, nil
}
