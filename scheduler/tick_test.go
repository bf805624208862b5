package scheduler_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/scheduler"
	"larderhand/store"
)

func TestAConversationGetsOneMessage(t *testing.T) {
	d := newDesk(t)
	for i := range 40 {
		d.plant(store.Address(fmt.Sprintf("a:%d", i%4)), fmt.Sprint(i), start.Add(-time.Duration(i)*time.Hour), store.Routine)
	}
	d.advance(time.Minute)
	if n := len(d.messages()); n != 4 {
		t.Errorf("%d messages for 4 conversations", n)
	}
	if n := len(d.times()); n != 40 {
		t.Errorf("%d of 40 chores were said", n)
	}
}

func TestUrgentGoesFirst(t *testing.T) {
	d := newDesk(t)
	d.s.Limits = map[string]scheduler.Limits{"a": {All: scheduler.Rate{Limit: 1, Burst: 1}}}
	for i := range 10 {
		d.plant(store.Address(fmt.Sprintf("a:flip%d", i)), "flip", start.Add(-time.Hour), store.Routine)
	}
	d.plant("a:pit", "core past target", start.Add(2*time.Second), store.Urgent)
	d.advance(time.Minute)
	place := -1
	for i, m := range d.messages() {
		if m.to == "a:pit" {
			place = i
		}
	}
	// Due 2 s in at a message a second: two flips are gone and two more may be
	// claimed already.
	if place < 2 || place > 4 {
		t.Errorf("the urgent ping was number %d", place+1)
	}
}

func TestLimitsHoldInEverySecondAndCostLittle(t *testing.T) {
	const conversations, limit = 600, 30
	d := newDesk(t)
	d.s.Limits = map[string]scheduler.Limits{"a": {All: scheduler.Rate{Limit: limit - 1, Burst: 1}}}
	for i := range conversations {
		d.plant(store.Address(fmt.Sprintf("a:%d", i)), "flip", start, store.Routine)
	}
	d.advance(time.Hour)
	sent := d.messages()
	if len(sent) != conversations {
		t.Fatalf("%d messages", len(sent))
	}
	for i, m := range sent {
		n := 0
		for _, o := range sent[i:] {
			if o.at.Sub(m.at) < time.Second {
				n++
			}
		}
		if n > limit {
			t.Fatalf("%d messages in the second from %v", n, m.at)
		}
	}
	took, floor := sent[len(sent)-1].at.Sub(start), time.Second*(conversations-1)/limit
	if took > floor*105/100 {
		t.Errorf("took %v where %v is the least", took, floor)
	}
}

func TestAConversationIsPaced(t *testing.T) {
	d := newDesk(t)
	d.s.Limits = map[string]scheduler.Limits{"a": {Chat: func(a store.Address) (string, scheduler.Rate) {
		return string(a), scheduler.Rate{Limit: 1.0 / 3, Burst: 1}
	}}}
	for i := range 5 {
		d.plant("a:1", fmt.Sprint(i), start.Add(time.Duration(i)*100*time.Millisecond), store.Routine)
	}
	d.plant("a:2", "other", start.Add(200*time.Millisecond), store.Routine)
	d.advance(time.Minute)
	var one []message
	for _, m := range d.messages() {
		switch m.to {
		case "a:1":
			one = append(one, m)
		case "a:2":
			if late := m.at.Sub(start); late != 200*time.Millisecond {
				t.Errorf("the other conversation waited until %v", late)
			}
		}
	}
	// The first goes at once, the other four together when the next token is there.
	if len(one) != 2 || len(one[1].chores) != 4 {
		t.Fatalf("messages: %+v", one)
	}
	if gap := one[1].at.Sub(one[0].at); gap < 3*time.Second || gap > 3*time.Second+10*time.Millisecond {
		t.Errorf("%v between the two", gap)
	}
}

