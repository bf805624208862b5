package bot_test

import (
	"context"
	"io"
	"log/slog"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// clubBot is a bot over a store of its own, on a clock that stands.
func clubBot(t *testing.T, at time.Time) (*bot.Bot, *store.DB) {
	t.Helper()
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "club.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	return bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: &scheduler.HandClock{At: at}, Zone: time.UTC,
		Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Rules: rules}), db
}

func values(list []bot.Suggestion) []string {
	var out []string
	for _, s := range list {
		out = append(out, s.Value)
	}
	return out
}

func TestSuggest(t *testing.T) {
	now := time.Date(2027, 3, 5, 9, 0, 0, 0, time.UTC)
	b, _ := clubBot(t, now)
	say := func(text string, at time.Time) {
		b.Handle(t.Context(), bot.Message{Conversation: "club", Sender: bot.Person{Key: "1", Name: "Ines", Admin: true}, Text: text, At: at})
	}
	if got := b.Suggest(t.Context(), "club", bot.SuggestBatch, ""); len(got) != 0 {
		t.Errorf("a chat never met offers %v", got)
	}
	for _, line := range []string{"open 5 lb juniper 1.5 in", "yes", "open 3 kg coffee and chilli 4 cm", "open 2 kg honey 4 cm", "close 3 opened by mistake"} {
		say(line, now.AddDate(0, 0, -4))
	}
	got := b.Suggest(t.Context(), "club", bot.SuggestBatch, "")
	if len(got) != 3 || got[0].Label != "1 · juniper, day 4 of 8" || got[0].Value != "1" || got[2].Value != "3" {
		t.Errorf("batches: %v", got)
	}
	for typed, want := range map[string][]string{"2": {"2"}, "CHIL": {"2"}, "9": nil, "honey": {"3"}} {
		if got := values(b.Suggest(t.Context(), "club", bot.SuggestBatch, typed)); !slices.Equal(got, want) {
			t.Errorf("%q offers %v, want %v", typed, got, want)
		}
	}
	if got := b.Suggest(t.Context(), "elsewhere", bot.SuggestBatch, ""); len(got) != 0 {
		t.Errorf("another chat offers %v", got)
	}
	if got := values(b.Suggest(t.Context(), "club", bot.SuggestFlavouring, "")); got[0] != "honey" || !slices.Contains(got, "maple") {
		t.Errorf("flavourings: %v", got)
	}
	if got := values(b.Suggest(t.Context(), "club", bot.SuggestCommand, "fl")); len(got) == 0 || got[0] != "flip" {
		t.Errorf("commands: %v", got)
	}
}

// Paging through an answer changes nothing: it is what was answered then, or what
// a line that only reads says now.
func TestAgain(t *testing.T) {
	now := time.Date(2027, 3, 5, 9, 0, 0, 0, time.UTC)
	b, _ := clubBot(t, now)
	ask := func(event, text string) bot.Message {
		return bot.Message{Event: event, Conversation: "club", Sender: bot.Person{Key: "1", Name: "Ines"}, Text: text}
	}
	first := b.Handle(t.Context(), ask("e1", "open 5 lb juniper 1.5 in"))
	if again, ok := b.Again(t.Context(), ask("e1", "open 5 lb juniper 1.5 in")); !ok || again.Text() != first.Text() {
		t.Errorf("again: %v %q", ok, again.Text())
	}
	if _, ok := b.Again(t.Context(), ask("e2", "open 6 lb juniper 1.5 in")); ok {
		t.Error("an event never handled was answered")
	}
	b.Handle(t.Context(), ask("e3", "yes"))
	if r, ok := b.Again(t.Context(), ask("e4", "batches")); !ok || r.Empty() {
		t.Error("a line that only reads was not answered")
	}
	if r := b.Handle(t.Context(), ask("e5", "batches")); len(r.Blocks[0].Lines) != 2 {
		t.Errorf("paging opened a batch: %s", r.Text())
	}
}

// A form's answer of several lines is one line to the bot: a piece each.
func TestPiecesOnLinesOfTheirOwn(t *testing.T) {
	b, _ := clubBot(t, time.Date(2027, 3, 5, 9, 0, 0, 0, time.UTC))
	f, ok := b.Form("open")
	if !ok {
		t.Fatal("open has no form")
	}
	line := f.Fill([]string{"6 lb juniper 1.5 in\n3.2 kg coffee and chilli 4 cm", "yesterday 18:00"})
	for _, said := range []string{line, "yes"} {
		r := b.Handle(t.Context(), bot.Message{Conversation: "club", Sender: bot.Person{Key: "1", Name: "Ines"}, Text: said})
		if said == "yes" && !strings.Contains(r.Text(), "b coffee and chilli  7.05 lb") {
			t.Errorf("%q opened:\n%s", line, r.Text())
		}
	}
}
