package bot

import (
	"context"
	"fmt"
	"log/slog"
	"slices"
	"strings"

	"larderhand/store"
)

// Suggestion is one thing to pick: what a person reads and what goes into the
// line.
type Suggestion struct {
	Label string
	Value string
}

// Suggest lists what may be meant by what was typed so far in a conversation, the
// likeliest first. While the store cannot be read it offers what needs none.
func (b *Bot) Suggest(ctx context.Context, at store.Address, what Suggestable, typed string) []Suggestion {
	var list []Suggestion
	switch what {
	case SuggestBatch:
		list = b.suggestBatches(ctx, at)
	case SuggestFlavouring:
		list = b.suggestFlavourings(ctx, at)
	case SuggestCommand:
		for _, c := range b.table {
			list = append(list, Suggestion{Label: c.Name + ": " + c.Help, Value: c.Name})
		}
	}
	return fitting(list, typed)
}

// fitting keeps what begins with what was typed, and after it what only holds it.
func fitting(list []Suggestion, typed string) []Suggestion {
	typed = strings.ToLower(strings.TrimSpace(typed))
	var begins, holds []Suggestion
	for _, s := range list {
		switch {
		case strings.HasPrefix(strings.ToLower(s.Value), typed):
			begins = append(begins, s)
		case strings.Trim(typed, "0123456789") == "": // a number is meant as one
		case strings.Contains(strings.ToLower(s.Label), typed):
			holds = append(holds, s)
		}
	}
	return append(begins, holds...)
}

// suggestBatches lists running batches as "3 · juniper, day 4 of 9", and after
// them the ended ones, the newest first.
func (b *Bot) suggestBatches(ctx context.Context, at store.Address) []Suggestion {
	var running, ended []Suggestion
	b.look(ctx, at, func(t *Turn) error {
		list, err := t.Tx.Batches(t.Conv.ID, true)
		if err != nil {
			return err
		}
		for _, batch := range list {
			s, err := load(t.Tx, batch)
			if err != nil {
				return err
			}
			label := fmt.Sprintf("%d · %s, %s", s.Number, orElse(flavours(s), "plain"), strings.TrimPrefix(t.standing(s), "curing, "))
			one := Suggestion{Label: label, Value: fmt.Sprint(s.Number)}
			if s.End != "" {
				ended = append(ended, one)
			} else {
				running = append(running, one)
			}
		}
		return nil
	})
	slices.Reverse(ended)
	return append(running, ended...)
}

// suggestFlavourings lists the flavourings this conversation has used, the newest
// first, and then some of the trade's.
func (b *Bot) suggestFlavourings(ctx context.Context, at store.Address) []Suggestion {
	var used []string
	b.look(ctx, at, func(t *Turn) error {
		list, err := t.Tx.Batches(t.Conv.ID, true)
		for _, batch := range list {
			for _, p := range batch.Pieces {
				used = append(used, p.Flavouring)
			}
		}
		return err
	})
	slices.Reverse(used)
	var list []Suggestion
	seen := map[string]bool{"": true}
	for _, f := range append(used, "juniper", "black pepper and honey", "coffee and chilli", "maple", "bay and garlic", "plain") {
		if k := strings.ToLower(f); !seen[k] {
			seen[k] = true
			list = append(list, Suggestion{Label: f, Value: f})
		}
	}
	return list
}

// look reads a conversation there is, outside any message.
func (b *Bot) look(ctx context.Context, at store.Address, do func(*Turn) error) {
	now := b.Clock.Now()
	err := b.Ledger.View(ctx, now, func(tx Tx) error {
		t, err := b.turn(ctx, tx, Message{Conversation: at, At: now})
		if err != nil {
			return err
		}
		return do(t)
	})
	if err != nil && err != errStranger {
		b.Log.WarnContext(ctx, "could not look a conversation up", "error", err, slog.String("conversation", string(at)))
	}
}