func TestLanesDoNotWaitForEachOther(t *testing.T) {
	d := newDesk(t)
	d.s.Limits = map[string]scheduler.Limits{"slow": {All: scheduler.Rate{Limit: 1, Burst: 1}}, "quick": {All: scheduler.Rate{Limit: 50, Burst: 1}}}
	for i := range 50 {
		d.plant(store.Address(fmt.Sprintf("slow:%d", i)), "flip", start, store.Urgent)
		d.plant(store.Address(fmt.Sprintf("quick:%d", i)), "flip", start, store.Routine)
	}
	d.plant("unserved:1", "flip", start, store.Routine)
	d.advance(2 * time.Second)
	n := map[string]int{}
	for _, m := range d.messages() {
		n[m.to.Lane()]++
	}
	if n["quick"] != 50 || n["slow"] != 3 || n["unserved"] != 0 {
		t.Errorf("said: %v", n)
	}
	// A lane served again later finds everything it had; what the other process had
	// claimed, and what it had said but not recorded, comes back meanwhile.
	d.s = d.scheduler()
	d.advance(5 * time.Minute)
	to := map[store.Address]int{}
	for _, m := range d.messages() {
		to[m.to]++
	}
	if len(to) != 101 {
		t.Errorf("%d conversations had their message in the end", len(to))
	}
}

func TestWhatFailuresMean(t *testing.T) {
	cause := errors.New("made to fail")
	for _, row := range []struct {
		name string
		fail error
		// after how long, at least and at most, it is said; zero if never
		from, to time.Duration
		at       store.Address
	}{
		{"asked to wait", &store.Failure{Kind: store.Wait, After: 3500 * time.Millisecond, Cause: cause}, 3500 * time.Millisecond, 3500 * time.Millisecond, "a:1"},
		{"asked to wait for hours", &store.Failure{Kind: store.Wait, After: 10072 * time.Second, Cause: cause}, 10072 * time.Second, 10072 * time.Second, "a:1"},
		{"unknown", &store.Failure{Cause: cause}, 3500 * time.Millisecond, 6500 * time.Millisecond, "a:1"}, // 5 s, 30 % jitter
		{"not of the platform", cause, 3500 * time.Millisecond, 6500 * time.Millisecond, "a:1"},
		{"moved", &store.Failure{Kind: store.Moved, To: "a:-1001", Cause: cause}, 0, 0, "a:-1001"},
		{"gone", &store.Failure{Kind: store.Gone, Cause: cause}, 0, 0, ""},
		{"refused", &store.Failure{Kind: store.Refused, Cause: cause}, 0, 0, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := newDesk(t)
			d.plant("a:1", "flip", start, store.Routine)
			d.plant("a:2", "flip", start, store.Routine)
			failed := false
			d.answer = func(_ context.Context, m message) error {
				if m.to == "a:1" && !failed {
					failed = true
					return row.fail
				}
				return nil
			}
			d.advance(24 * time.Hour)
			var first, other []message
			for _, m := range d.messages() {
				if m.to == "a:2" {
					other = append(other, m)
				} else {
					first = append(first, m)
				}
			}
			if len(other) != 1 || !other[0].at.Equal(start) {
				t.Errorf("the other conversation got %+v", other)
			}
			if row.at == "" {
				if len(first) != 0 {
					t.Errorf("said: %+v", first)
				}
				return
			}
			if len(first) != 1 {
				t.Fatalf("said %d times", len(first))
			}
			if late := first[0].at.Sub(start); late < row.from || late > row.to || first[0].to != row.at {
				t.Errorf("said at %s after %v", first[0].to, late)
			}
		})
	}
}

