package course

import (
	"testing"
	"time"
	_ "time/tzdata"

	"larderhand/scheduler/plan"
	"larderhand/store"
)

var opened = time.Date(2027, 3, 1, 15, 0, 0, 0, time.UTC)

// journal writes a batch of two pieces with the entries given as "kind" or
// "kind piece", one hour apart.
func journal(kinds ...string) (store.Batch, []store.Entry) {
	b := store.Batch{ID: 1, Number: 3, Opened: opened, Plan: store.Plan{Days: 9, DaysMax: 11},
		Pieces: []store.Piece{{Letter: "a", Weight: 2500, Flavouring: "juniper", Ingoing: 118}, {Letter: "b", Weight: 3100, Flavouring: "coffee and chilli", Ingoing: 118}}}
	var entries []store.Entry
	for i, k := range kinds {
		e := store.Entry{ID: int64(i + 1), Batch: 1, Kind: k, At: opened.Add(time.Duration(i) * time.Hour), Body: "{}"}
		if n := len(k); n > 2 && k[n-2] == ' ' {
			e.Kind, e.Piece = k[:n-2], k[n-1:]
		}
		e.Recorded = e.At
		entries = append(entries, e)
	}
	return b, entries
}

func TestStageFollowsTheSlowestPiece(t *testing.T) {
	for _, c := range []struct {
		name  string
		kinds []string
		stage Stage
		next  Step
		who   string
	}{
		{"just opened", []string{"open"}, Curing, Firm, "ab"},
		{"flips change no step", []string{"open", "flip", "flip"}, Curing, Firm, "ab"},
		{"one piece firm", []string{"open", "firm a"}, Curing, Firm, "b"},
		{"both firm", []string{"open", "firm a", "firm b"}, Curing, Rinsed, "ab"},
		{"drying", []string{"open", "firm", "rinse", "fry"}, DryStage, Drying, "ab"},
		{"a soak asks for another slice", []string{"open", "firm", "rinse", "fry", "soak"}, Curing, Fried, "ab"},
		{"a step done early passes those before it", []string{"open", "smoke"}, InSmoke, Smoked, "ab"},
		{"two pieces finish apart", []string{"open", "firm", "smoke", "smoked a", "cooled a"}, InSmoke, Smoked, "b"},
		{"all packed", []string{"open", "firm", "pack"}, Done, "", ""},
		{"closed", []string{"open", "close"}, Closed, "", ""},
		{"thrown away", []string{"open", "firm", "discard"}, Discarded, "", ""},
		{"a kind nobody knows is passed over", []string{"open", "polka"}, Curing, Firm, "ab"},
	} {
		b, entries := journal(c.kinds...)
		s := Fold(b, entries)
		if s.Stage() != c.stage {
			t.Errorf("%s: stage %q, want %q", c.name, s.Stage(), c.stage)
		}
		next, letters, _ := s.Next()
		got := ""
		for _, l := range letters {
			got += l
		}
		if next.Step != c.next || got != c.who {
			t.Errorf("%s: next %q of %q, want %q of %q", c.name, next.Step, got, c.next, c.who)
		}
	}
}

func TestStruckEntriesCountOnlyForTheVersion(t *testing.T) {
	b, entries := journal("open", "flip", "firm", "note")
	before := Fold(b, entries)
	entries[2].Struck = opened.Add(5 * time.Hour)
	after := Fold(b, entries)
	if next, _, _ := after.Next(); next.Step != Firm {
		t.Errorf("next is %q after the cure check was struck out", next.Step)
	}
	if after.Version <= before.Version {
		t.Errorf("version went from %d to %d; a button made before the strike would still work", before.Version, after.Version)
	}
	if len(after.Log) != len(before.Log)-1 {
		t.Errorf("%d entries stand, want %d", len(after.Log), len(before.Log)-1)
	}
}

func TestSkippedStepsArePassedOver(t *testing.T) {
	b, entries := journal("open", "firm", "skip", "rinse")
	entries[2].Body = Body{Step: Fried, Text: "no pan to hand"}.JSON()
	s := Fold(b, entries)
	if next, _, _ := s.Next(); next.Step != Drying {
		t.Errorf("next is %q; the test slice was skipped ahead", next.Step)
	}
}

func rhythmIn(t *testing.T, zone string) Rhythm {
	t.Helper()
	loc, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	return Rhythm{Loc: loc, Hour: 8 * 60, Quiet: plan.Quiet{From: 22 * 60, To: 7 * 60}}
}

