package curemath

import (
	"maps"
	"slices"
	"unicode/utf8"
)

// NameRead is what the name of an ingredient alone is read as.
type NameRead struct {
	// As is the row of the table or the curing mix; empty if the name is not
	// known.
	As string
	// Cures: it is a curing mix, or may be one.
	Cures bool
	// Whole: no word of the name is left over.
	Whole bool
	// Kind is what it does in a cure, empty for a curing mix and for meat.
	Kind IngredientKind
	// Mix is the curing mix, nil for what is none.
	Mix *KnownMix
}

// Read says what a name is read as. It never fails: what is not known has no As.
// The rows of the table name their sources.
func (p Pantry) Read(name string) NameRead {
	m := p.find(name)
	r := NameRead{Whole: m.extra == ""}
	switch {
	case m.cure != nil:
		k := *m.cure
		r.As, r.Cures, r.Mix = k.Mix.Name, k.Kind != HoldsNone, &k
	case m.row != nil:
		r.As, r.Kind = m.row.Name, m.row.Kind
	case m.meat:
		r.As = "meat"
	default:
		r.Whole, r.Cures = false, hintsAtCure(name)
	}
	return r
}

// Words lists every word of four letters and more that some name in the pantry
// has, in order.
func (p Pantry) Words() []string {
	set := map[string]bool{}
	for _, names := range []map[string]int{p.byName, p.mixes.byName} {
		for key := range names {
			for _, w := range nameWords(key) {
				if utf8.RuneCountInString(w) >= 4 {
					set[w] = true
				}
			}
		}
	}
	return slices.Sorted(maps.Keys(set))
}

// NameWords takes a name apart into words as the pantry compares them.
func NameWords(name string) []string { return nameWords(name) }
