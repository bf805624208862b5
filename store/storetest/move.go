package storetest

import (
	"context"
	"fmt"

	"larderhand/store"
)

func move(b *bench) {
	c := b.conversation("lane:1")
	b.enqueue(c, "slot", Noon, store.Routine)
	for range 2 {
		b.must(b.Move(context.Background(), Noon, c.ID, "lane:-1001"))
	}
	got := b.claim(Noon, "lane", "lease", 10)
	if len(got) != 1 || got[0].Address != "lane:-1001" {
		b.Errorf("claimed %+v", got)
	}
}

func merge(b *bench) {
	old, young := b.conversation("lane:1"), b.conversation("lane:-1001")
	b.batch(old)
	second := b.batch(young)
	b.reconcile(second, want("one", Noon))
	b.update(Noon, func(tx *store.Tx) error {
		e, err := tx.Append(store.Entry{Batch: second.ID, Kind: "flip", At: Noon, Member: second.Keeper})
		if err != nil {
			return err
		}
		return tx.Strike(e.ID, second.Keeper)
	})
	b.update(Noon, func(tx *store.Tx) error { // what a group has besides batches
		if _, err := tx.AddCard(store.Card{Batch: second.ID, Conversation: young.ID, Owner: "ines", OwnerName: "Ines", State: "up"}); err != nil {
			return err
		}
		if err := tx.AddStock(store.Stocked{Member: second.Keeper, Item: "mix", Kind: "count", Weight: 250}); err != nil {
			return err
		}
		_, err := tx.AddPlan(store.Planned{Member: second.Keeper, Ready: "2027-12-24"})
		return err
	})
	b.must(b.Move(context.Background(), Noon, old.ID, "lane:-1001"))
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		moved, err := tx.BatchByID(second.ID)
		if err != nil {
			return err
		}
		cards, err := tx.CardsIn(old.ID)
		if err != nil {
			return err
		}
		stock, err := tx.Stock(moved.Keeper)
		if err != nil {
			return err
		}
		plans, err := tx.Plans(moved.Keeper, "")
		if err == nil && (len(cards) != 1 || len(stock) != 1 || len(plans) != 1) {
			b.Errorf("cards %v, stock %v, plans %v", cards, stock, plans)
		}
		return err
	}))
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		list, err := tx.Batches(old.ID, true)
		if err == nil && (len(list) != 2 || list[1].ID != second.ID || list[1].Number != 2) {
			b.Errorf("batches: %+v", list)
		}
		return err
	}))
	got := b.claim(Noon, "lane", "lease", 10)
	b.same("claimed", slots(got), fmt.Sprint(young.ID, " one")) // the first tells its new number
	for _, c := range got {
		if c.Conversation != old.ID {
			b.Errorf("claimed %+v", c)
		}
	}
}

// A chat's messages stay behind when it moves, so nothing may be looked for by their
// names where it goes on.
func moveLosesMessages(b *bench) {
	old, topic := b.conversation("lane:1"), b.conversation("lane:1/7")
	b.conversation("lane:1/8") // becomes one with what is there
	b.conversation("lane:-1001/8")
	var cards []int64
	show := func(at string, state string) {
		b.update(Noon, func(tx *store.Tx) error {
			c, err := tx.Conversation(store.Address(at))
			if err != nil {
				return err
			}
			card, err := tx.AddCard(store.Card{Batch: b.made(tx, c).ID, Conversation: c.ID, Owner: "ines", OwnerName: "Ines"})
			if err != nil {
				return err
			}
			card.Ref, card.Shows, card.State = "9", "a digest", state
			cards = append(cards, card.ID)
			return tx.SaveCard(card)
		})
	}
	show("lane:1", store.CardUp)
	show("lane:1", store.CardDown)
	show("lane:1/7", store.CardUp)
	show("lane:1/8", store.CardUp)
	show("lane:-1001/8", store.CardUp)
	for _, c := range []store.Conversation{old, topic} {
		b.must(b.Move(context.Background(), Noon, c.ID, c.Address)) // is there already
	}
	b.same("not moved", b.refs(cards), "9 9 9 9 9")
	b.must(b.MoveChat(context.Background(), Noon, "lane:1", "lane:-1001"))
	b.same("moved, but for what was there", b.refs(cards), "- - - - 9")
}