func TestWants(t *testing.T) {
	r := rhythmIn(t, "America/Chicago")
	for _, c := range []struct {
		name  string
		kinds []string
		said  []store.Chore
		want  []string // "kind slot due" with the due in the zone
	}{
		{"first flip on the morning after", []string{"open"}, nil, []string{"flip 2027-03-02 2027-03-02 08:00"}},
		{"said today, so tomorrow", []string{"open"},
			[]store.Chore{{Kind: Flip, Slot: "2027-03-02", State: store.StateSent, Sent: time.Date(2027, 3, 2, 14, 0, 0, 0, time.UTC)}},
			[]string{"flip 2027-03-03 2027-03-03 08:00"}},
		{"said three days late: the next is the day after, not a row of old ones", []string{"open"},
			[]store.Chore{{Kind: Flip, Slot: "2027-03-02", State: store.StateSent, Sent: time.Date(2027, 3, 5, 20, 0, 0, 0, time.UTC)}},
			[]string{"flip 2027-03-06 2027-03-06 08:00"}},
		{"the last flip is the day before the check", []string{"open"},
			[]store.Chore{{Kind: Flip, Slot: "2027-03-08", State: store.StateSent, Sent: time.Date(2027, 3, 8, 14, 0, 0, 0, time.UTC)}},
			[]string{"flip 2027-03-09 2027-03-09 08:00"}},
		{"then the cure check", []string{"open"},
			[]store.Chore{{Kind: Flip, Slot: "2027-03-09", State: store.StateSent, Sent: time.Date(2027, 3, 9, 14, 0, 0, 0, time.UTC)}},
			[]string{"firm 2027-03-10 2027-03-10 08:00"}},
		// The US cold storage chart (FoodSafety.gov): bacon 7 days at 40 °F, 1 month at
		// 0 °F, counted as 30 days. How far ahead is our own choice; common practice, no source.
		{"packed for the fridge, it is spoken of two days ahead of the seven and three ahead of the thirty", []string{"open", "pack"}, nil,
			[]string{"use by freezer 2027-03-28 2027-03-28 08:00", "use by fridge 2027-03-06 2027-03-06 08:00", "ask taste 2027-03-03 2027-03-03 08:00"}},
		{"packed into the freezer, the fridge does not matter", []string{"open", "pack frozen"}, nil,
			[]string{"use by freezer 2027-03-28 2027-03-28 08:00", "ask taste 2027-03-03 2027-03-03 08:00"}},
		{"not cured, it has the three days of fresh pork, from memory", []string{"open", "pack weak"}, nil,
			[]string{"use by freezer 2027-03-28 2027-03-28 08:00", "use by fridge 2027-03-02 2027-03-02 08:00", "ask taste 2027-03-03 2027-03-03 08:00"}},
		{"a closed batch wants nothing", []string{"open", "close"}, nil, nil},
	} {
		b, entries := journal(c.kinds...)
		for i, e := range entries {
			if e.Kind == "pack frozen" {
				entries[i].Kind, entries[i].Body = string(Packed), Body{Frozen: true}.JSON()
			}
			if e.Kind == "pack weak" {
				entries[i].Kind, b.Pieces[0].Ingoing, b.Pieces[1].Ingoing = string(Packed), 90, 90
			}
		}
		got := Wants(Fold(b, entries), r, c.said)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i, w := range got {
			line := w.Kind + " " + w.Slot + " " + w.Due.In(r.Loc).Format("2006-01-02 15:04")
			if line != c.want[i] {
				t.Errorf("%s: %s, want %s", c.name, line, c.want[i])
			}
		}
	}
}

// No ping when flipped early: a flip before the ping hour takes that day's ping
// away.
func TestFlippedEarly(t *testing.T) {
	r := rhythmIn(t, "Europe/Berlin")
	b, entries := journal("open", "flip")
	entries[1].At = time.Date(2027, 3, 2, 5, 30, 0, 0, time.UTC) // 06:30 in Berlin
	got := Wants(Fold(b, entries), r, nil)
	if len(got) != 1 || got[0].Slot != "2027-03-03" {
		t.Errorf("after an early flip on the 2nd: %v", got)
	}
}

// The same journal and the same pings said give the same wants: planning again
// changes nothing.
func TestWantsAreStable(t *testing.T) {
	r := rhythmIn(t, "America/New_York")
	b, entries := journal("open", "firm", "rinse", "fry", "dry", "smoke a")
	s := Fold(b, entries)
	one, two := Wants(s, r, nil), Wants(s, r, nil)
	for i := range one {
		if one[i] != two[i] {
			t.Errorf("%v and then %v", one[i], two[i])
		}
	}
	if len(one) < 2 {
		t.Errorf("a piece in the smoke and a piece to be smoked want %v", one)
	}
}