func TestWaitHoldsTheWholeConversationAndWideTheLane(t *testing.T) {
	for _, wide := range []bool{false, true} {
		t.Run(fmt.Sprint(wide), func(t *testing.T) {
			d := newDesk(t)
			d.plant("a:1", "first", start, store.Routine)
			d.plant("a:1", "second", start.Add(2*time.Second), store.Urgent)
			d.plant("a:2", "first", start.Add(2*time.Second), store.Routine)
			failed := false
			d.answer = func(context.Context, message) error {
				if !failed {
					failed = true
					return &store.Failure{Kind: store.Wait, After: 10 * time.Second, Wide: wide, Cause: errors.New("429")}
				}
				return nil
			}
			d.advance(time.Minute)
			sent := d.messages()
			if len(sent) != 2 {
				t.Fatalf("messages: %+v", sent)
			}
			for _, m := range sent {
				want := 10 * time.Second
				if m.to == "a:2" && !wide {
					want = 2 * time.Second
				}
				if got := m.at.Sub(start); got != want {
					t.Errorf("%s was sent %v after %v", m.to, m.chores, got)
				}
			}
		})
	}
}

// The store keeps milliseconds and clocks show nanoseconds: what was asked to wait is
// not taken up a moment early, and then again and again while that moment lasts.
func TestAWaitThatEndsBetweenTwoMilliseconds(t *testing.T) {
	for _, wide := range []bool{false, true} {
		d := newDesk(t)
		d.clock.At = start.Add(700 * time.Microsecond)
		lease := d.s.Lease
		d.s.Lease = func() string {
			if d.lease > 100 {
				panic("it claims without end")
			}
			return lease()
		}
		d.plant("a:1", "flip", start, store.Routine)
		failed := false
		d.answer = func(context.Context, message) error {
			if !failed {
				failed = true
				return &store.Failure{Kind: store.Wait, After: 3 * time.Second, Wide: wide, Cause: errors.New("429")}
			}
			return nil
		}
		for range 40 { // up to and over the end of the wait, by a tenth of a millisecond each
			if _, err := d.s.Tick(t.Context(), d.clock.At); err != nil {
				t.Fatal(err)
			}
			if d.clock.At.Before(start.Add(2 * time.Second)) {
				d.clock.At = start.Add(2999 * time.Millisecond)
			}
			d.clock.At = d.clock.At.Add(100 * time.Microsecond)
		}
		sent := d.messages()
		if len(sent) != 1 {
			t.Fatalf("wide %v: messages: %+v", wide, sent)
		}
		// 3 s after 0.7 ms, and no more than a millisecond later.
		if after := sent[0].at.Sub(start); after < 3*time.Second+700*time.Microsecond || after > 3*time.Second+1700*time.Microsecond {
			t.Errorf("wide %v: sent after %v", wide, after)
		}
	}
}

func TestBackoffGrowsAndAnOutageLosesNothing(t *testing.T) {
	d := newDesk(t)
	d.plant("a:1", "flip", start, store.Routine)
	var tries []time.Time
	until := start.Add(5 * 24 * time.Hour)
	d.answer = func(_ context.Context, m message) error {
		tries = append(tries, m.at)
		if m.at.Before(until) {
			return errors.New("connection refused")
		}
		return nil
	}
	d.advance(6 * 24 * time.Hour)
	if got := d.times()["flip"]; got != 1 {
		t.Fatalf("said %d times", got)
	}
	for i := 1; i < len(tries); i++ {
		gap := tries[i].Sub(tries[i-1])
		if gap < 3*time.Second || gap > 79*time.Minute {
			t.Errorf("try %d came %v after the one before", i+1, gap)
		}
	}
	if first, last := tries[1].Sub(tries[0]), tries[len(tries)-1].Sub(tries[len(tries)-2]); last < 10*first {
		t.Errorf("waits went from %v to %v", first, last)
	}
}

