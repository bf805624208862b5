package zone

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"
)

// most is how many suggestions a person is shown.
const most = 8

// current takes retired names to the ones used now, so that "Hawaii" is
// Pacific/Honolulu and not US/Hawaii.
func (t *table) current(found []*entry) []*entry {
	var now []*entry
	for _, e := range found {
		if e := t.byName[e.current]; e != nil && !slices.Contains(now, e) {
			now = append(now, e)
		}
	}
	return now
}

// agreed gives one of zones whose clocks all agree: the best-known one, or else
// the first. It gives nil if they differ.
func agreed(found []*entry) *entry {
	var best *entry
	for _, e := range found {
		switch {
		case e.clock != found[0].clock:
			return nil
		case best == nil || e.wellKnown && e.rank < best.rank:
			best = e
		}
	}
	return best
}

// clocks keeps one zone for each different clock, the best-known ones first.
func clocks(found []*entry) []*entry {
	sorted := slices.Clone(found)
	slices.SortStableFunc(sorted, func(a, b *entry) int { return cmp.Compare(a.rank, b.rank) })
	var kept []*entry
	for _, e := range sorted {
		if !slices.ContainsFunc(kept, func(k *entry) bool { return k.clock == e.clock }) {
			kept = append(kept, e)
		}
	}
	return kept
}

// ahead gives well-known zones that are that far from UTC for part of the year.
func (t *table) ahead(sign, hours, minutes string) []*entry {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	wanted := h*60 + m
	if sign != "+" {
		wanted = -wanted
	}
	var found []*entry
	for _, e := range t.named(strings.Fields(wellKnownFile)) {
		if e.january == wanted || e.july == wanted {
			found = append(found, e)
		}
	}
	return found
}

// nearest gives the zones whose name, city or country is spelled most like what
// was said, nothing if none is like it.
func (t *table) nearest(folded string) []*entry {
	type guess struct {
		e        *entry
		distance int
	}
	limit := 1 + len(folded)/5
	best := map[*entry]int{}
	consider := func(key string, found []*entry) {
		if len(key) > len(folded)+limit || len(folded) > 2*len(key)+limit {
			return
		}
		d := levenshtein.ComputeDistance(folded, key)
		for _, e := range t.current(found) {
			if was, seen := best[e]; e.place && d <= limit && (!seen || d < was) {
				best[e] = d
			}
		}
	}
	for key, e := range t.byFolded {
		consider(key, []*entry{e})
	}
	for key, found := range t.bySegment {
		consider(key, found)
	}
	for key, found := range t.byCountry {
		consider(key, clocks(found))
	}
	var guesses []guess
	for e, d := range best {
		guesses = append(guesses, guess{e, d})
	}
	slices.SortFunc(guesses, func(a, b guess) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.e.rank, b.e.rank))
	})
	var found []*entry
	for _, g := range guesses[:min(len(guesses), 3)] {
		if g.distance == guesses[0].distance {
			found = append(found, g.e)
		}
	}
	return found
}

func suggested(found []*entry) []string {
	var names []string
	for _, e := range found[:min(len(found), most)] {
		names = append(names, e.name)
	}
	return names
}
