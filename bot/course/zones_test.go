package course

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"testing"
	"time"

	"larderhand/scheduler/plan"
	"larderhand/scheduler/plan/zone"
	"larderhand/store"
)

// Ping hours that clocks skip or repeat somewhere, and a usual one.
var pingHours = []plan.HourMinute{0, 30, 105, 150, 480} // 00:00 00:30 01:45 02:30 08:00

// flipper is one batch that is flipped an hour after each ping.
type flipper struct {
	batch store.Batch
	log   []store.Entry
	said  []store.Chore
	r     Rhythm

	answered int
}

func newFlipper(loc *time.Location, hour plan.HourMinute, opened time.Time) *flipper {
	return &flipper{r: Rhythm{Loc: loc, Hour: hour},
		batch: store.Batch{ID: 1, Opened: opened, Plan: store.Plan{Days: 10_000}, Pieces: []store.Piece{{Letter: "a"}}},
		log:   []store.Entry{{ID: 1, Kind: Opened, At: opened, Recorded: opened, Body: "{}"}}}
}

func (f *flipper) want(t *testing.T) store.Want {
	t.Helper()
	wants := Wants(Fold(f.batch, f.log), f.r, f.said)
	if len(wants) != 1 || wants[0].Kind != Flip {
		t.Fatalf("wants %+v", wants)
	}
	return wants[0]
}

// answer says the ping and has the batch flipped. Old days are forgotten: they
// decide nothing any more.
func (f *flipper) answer(w store.Want) {
	f.said = append(f.said[max(0, len(f.said)-3):], store.Chore{Kind: w.Kind, Slot: w.Slot, Due: w.Due, State: store.StateSent, Sent: w.Due})
	at := w.Due.Add(time.Hour)
	f.log = append(f.log[:1], store.Entry{ID: 2, Kind: Flip, At: at, Recorded: at, Body: "{}"})
}

// changes gives the instants from which a zone's clock shows another offset.
func changes(loc *time.Location, from, to time.Time) []time.Time {
	var list []time.Time
	for t := from; ; {
		_, end := t.In(loc).ZoneBounds()
		if end.IsZero() || !end.Before(to) {
			return list
		}
		if !end.After(t) { // in a leap year the standard library ends a year a day early
			end = t.Add(24 * time.Hour)
		}
		_, was := end.Add(-time.Second).In(loc).Zone()
		if _, is := end.In(loc).Zone(); is != was {
			list = append(list, end)
		}
		t = end
	}
}

// nasty are the zones whose clocks are at their worst: changes at midnight (Havana,
// Santiago), by half an hour (Lord Howe), twice a year by the moon (Casablanca).
var nasty = []string{"America/Havana", "America/Santiago", "Africa/Casablanca", "Australia/Lord_Howe"}

// TestOneFlipAPingDateInEveryZone keeps a batch for each ping hour through every date
// of ten years in every zone of the zone data (IANA time zone database, as embedded in
// Go): one flip ping for each local date, on that date. Under -short it is every tenth
// clock and the nasty ones.
func TestOneFlipAPingDateInEveryZone(t *testing.T) {
	first, end := plan.Date{Year: 2025, Month: time.January, Day: 1}, plan.Date{Year: 2035, Month: time.January, Day: 1}
	from, to := time.Date(2024, 12, 30, 0, 0, 0, 0, time.UTC), time.Date(2035, 1, 2, 0, 0, 0, 0, time.UTC)
	names, known := zone.Names(), map[string]bool{}
	if len(names) <= 400 { // the database has had more since the nineties
		t.Fatalf("only %d zones", len(names))
	}
	for _, name := range names {
		loc, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		_, offset := from.In(loc).Zone()
		clock := fmt.Sprint(offset, changes(loc, from, to)) // many names are one clock
		if known[clock] {
			continue
		}
		known[clock] = true
		if (testing.Short() || raceOn) && len(known)%10 != 0 && !slices.Contains(nasty, name) {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, hour := range pingHours {
				datesInTurn(t, newFlipper(loc, hour, time.Date(2024, 12, 31, 15, 0, 0, 0, loc)), first, end)
			}
		})
	}
	if len(known) < 60 {
		t.Errorf("only %d clocks differ", len(known))
	}
}

func datesInTurn(t *testing.T, f *flipper, first, end plan.Date) {
	t.Helper()
	for day := first; day.Before(end); day = day.AddDays(1) {
		w := f.want(t)
		if got := plan.DateOf(w.Due, f.r.Loc); w.Slot != day.String() || got != day {
			t.Fatalf("%v: %s is pinged on %v at %v, want %v", f.r.Hour, w.Slot, got, w.Due, day)
		}
		f.answer(w)
	}
}

var decades = flag.Bool("decade", false, "walk ten years where two do otherwise")

// TestYearsInNastyZones has a store plan, claim and record every flip of two or ten
// years in the nasty zones.
func TestYearsInNastyZones(t *testing.T) {
	days := 731
	if *decades {
		days = 3652
	}
	if raceOn {
		days = 60
	}
	for _, name := range nasty {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			loc, err := time.LoadLocation(name)
			if err != nil {
				t.Fatal(err)
			}
			db, err := store.Open(context.Background(), store.Memory)
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { _ = db.Close() })
			years(t, db, loc, days)
		})
	}
}