func TestAMessageThatMayHaveArrivedKeepsItsKey(t *testing.T) {
	d := newDesk(t)
	d.plant("a:1", "one", start, store.Routine)
	d.plant("a:1", "two", start, store.Routine)
	var tried []message
	d.answer = func(_ context.Context, m message) error {
		tried = append(tried, m)
		if len(tried) == 1 {
			// Due while the outcome is unknown: it must not slip into the message
			// a platform may already have under that key.
			d.plant("a:1", "three", start, store.Routine)
			return context.DeadlineExceeded
		}
		return nil
	}
	d.advance(time.Hour)
	if len(tried) != 3 {
		t.Fatalf("tries: %+v", tried)
	}
	byKey := map[string]string{}
	for _, m := range tried {
		if was, ok := byKey[m.key]; ok && was != strings.Join(m.chores, " ") {
			t.Errorf("key %s stood for %q and %q", m.key, was, m.chores)
		}
		byKey[m.key] = strings.Join(m.chores, " ")
		if len(m.key) > 25 { // Discord: nonce of up to 25 characters
			t.Errorf("key %q is too long", m.key)
		}
	}
	if len(byKey) != 2 {
		t.Errorf("keys: %v", byKey)
	}
}

func TestSomethingNewDoesNotHurryWhatFailed(t *testing.T) {
	d := newDesk(t)
	d.plant("a:1", "old", start, store.Routine)
	d.plant("a:1", "new", start.Add(8*time.Second), store.Routine)
	tried := map[string][]time.Duration{}
	d.answer = func(_ context.Context, m message) error {
		slot := strings.Join(m.chores, " ")
		tried[slot] = append(tried[slot], m.at.Sub(start))
		if m.at.Before(start.Add(3 * time.Minute)) {
			return errors.New("timeout")
		}
		return nil
	}
	d.advance(10 * time.Minute)
	// 5 s, 10 s, 20 s ... with 30 % jitter: seven tries at most in three minutes, and
	// the new one has its own from the moment it was due.
	if n := len(tried["old"]); n > 8 || n < 4 {
		t.Errorf("tried the old one at %v", tried["old"])
	}
	if n := tried["new"]; len(n) < 3 || n[0] > 10*time.Second {
		t.Errorf("tried the new one at %v", n)
	}
	if n := d.times(); n["old"] != 1 || n["new"] != 1 {
		t.Errorf("said: %v", n)
	}
}

func TestAnOutageEndsInOneMessage(t *testing.T) {
	d := newDesk(t)
	for i := range 6 {
		d.plant("a:1", fmt.Sprint(i), start.Add(time.Duration(i)*24*time.Hour), store.Routine)
	}
	d.answer = func(_ context.Context, m message) error {
		if m.at.Before(start.Add(130 * time.Hour)) {
			return errors.New("no route to host")
		}
		return nil
	}
	d.advance(140 * time.Hour)
	if sent := d.messages(); len(sent) != 1 || len(sent[0].chores) != 6 {
		t.Errorf("messages: %+v", sent)
	}
}

func TestAPanicStopsNoOtherConversation(t *testing.T) {
	d := newDesk(t)
	d.plant("a:1", "bad", start, store.Routine)
	d.plant("a:2", "good", start, store.Routine)
	d.answer = func(_ context.Context, m message) error {
		if m.to == "a:1" {
			panic("made to")
		}
		return nil
	}
	d.advance(time.Minute)
	if n := d.times(); n["good"] != 1 || n["bad"] != 0 {
		t.Errorf("said: %v", n)
	}
}

func TestWhatCannotBeRecordedIsNotSaidAgain(t *testing.T) {
	d := newDesk(t)
	d.plant("a:1", "flip", start, store.Routine)
	d.settle = func() error { return errors.New("disk full") }
	for range 10 { // each one a heartbeat
		if _, err := d.s.Tick(context.Background(), d.clock.At); err == nil {
			t.Fatal("no word of it")
		}
		d.clock.At = d.clock.At.Add(time.Minute)
	}
	d.settle = nil
	d.advance(time.Hour)
	if n := d.times()["flip"]; n != 1 {
		t.Errorf("said %d times", n)
	}
}