func (b *bench) refs(cards []int64) string {
	b.Helper()
	s := ""
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		for _, id := range cards {
			c, err := tx.Card(id)
			if err != nil {
				return err
			}
			if (c.Ref == "") != (c.Shows == "") {
				b.Errorf("card %d is %q and shows %q", id, c.Ref, c.Shows)
			}
			if s != "" {
				s += " "
			}
			if c.Ref == "" {
				c.Ref = "-"
			}
			s += c.Ref
		}
		return nil
	}))
	return s
}

// A topic that is gone goes on in its chat, which was there before it: there every
// number and setting stays what it is.
func topicTakenIn(b *bench) {
	chat := b.conversation("lane:-1001")
	topic := b.conversation("lane:-1001/7")
	b.update(Noon, func(tx *store.Tx) error {
		topic.Settings.Zone, topic.Settings.PingHour = "America/Chicago", 360
		_, err := tx.SaveConversation(topic)
		return err
	})
	ids := []int64{b.batch(chat).ID, b.batch(chat).ID}
	for range 4 {
		one := b.batch(topic)
		b.reconcile(one, want("one", Noon))
		ids = append(ids, one.ID)
	}
	b.update(Noon, func(tx *store.Tx) error { return tx.Park(topic.ID, "closed") })
	b.must(b.Move(context.Background(), Noon, topic.ID, "lane:-1001"))
	b.must(b.Move(context.Background(), Noon, topic.ID, "lane:-1001")) // as someone who was late would
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		now, err := tx.Conversation("lane:-1001")
		if err != nil {
			return err
		}
		if now.ID != chat.ID || now.Settings.Zone != chat.Settings.Zone || now.Settings.PingHour != chat.Settings.PingHour {
			b.Errorf("the chat is %+v, was %+v", now, chat)
		}
		list, err := tx.Batches(chat.ID, true)
		if err != nil {
			return err
		}
		if len(list) != len(ids) {
			b.Fatalf("%d batches, want %d", len(list), len(ids))
		}
		for i, l := range list {
			if l.ID != ids[i] || l.Number != i+1 {
				b.Errorf("number %d is batch %d, want %d", l.Number, l.ID, ids[i])
			}
		}
		return nil
	}))
	if next := b.batch(chat); next.Number != 7 {
		b.Errorf("the next batch is %d", next.Number)
	}
	told, body := 0, ""
	for _, c := range b.claim(Noon, "lane", "lease", 10) {
		if c.Conversation != chat.ID {
			b.Errorf("%q is due elsewhere", c.Kind)
		}
		if c.Kind == store.ChoreRenumbered {
			told, body = told+1, c.Body
		}
	}
	b.same("told", fmt.Sprint(told, " ", body), `1 [{"was":1,"is":3},{"was":2,"is":4},{"was":3,"is":5},{"was":4,"is":6}]`)
}

// Where no number is taken, none changes and there is nothing to tell.
func topicKeepsNumbers(b *bench) {
	chat, topic := b.conversation("lane:-1001"), b.conversation("lane:-1001/7")
	first := b.batch(topic)
	b.must(b.Move(context.Background(), Noon, topic.ID, "lane:-1001"))
	b.must(b.View(context.Background(), Noon, func(tx *store.Tx) error {
		got, err := tx.Batch(chat.ID, 1)
		if err == nil && got.ID != first.ID {
			b.Errorf("number 1 is batch %d, want %d", got.ID, first.ID)
		}
		return err
	}))
	b.same("told", slots(b.claim(Noon, "lane", "lease", 10)), "")
}
