package store

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"
)

// explain gives the steps by which the engine would run a query.
func explain(t *testing.T, db *DB, query string, args ...any) []string {
	t.Helper()
	var steps []string
	err := db.Update(context.Background(), time.Time{}, func(tx *Tx) error {
		return tx.each(func(scan func(...any) error) error {
			var (
				id, parent, unused int
				detail             string
			)
			err := scan(&id, &parent, &unused, &detail)
			steps = append(steps, detail)
			return err
		}, "EXPLAIN QUERY PLAN "+query, args...)
	})
	if err != nil {
		t.Fatal(err)
	}
	return steps
}

// Nothing the heartbeat asks may read a whole table, or the cost would grow with
// all that is planned or was ever said.
func TestNoQueryOfTheHeartbeatScansATable(t *testing.T) {
	db, err := Open(context.Background(), Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	for name, q := range map[string]struct {
		query string
		args  []any
	}{
		"claim": {claimSet + claimFirst, []any{"lease", 1, 1, 1, "lane", 0, 500}},
		"rest":  {claimSet + claimRest, []any{"lease", 1, 1, 1, "lane", 0}},
		"lease": {leasedQuery, []any{"lane", 0, 1, "lease"}},
		"lanes": {lanesQuery, nil}, "next": {nextQuery, []any{"lane", 0}}, "recover": {recoverQuery, nil},
		"sent":    {sentQuery, []any{1, 1}},
		"want":    {wantQuery, []any{1, 2, 1, 1, "", "flip", "x", 1, 0, 1}},
		"enqueue": {enqueueQuery, []any{1, 2, 1, "buy", "x", "", 1, 0, 1}},
		"folder":  {coverQuery(ofOne), []any{1}}, "its entries": {entriesQuery(ofOne), []any{1}}, "its chores": {choresQuery(ofOne), []any{1}},
		"folders": {coverQuery(ofMany), []any{"[1]"}}, "their entries": {entriesQuery(ofMany), []any{"[1]"}}, "their chores": {choresQuery(ofMany), []any{"[1]"}},
		"park": {parkQuery, []any{"why", 1}}, "unpark": {unparkQuery, []any{1}},
	} {
		steps := explain(t, db, q.query, q.args...)
		if len(steps) == 0 {
			t.Errorf("%s: no steps", name)
		}
		for _, s := range steps {
			// A scan is one of the claimed, of a list of lanes or of given ids at most.
			if strings.HasPrefix(s, "SCAN") && s != "SCAN lane" && s != "SCAN chore USING COVERING INDEX chore_claimed" && s != "SCAN chore USING INDEX chore_claimed" && !strings.HasPrefix(s, "SCAN CONSTANT ROW") && s != "SCAN json_each VIRTUAL TABLE INDEX 1:" {
				t.Errorf("%s: %s\n%s", name, s, strings.Join(steps, "\n"))
			}
		}
	}
}

// What a query looks for has to lead it, not just any index that has some of it.
func TestQueriesUseAllOfTheirIndex(t *testing.T) {
	db, err := Open(context.Background(), Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	for _, q := range []struct {
		query string
		args  []any
		want  string
	}{
		{touched, []any{1, "card", "1"}, "(conversation_id=? AND batch_id=? AND piece=? AND kind=? AND slot>? AND slot<?)"},
		{cardColumns + cardsIn, []any{1}, "card_conversation (conversation_id=?)"},
		{recipeShares, []any{"ines", "winter", "lane"}, "recipe_share_owner (owner=? AND fold=?)"},
		{conversationsOf, []any{"ines", "lane"}, "member_key (key=?)"},
		{"UPDATE card SET ref = '', shows = '' WHERE conversation_id = ?", []any{1}, "card_conversation (conversation_id=?)"},
	} {
		if steps := strings.Join(explain(t, db, q.query, q.args...), "\n"); !strings.Contains(steps, q.want) {
			t.Errorf("%s: want %s, got\n%s", q.query, q.want, steps)
		}
	}
}

// TestMigrationKeepsEverything takes a database of each earlier version, with
// something in it, to the newest.
func TestMigrationKeepsEverything(t *testing.T) {
	p := newest(t)
	for from := int64(1); from < p; from++ {
		t.Run(fmt.Sprint(from), func(t *testing.T) {
			ctx := context.Background()
			db := &DB{}
			if err := db.openFile(t.TempDir() + "/old.db"); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { _ = db.Close() })
			if err := migrate(ctx, db.write, from); err != nil {
				t.Fatal(err)
			}
			// Written by hand, as a program of that version would have: the columns
			// are those of the first version.
			for _, q := range []string{
				`INSERT INTO conversation (id, address, settings, created_at) VALUES (7, 'telegram:-1/3', '{"zone":"Europe/Berlin","ping_hour":480}', 1)`,
				`INSERT INTO member (id, conversation_id, key, name) VALUES (1, 7, 'marit', 'Marit')`,
				`INSERT INTO batch (id, conversation_id, number, keeper_id, opened_at, plan, stage) VALUES (1, 7, 1, 1, 1, '{"method":"dry","days":9}', 'curing')`,
				`INSERT INTO piece (batch_id, letter, body) VALUES (1, 'a', '{"letter":"a","weight":2500}')`,
				`INSERT INTO entry (batch_id, kind, at, recorded_at, member_id) VALUES (1, 'open', 1, 1, 1)`,
				`INSERT INTO chore (conversation_id, batch_id, kind, slot, due_at, try_at, urgency) VALUES (7, 1, 'flip', '2027-03-02', 1000, 1000, 0)`,
				`INSERT INTO chore (conversation_id, batch_id, kind, slot, due_at, try_at, state, sent_at) VALUES (7, 1, 'flip', '2027-03-01', 500, 500, 'sent', 600)`,
				`INSERT INTO chore (conversation_id, batch_id, kind, slot, due_at, try_at, state) VALUES (7, 1, 'flip', '2027-03-03', 5000, 5000, 'dropped')`,
				`INSERT INTO chore (conversation_id, kind, slot, due_at, try_at, state, sent_at) VALUES (7, 'card', '5/0', 500, 500, 'sent', 600)`,
				`INSERT INTO chore (conversation_id, kind, slot, due_at, try_at) VALUES (7, 'card', '5/1', 9000, 9000)`,
			} {
				if _, err := db.write.ExecContext(ctx, q); err != nil {
					t.Fatal(err)
				}
			}
			if from >= 2 { // since then a program writes the lane itself
				if _, err := db.write.ExecContext(ctx, "UPDATE chore SET lane = 'telegram'"); err != nil {
					t.Fatal(err)
				}
			}
			if err := migrate(ctx, db.write, 0); err != nil {
				t.Fatal(err)
			}
			got, err := db.Claim(ctx, fromMillis(2000), "telegram", "lease", fromMillis(3000), 10)
			if err != nil || len(got) != 1 || got[0].Slot != "2027-03-02" || got[0].Address != "telegram:-1/3" {
				t.Fatalf("claimed %+v, %v", got, err)
			}
			err = db.View(ctx, fromMillis(2000), func(tx *Tx) error {
				list, err := tx.Batches(7, true)
				if err != nil || len(list) != 1 || list[0].Plan.Days != 9 || list[0].Pieces[0].Weight != 2500 {
					t.Errorf("batches: %+v", list)
				}
				chores, err := tx.Chores(1)
				if err != nil || len(chores) != 3 || chores[0].State != StateSent || chores[2].State != StateDropped || chores[2].Sent.IsZero() {
					t.Errorf("chores: %+v", chores)
				}
				if err != nil {
					return err
				}
				loose, err := tx.Chores(0)
				if err != nil || len(loose) != 1 || loose[0].Slot != "5/1" {
					t.Errorf("chores of cards: %+v", loose)
				}
				return err
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
}

func newest(t *testing.T) int64 {
	t.Helper()
	db := &DB{}
	if err := db.openMemory(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	p, err := migrator(db.write)
	if err != nil {
		t.Fatal(err)
	}
	var n int64
	for _, s := range p.ListSources() {
		n = max(n, s.Version)
	}
	return n
}

func TestANewerFileIsRefused(t *testing.T) {
	ctx := context.Background()
	file := t.TempDir() + "/newer.db"
	db, err := Open(ctx, file)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.write.ExecContext(ctx, "INSERT INTO goose_db_version (version_id, is_applied) VALUES (9999, 1)"); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if db, err = Open(ctx, file); err == nil {
		_ = db.Close()
		t.Fatal("a newer file was opened")
	}
	if !strings.Contains(err.Error(), "9999") || !strings.Contains(err.Error(), "update the program") {
		t.Errorf("said: %v", err)
	}
}
