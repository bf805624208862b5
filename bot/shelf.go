package bot

import (
	"regexp"
	"slices"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// shelf is how much a person has of each thing they keep count of, and what a gram
// of it cost last.
type shelf struct {
	left  map[string]curemath.Grams
	price map[string]curemath.Price
	since map[string]time.Time // when it was counted last
}

// shelf works the stock out: what was counted last, and bought since, less what the
// batches opened since then took. Who asks has one cupboard, wherever they speak; of
// somebody else only what was told in this conversation is known here.
func (t *Turn) shelf(member int64) (shelf, error) {
	s := shelf{left: map[string]curemath.Grams{}, price: map[string]curemath.Price{}, since: map[string]time.Time{}}
	seats, err := t.seats(member)
	if err != nil {
		return s, err
	}
	var list []store.Stocked
	for _, at := range seats {
		told, err := t.Tx.Stock(at.member)
		if err != nil {
			return s, err
		}
		list = append(list, told...)
	}
	if len(list) == 0 {
		return s, nil
	}
	slices.SortFunc(list, func(a, b store.Stocked) int { return int(a.ID - b.ID) })
	for _, e := range list {
		if e.Kind == store.StockCount || s.since[e.Item].IsZero() {
			s.since[e.Item], s.left[e.Item] = e.At, 0
		}
		s.left[e.Item] += e.Weight
		if e.Paid > 0 {
			s.price[e.Item] = curemath.Price{Amount: e.Paid, Per: e.Weight}
		}
	}
	for _, at := range seats {
		if err := t.takeOff(s, at); err != nil {
			return s, err
		}
	}
	return s, nil
}

// takeOff takes off what the batches someone keeps in a conversation took since things
// were counted.
func (t *Turn) takeOff(s shelf, at seat) error {
	batches, err := t.Tx.Batches(at.conversation, true)
	if err != nil {
		return err
	}
	for _, b := range batches {
		if b.Keeper != at.member {
			continue
		}
		opened, err := t.told(b)
		if err != nil {
			return err
		}
		if b.Stage == string(course.Closed) {
			state, err := load(t.Tx, b)
			if err != nil {
				return err
			}
			if neverMade(state) {
				continue
			}
		}
		for item, g := range takes(b) {
			if at, counted := s.since[item]; counted && opened.After(at) {
				s.left[item] -= g
			}
		}
	}
	return nil
}

// seat is somebody in one conversation.
type seat struct {
	conversation, member int64
}

// seats are where a member is on this platform: all their conversations if it is the
// sender, and else only this one.
func (t *Turn) seats(member int64) ([]seat, error) {
	here := []seat{{t.Conv.ID, member}}
	if member != t.Me.ID {
		return here, nil
	}
	list, err := t.Tx.ConversationsOf(t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return nil, err
	}
	for _, conv := range list {
		if conv.ID == t.Conv.ID {
			continue
		}
		members, err := t.Tx.Members(conv.ID)
		if err != nil {
			return nil, err
		}
		for _, m := range members {
			if m.Key == t.Me.Key {
				here = append(here, seat{conv.ID, m.ID})
			}
		}
	}
	return here, nil
}

// byMistake is how people say that a batch never was one.
var byMistake = regexp.MustCompile(`(?i)\b(mistake|mistaken|mistakenly|wrongly|typo|twice|double|duplicate|(not|never|wasn['’]?t) (started|made|begun|mixed|weighed))\b`)

// neverMade says whether a batch was closed within a day as opened by mistake and with
// nothing done to it, so that nothing was weighed out for it.
func neverMade(s course.State) bool {
	closed := false
	var opened, ended time.Time
	for _, l := range s.Log {
		switch l.Kind {
		case course.Opened:
			opened = l.Recorded
		case course.Close:
			closed, ended = byMistake.MatchString(l.Body.Text), l.Recorded
		case course.Note, course.Thick, course.Allow, course.Pings, course.Later:
		default:
			return false
		}
	}
	return closed && ended.Sub(opened) < 24*time.Hour
}

// told is when a batch was told of, which is when its cure was weighed out as far as
// anyone knows.
func (t *Turn) told(b store.Batch) (time.Time, error) {
	entries, err := t.Tx.Entries(b.ID)
	if err != nil {
		return time.Time{}, err
	}
	for _, e := range entries {
		if e.Kind == course.Opened {
			return e.Recorded, nil
		}
	}
	return b.Opened, nil
}

// takes is what a batch uses up.
func takes(b store.Batch) map[string]curemath.Grams {
	out := map[string]curemath.Grams{}
	for _, p := range b.Pieces {
		out["mix"] += p.MixWeight
		out["salt"] += p.SaltWeight
		out["sugar"] += p.Sugar
	}
	return out
}

// sayBack says of a batch just closed what becomes of what it took off the sender's
// cupboard.
func (t *Turn) sayBack(r *reply.Reply, s course.State) {
	if s.Keeper != t.Me.ID {
		return
	}
	sh, err := t.shelf(t.Me.ID)
	if err != nil {
		t.bot.Log.WarnContext(t.ctx, "the stock could not be read", "error", err)
		return
	}
	since, counted := sh.since["mix"]
	opened, err := t.told(s.Batch)
	mix := takes(s.Batch)["mix"]
	switch {
	case err != nil || !counted || mix == 0 || !opened.After(since):
	case neverMade(s):
		r.Say("Nothing was weighed out for it, as you say, so your cupboard has its ", stockText("mix", mix), " of curing mix back: ", stockText("mix", sh.left["mix"]), ".")
	case len(s.Flips) == 0 && t.Now.Sub(opened) < 24*time.Hour:
		r.Say("What it took stays taken off your cupboard. If it was never weighed out: ", reply.Type("stock mix +"+trim(float64(mix), 2)+" g"))
	}
}
