package plan

import "slices"

// Group is what is due in one conversation, most urgent first.
type Group[K comparable, T any] struct {
	Conversation K
	Items        []T
}

// Merge gathers due items into one group a conversation, so that each gets one
// message whatever piled up. conversation names an item's conversation; urgent
// compares two items as slices.SortFunc wants it, negative when the first is the
// more urgent. Items in a group, and the groups by their first item, come most
// urgent first; equals keep the order they came in. The input is left alone.
func Merge[K comparable, T any](due []T, conversation func(T) K, urgent func(a, b T) int) []Group[K, T] {
	var groups []Group[K, T]
	place := make(map[K]int)
	for _, item := range due {
		k := conversation(item)
		i, seen := place[k]
		if !seen {
			i = len(groups)
			place[k] = i
			groups = append(groups, Group[K, T]{Conversation: k})
		}
		groups[i].Items = append(groups[i].Items, item)
	}
	for _, g := range groups {
		slices.SortStableFunc(g.Items, urgent)
	}
	slices.SortStableFunc(groups, func(a, b Group[K, T]) int {
		return urgent(a.Items[0], b.Items[0])
	})
	return groups
}
