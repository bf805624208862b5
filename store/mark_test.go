package store

import (
	"context"
	"testing"
	"time"
)

// Why a delivery failed stays with its chore for whoever looks into the file, until
// it is said after all.
func TestTheFileSaysWhyADeliveryFailed(t *testing.T) {
	ctx, noon := context.Background(), time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)
	db, err := Open(ctx, Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	err = db.Update(ctx, noon, func(tx *Tx) error {
		conv, err := tx.SaveConversation(Conversation{Address: "lane:1"})
		if err != nil {
			return err
		}
		return tx.Enqueue(conv.ID, "kind", "slot", "", noon, Routine)
	})
	if err != nil {
		t.Fatal(err)
	}
	var c Chore
	for _, row := range []struct {
		name, state, why string
		mark             func(*Tx, Chore) error
	}{
		{"put back", StateRetry, "timeout", func(tx *Tx, c Chore) error { return tx.MarkRetry(c, noon, "timeout", false) }},
		{"put back again", StateRetry, "asked to wait", func(tx *Tx, c Chore) error { return tx.MarkRetry(c, noon, "asked to wait", true) }},
		{"given up", StateGivenUp, "refused", func(tx *Tx, c Chore) error { c.Cause = "refused"; return tx.MarkGivenUp(c) }},
		{"said after all", StateSent, "", (*Tx).MarkSent},
	} {
		got, err := db.Claim(ctx, noon, "lane", "lease-of-"+row.name, noon.Add(time.Minute), 10)
		if err != nil {
			t.Fatal(err)
		}
		if row.state != StateSent && len(got) != 1 {
			t.Fatalf("%s: claimed %v", row.name, got)
		}
		if len(got) > 0 {
			c = got[0]
		}
		var state, why string
		err = db.Update(ctx, noon, func(tx *Tx) error {
			if err := row.mark(tx, c); err != nil {
				return err
			}
			return tx.one("SELECT state, last_error FROM chore WHERE id = ?", []any{c.ID}, &state, &why)
		})
		if err != nil || state != row.state || why != row.why {
			t.Errorf("%s: it is %q for %q (%v)", row.name, state, why, err)
		}
	}
}
