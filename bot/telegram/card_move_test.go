package telegram_test

import (
	"strings"
	"testing"
	"time"
)

// In the supergroup a group became, messages are numbered anew: the number a card had
// in the old group is another message's there, which must neither be changed nor
// deleted.
func TestCardOfAGroupThatMoved(t *testing.T) {
	for _, last := range []string{"/cheer@%s 1", "/unshare@%s 1"} {
		tg := fake(t)
		ines := tg.User("Ines")
		old := tg.Group(clubName, ines)
		r := run(t, tg)
		r.settle()
		r.openBatch(old, ines)
		old.Say(ines, "/share@"+tg.Username()+" 1")
		r.settle()
		r.tick(time.Now().Add(2 * time.Minute))
		card := cardIn(t, old)
		now := old.Migrate(ines)
		r.settle()
		for range card.ID + 3 { // so that the card's number is an answer's here
			now.Say(ines, "/batches@"+tg.Username())
			r.settle()
		}
		before := map[int]string{}
		for _, m := range now.FromBot() {
			before[m.ID] = m.String()
		}
		if before[card.ID] == "" {
			t.Fatalf("no answer has the card's number %d: %v", card.ID, before)
		}
		now.Say(ines, strings.Replace(last, "%s", tg.Username(), 1))
		r.settle()
		r.tick(time.Now().Add(4 * time.Minute))
		after := map[int]string{}
		for _, m := range now.FromBot() {
			after[m.ID] = m.String()
		}
		for id, was := range before {
			if after[id] != was {
				t.Errorf("%s: message %d was\n%s\nand is\n%s", last, id, was, after[id])
			}
		}
		for _, c := range append(tg.Calls("editMessageMedia"), tg.Calls("editMessageCaption")...) {
			t.Errorf("%s: edited %v", last, c)
		}
		if n := len(tg.Calls("deleteMessage")); n > 0 {
			t.Errorf("%s: %d messages were deleted", last, n)
		}
	}
}