// years keeps a batch for each ping hour and begins a new one every month.
func years(t *testing.T, db *store.DB, loc *time.Location, days int) {
	t.Helper()
	ctx := context.Background()
	now := time.Date(2025, 1, 1, 15, 0, 0, 0, loc)
	first := plan.DateOf(now, loc)
	batches := map[int64]*flipper{} // by conversation
	times := map[string]int{}       // by conversation and slot
	for end := first.AddDays(days); plan.DateOf(now, loc).Before(end); {
		err := db.Update(ctx, now, func(tx *store.Tx) error {
			due, err := tx.Claim("test", now.Format("20060102150405"), now.Add(time.Minute), 100)
			if err != nil {
				return err
			}
			for _, c := range due {
				f := batches[c.Conversation]
				if got := plan.DateOf(now, loc).String(); c.Slot != got {
					return fmt.Errorf("%v: the flip of %s comes on %s", f.r.Hour, c.Slot, got)
				}
				times[fmt.Sprint(c.Conversation, c.Slot)]++
				if err := tx.MarkSent(c); err != nil {
					return err
				}
				f.answer(store.Want{Kind: c.Kind, Slot: c.Slot, Due: c.Due})
				if f.answered++; f.answered%30 == 0 { // a new batch: its chores begin anew
					f.batch.ID += 10
				}
				if err := planAnew(tx, c.Conversation, f.batch.ID, f.want(t)); err != nil {
					return err
				}
			}
			if len(batches) > 0 {
				return nil
			}
			for i, hour := range pingHours {
				c, err := tx.SaveConversation(store.Conversation{Address: store.Address(fmt.Sprintf("test:%d", i))})
				if err != nil {
					return err
				}
				f := newFlipper(loc, hour, now)
				f.batch.ID = int64(i + 1)
				batches[c.ID] = f
				if err := planAnew(tx, c.ID, f.batch.ID, f.want(t)); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		next, err := db.Upcoming(ctx)
		if err != nil {
			t.Fatal(err)
		}
		now = next["test"].In(loc)
	}
	for d := first.AddDays(1); d.Before(first.AddDays(days)); d = d.AddDays(1) {
		for conv, f := range batches {
			if n := times[fmt.Sprint(conv, d.String())]; n != 1 {
				t.Fatalf("%v: %d flip pings for %v", f.r.Hour, n, d)
			}
		}
	}
}

// The quiet hours put a ping off to their end; that is still one ping a day.
func TestQuietHoursKeepOnePingADay(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	for _, hour := range []plan.HourMinute{0, 150, 480, 22*60 + 30, 23*60 + 59} {
		f := newFlipper(berlin, hour, time.Date(2027, 3, 20, 15, 0, 0, 0, berlin))
		f.r.Quiet = plan.Quiet{From: 22 * 60, To: 7 * 60}
		last := plan.DateOf(f.batch.Opened, berlin)
		for range 20 {
			w := f.want(t)
			if f.r.Quiet.Contains(w.Due, berlin) {
				t.Errorf("%v: pinged at %v", hour, w.Due)
			}
			if day := plan.DateOf(w.Due, berlin); day.DaysSince(last) != 1 {
				t.Errorf("%v: %v follows %v", hour, day, last)
			} else {
				last = day
			}
			f.answer(w)
		}
	}
}

func TestAwayIsOnePingAtItsEnd(t *testing.T) {
	opened := time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC)
	f := newFlipper(time.UTC, 480, opened)
	f.r.Away = time.Date(2027, 3, 7, 18, 0, 0, 0, time.UTC)
	first := f.want(t)
	if !first.Due.Equal(f.r.Away) {
		t.Errorf("the first is at %v", first.Due)
	}
	f.answer(first)
	if second := f.want(t); !second.Due.Equal(time.Date(2027, 3, 8, 8, 0, 0, 0, time.UTC)) {
		t.Errorf("the second is at %v", second.Due)
	}
	// A helper who has the batch gets the pings meanwhile.
	f = newFlipper(time.UTC, 480, opened)
	f.r.Away = time.Date(2027, 3, 7, 18, 0, 0, 0, time.UTC)
	f.log = append(f.log, store.Entry{ID: 2, Kind: Hand, At: opened, Recorded: opened, Body: Body{Member: 2, Until: f.r.Away.Unix()}.JSON()},
		store.Entry{ID: 3, Kind: Accept, At: opened, Recorded: opened, Body: "{}"})
	for _, w := range Wants(Fold(f.batch, f.log), f.r, nil) {
		if w.Kind == Flip && !w.Due.Equal(time.Date(2027, 3, 2, 8, 0, 0, 0, time.UTC)) {
			t.Errorf("the helper is pinged at %v", w.Due)
		}
	}
}

func TestUnansweredFlipsComeLessOften(t *testing.T) {
	f := newFlipper(time.UTC, 480, time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC))
	var days []int
	for range 6 {
		w := f.want(t)
		days = append(days, w.Due.Day())
		f.said = append(f.said, store.Chore{Kind: w.Kind, Slot: w.Slot, Due: w.Due, State: store.StateSent, Sent: w.Due})
	}
	if got := fmt.Sprint(days); got != "[2 3 4 7 10 13]" {
		t.Errorf("pinged on %s", got)
	}
}

func TestAPingSentOnAWrongClockHidesNoOther(t *testing.T) {
	f := newFlipper(time.UTC, 480, time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC))
	w := f.want(t)
	f.said = []store.Chore{{Kind: Flip, Slot: w.Slot, Due: w.Due, State: store.StateSent, Sent: w.Due.AddDate(1, 0, 0)}}
	f.r.Now = time.Date(2027, 3, 2, 9, 0, 0, 0, time.UTC)
	if w := f.want(t); w.Slot != "2027-03-03" {
		t.Errorf("the next is of %s", w.Slot)
	}
}

// planAnew makes the open chores of a batch those that are wanted.
func planAnew(tx *store.Tx, conversation, batch int64, wants ...store.Want) error {
	have, err := tx.Chores(batch)
	if err != nil {
		return err
	}
	return tx.Reconcile(conversation, batch, have, wants)
}
