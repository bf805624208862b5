package plan

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

type ping struct {
	conversation string
	urgency      int // lower is more urgent
	arrived      int
}

func merged(due []ping) []Group[string, ping] {
	return Merge(due,
		func(p ping) string { return p.conversation },
		func(a, b ping) int { return cmp.Compare(a.urgency, b.urgency) })
}

func TestMerge(t *testing.T) {
	got := merged([]ping{{"Ines", 2, 0}, {"Tobias", 2, 1}, {"Ines", 2, 2}, {"Marit", 3, 3}, {"Tobias", 1, 4}})
	want := []Group[string, ping]{
		{"Tobias", []ping{{"Tobias", 1, 4}, {"Tobias", 2, 1}}},
		{"Ines", []ping{{"Ines", 2, 0}, {"Ines", 2, 2}}},
		{"Marit", []ping{{"Marit", 3, 3}}},
	}
	if !slices.EqualFunc(got, want, func(a, b Group[string, ping]) bool {
		return a.Conversation == b.Conversation && slices.Equal(a.Items, b.Items)
	}) {
		t.Errorf("%v", got)
	}
	if got := merged(nil); len(got) != 0 {
		t.Errorf("nothing due: %v", got)
	}
}

func TestMergeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		due := make([]ping, rapid.IntRange(0, 40).Draw(t, "due"))
		for i := range due {
			due[i] = ping{rapid.SampledFrom([]string{"Ines", "Tobias", "Marit", ""}).Draw(t, "who"), rapid.IntRange(0, 3).Draw(t, "urgency"), i}
		}
		before := slices.Clone(due)
		groups := merged(due)
		if !slices.Equal(due, before) {
			t.Fatal("the input changed")
		}
		inOrder := func(a, b ping) int {
			return cmp.Or(cmp.Compare(a.urgency, b.urgency), cmp.Compare(a.arrived, b.arrived))
		}
		var all, firsts []ping
		seen := map[string]bool{}
		for _, g := range groups {
			if seen[g.Conversation] || len(g.Items) == 0 {
				t.Fatalf("%q twice or empty", g.Conversation)
			}
			seen[g.Conversation] = true
			for _, p := range g.Items {
				if p.conversation != g.Conversation {
					t.Fatalf("%v under %q", p, g.Conversation)
				}
			}
			if !slices.IsSortedFunc(g.Items, inOrder) {
				t.Fatalf("order of %v", g.Items)
			}
			all, firsts = append(all, g.Items...), append(firsts, g.Items[0])
		}
		if !slices.IsSortedFunc(firsts, func(a, b ping) int { return cmp.Compare(a.urgency, b.urgency) }) {
			t.Fatalf("order of groups %v", firsts)
		}
		slices.SortFunc(all, func(a, b ping) int { return cmp.Compare(a.arrived, b.arrived) })
		if !slices.Equal(all, due) {
			t.Fatalf("%v came out of %v", all, due)
		}
	})
}
