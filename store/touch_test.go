package store

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// gallery is a store with a card in a conversation.
func gallery(tb testing.TB, file string) (*DB, Card) {
	tb.Helper()
	db, err := Open(context.Background(), file)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = db.Close() })
	var card Card
	err = db.Update(context.Background(), benchNow, func(tx *Tx) error {
		c, err := tx.SaveConversation(Conversation{Address: "lane:1"})
		if err != nil {
			return err
		}
		m, err := tx.Member(c.ID, "ines", "Ines")
		if err != nil {
			return err
		}
		b, err := tx.CreateBatch(Batch{Conversation: c.ID, Keeper: m.ID, Opened: benchNow, Stage: "curing"})
		if err != nil {
			return err
		}
		card, err = tx.AddCard(Card{Batch: b.ID, Conversation: c.ID, Owner: "ines", OwnerName: "Ines"})
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	return db, card
}

// However a card is touched and said, each touch is followed by a saying that began
// after it, and the card's chores stay few.
func TestATouchedCardIsSaidAfterwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		db := &DB{}
		if err := db.openMemory(); err != nil {
			t.Fatal(err)
		}
		defer func() { _ = db.Close() }()
		ctx, now := context.Background(), benchNow
		if err := migrate(ctx, db.write, 0); err != nil {
			t.Fatal(err)
		}
		var conv Conversation
		must := func(err error) {
			if err != nil {
				t.Fatal(err)
			}
		}
		must(db.Update(ctx, now, func(tx *Tx) (err error) {
			conv, err = tx.SaveConversation(Conversation{Address: "lane:1"})
			return err
		}))
		cards := []Card{{ID: 1, Conversation: conv.ID}, {ID: 11, Conversation: conv.ID}}
		owed := map[string]bool{}
		var flying []Chore
		for i := range rapid.IntRange(1, 60).Draw(t, "steps") {
			now = now.Add(time.Second)
			switch rapid.IntRange(0, 3).Draw(t, "step") {
			case 0, 1:
				c := cards[rapid.IntRange(0, 1).Draw(t, "card")]
				must(db.Update(ctx, now, func(tx *Tx) error { return tx.TouchCard(c, ChoreCard) }))
				owed[fmt.Sprint(c.ID)] = true
			case 2:
				got, err := db.Claim(ctx, now, "lane", fmt.Sprintf("%012d", i), now.Add(time.Hour), 10)
				must(err)
				for _, c := range got {
					delete(owed, c.Body)
				}
				flying = append(flying, got...)
			case 3:
				must(db.Update(ctx, now, func(tx *Tx) error {
					for _, c := range flying {
						if err := tx.MarkSent(c); err != nil {
							return err
						}
					}
					flying = nil
					return nil
				}))
			}
		}
		got, err := db.Claim(ctx, now.Add(time.Minute), "lane", "the-last-lease", now.Add(time.Hour), 100)
		must(err)
		for _, c := range got {
			delete(owed, c.Body)
		}
		if len(owed) != 0 {
			t.Errorf("cards %v were touched and are not due", owed)
		}
		n := 0
		must(db.View(ctx, now, func(tx *Tx) error { return tx.one("SELECT count(*) FROM chore", nil, &n) }))
		if n > 20 {
			t.Errorf("%d chores", n)
		}
	})
}

func TestTouchingOftenLeavesOneChore(t *testing.T) {
	db, card := gallery(t, Memory)
	for i := range 50 {
		now := benchNow.Add(time.Duration(i) * time.Minute)
		err := db.Update(t.Context(), now, func(tx *Tx) error {
			if err := tx.TouchCard(card, ChoreCard); err != nil {
				return err
			}
			return tx.TouchCard(card, ChoreCardEnd)
		})
		if err != nil {
			t.Fatal(err)
		}
		got, err := db.Claim(t.Context(), now, "lane", fmt.Sprintf("%012d", i), now.Add(time.Minute), 10)
		if err != nil || len(got) != 2 || !got[0].Due.Equal(now) || got[0].Attempts != 1 || got[0].Late(now) != 0 {
			t.Fatalf("claimed %+v, %v", got, err)
		}
		err = db.Update(t.Context(), now, func(tx *Tx) error { return errors.Join(tx.MarkSent(got[0]), tx.MarkDropped(got[1])) })
		if err != nil {
			t.Fatal(err)
		}
	}
	var chores []Chore
	err := db.View(t.Context(), benchNow, func(tx *Tx) (err error) { chores, err = tx.Chores(0); return err })
	if err != nil || len(chores) != 2 {
		t.Errorf("%d chores, %v", len(chores), err)
	}
}

// BenchmarkTouchCard touches a card among 200,000 chores of others.
func BenchmarkTouchCard(b *testing.B) {
	db, card := gallery(b, b.TempDir()+"/touch.db")
	for _, q := range []string{
		`WITH RECURSIVE n(i) AS (SELECT 2 UNION ALL SELECT i + 1 FROM n WHERE i < 2000)
			INSERT INTO conversation (id, address, settings, created_at) SELECT i, 'lane:' || i, '{}', 0 FROM n`,
		`WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 200000)
			INSERT INTO chore (conversation_id, kind, slot, body, due_at, try_at, lane, state, sent_at)
			SELECT 2 + i % 1999, 'card', (i % 1999 + 2) || '/' || i, i % 1999 + 2, 1, 1, 'lane', 'sent', 1 FROM n`,
	} {
		if _, err := db.write.Exec(q); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if err := db.Update(b.Context(), benchNow, func(tx *Tx) error { return tx.TouchCard(card, ChoreCard) }); err != nil {
			b.Fatal(err)
		}
	}
}
