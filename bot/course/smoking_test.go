package course

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/curemath"
	"larderhand/store"
)

// The days below are in UTC, with quiet hours from 22:00 to 07:00.
func hourOf(s string) time.Time {
	at, err := time.Parse("2 15:04", s)
	if err != nil {
		panic(err)
	}
	return time.Date(2027, 3, at.Day(), at.Hour(), at.Minute(), 0, 0, time.UTC)
}

type told struct{ kind, piece, at, body string }

// smokeState is a batch of two pieces, cured with 120 ppm unless said otherwise,
// and what was told of it.
func smokeState(ingoing curemath.PPM, list ...told) State {
	b := store.Batch{ID: 1, Number: 1, Opened: hourOf("1 12:00"), Plan: store.Plan{Days: 7}}
	for _, l := range []string{"a", "b"} {
		b.Pieces = append(b.Pieces, store.Piece{Letter: l, Weight: 2268, Ingoing: ingoing})
	}
	var entries []store.Entry
	for i, t := range append([]told{{Opened, "", "1 12:00", ""}, {string(Firm), "", "9 08:00", ""}}, list...) {
		entries = append(entries, store.Entry{ID: int64(i + 1), Batch: 1, Kind: t.kind, Piece: t.piece, At: hourOf(t.at), Recorded: hourOf(t.at).Add(time.Duration(i)), Body: t.body})
	}
	return Fold(b, entries)
}

func coreBody(f float64) string { return fmt.Sprintf(`{"core":%g}`, f) }

func pitBody(f float64) string { return fmt.Sprintf(`{"pit":%g}`, f) }

func wanted(s State, r Rhythm, said ...store.Chore) string {
	var out []string
	for _, w := range Wants(s, r, said) {
		line := w.Kind + " " + w.Piece + " " + w.Due.UTC().Format("2 15:04")
		if w.Urgency == store.Urgent {
			line += "!"
		}
		out = append(out, strings.Join(strings.Fields(line), " "))
	}
	return strings.Join(out, ", ")
}

func saidAt(kind, piece, slot, at string) store.Chore {
	return store.Chore{Kind: kind, Piece: piece, Slot: slot, State: store.StateSent, Due: hourOf(at), Sent: hourOf(at)}
}

func TestCoolingPings(t *testing.T) {
	r := rhythmIn(t, "UTC")
	smoke := []told{{string(Smoking), "", "10 08:00", ""}, {Reading, "", "10 20:00", coreBody(150)}, {string(Smoked), "", "10 20:00", ""}}
	with := func(more ...told) []told { return append(smoke[:len(smoke):len(smoke)], more...) }
	for _, c := range []struct {
		name    string
		ingoing curemath.PPM
		told    []told
		said    []store.Chore
		want    string
	}{
		// The windows are those of the cured product's rule, FSIS Appendix B: 130 to 80 °F
		// in 5 h, 80 to 45 °F in 10 h; second-hand, not checked against the text.
		{"unread, the first window may have begun at once", 120, with(), nil,
			"cooled 11 07:00, window closes 11 00:00!, window over 11 01:00!"},
		{"still over 130 °F at the last reading: no earlier than then", 120, with(told{Reading, "", "10 20:30", coreBody(135)}), nil,
			"cooled 11 07:00, window closes 11 00:30!, window over 11 01:30!"},
		{"passed 130 °F unread: from the last reading over it, no later line between two", 120, with(told{Reading, "", "10 22:00", coreBody(110)}), nil,
			"cooled 11 07:00, window closes 11 00:00!, window over 11 01:00!"},
		{"the hour's warning was given, by night", 120, with(told{Reading, "", "10 22:00", coreBody(110)}),
			[]store.Chore{saidAt(WindowCloses, "", "5/0", "11 00:00")},
			"cooled 11 07:00, window over 11 01:00!"},
		{"the second window has its own: 80 °F was passed at 00:00", 120, with(told{Reading, "", "10 22:00", coreBody(110)}, told{Reading, "", "11 00:00", coreBody(80)}),
			[]store.Chore{saidAt(WindowCloses, "", "5/0", "11 01:00")},
			"cooled 11 07:00, window closes 11 09:00!, window over 11 10:00!"},
		// Option 1 of the same appendix, 1999: 130 to 80 °F in 1.5 h.
		{"too little nitrite takes the short windows", 50, with(told{Reading, "", "10 22:00", coreBody(131)}), nil,
			"cooled 11 07:00, window closes 10 22:30!, window over 10 23:30!"},
		{"failed: nothing urgent is left to ask", 120, with(told{Reading, "", "11 08:00", coreBody(100)}), nil,
			"cooled 11 08:00"},
		{"cooled: no more of it", 120, with(told{Reading, "", "10 22:00", coreBody(110)}, told{string(Cooled), "", "10 23:00", ""}), nil,
			"chilled 11 08:00"},
		{"pieces out hours apart have windows of their own", 120,
			[]told{{string(Smoking), "", "10 08:00", ""}, {string(Smoked), "a", "10 14:00", coreBody(150)}, {string(Smoked), "b", "10 17:00", coreBody(150)}}, nil,
			"cooled a 10 16:00, cooled b 10 19:00, window closes a 10 18:00!, window closes b 10 21:00!, window over a 10 19:00!, window over b 10 22:00!"},
	} {
		if got := wanted(smokeState(c.ingoing, c.told...), r, c.said...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestSmokePings(t *testing.T) {
	r := rhythmIn(t, "UTC")
	start := told{string(Smoking), "", "10 08:00", ""}
	for _, c := range []struct {
		name string
		told []told
		said []store.Chore
		want string
	}{
		{"no readings: hourly, and 18 hours as a rule of thumb", []told{start}, nil, "smoked 11 02:00!, ask reading 10 09:00"},
		{"asked and not answered", []told{start}, []store.Chore{saidAt(AskReading, "", "x", "10 09:00")}, "smoked 11 02:00!, ask reading 10 10:00"},
		{"less often after three", []told{start}, []store.Chore{saidAt(AskReading, "", "x", "10 09:00"), saidAt(AskReading, "", "y", "10 10:00"), saidAt(AskReading, "", "z", "10 11:00")},
			"smoked 11 02:00!, ask reading 10 13:00"},
		{"not by night", []told{{string(Smoking), "", "10 21:30", ""}}, nil, "smoked 11 15:30!, ask reading 11 07:00"},
		{"a dying fire is looked at again soon, night or not", []told{start, {Reading, "", "10 20:00", pitBody(150)}, {Reading, "", "10 22:30", pitBody(95)}}, nil,
			"smoked 11 02:00!, ask reading 10 23:00!"},
		{"one piece is at its target and waits to be taken out", []told{start, {Reading, "a", "10 18:00", coreBody(150)}}, nil,
			"smoked a 10 18:30!, smoked b 11 02:00!"},
		{"asked again while nobody answers", []told{start, {Reading, "", "10 18:00", coreBody(150)}},
			[]store.Chore{saidAt(string(Smoked), "", "x", "10 18:30")}, "smoked 10 19:00!"},
	} {
		if got := wanted(smokeState(120, c.told...), r, c.said...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// As the core nears its target, readings are asked for ever more often; "nearly there"
// comes half an hour before the finish that is forecast, whether it is done is asked at
// that finish, and again half an hour later if nobody answers.
func TestSmokePingsFollowTheForecast(t *testing.T) {
	r := rhythmIn(t, "UTC")
	list := []told{{string(Smoking), "", "10 08:00", ""}}
	gaps, finishes := []time.Duration{}, 0
	for i, core := range []float64{48, 62, 76, 88, 99, 109, 118, 126, 133, 139, 144} {
		at := fmt.Sprintf("10 %02d:00", 9+i)
		list = append(list, readAt(at, 156, core))
		s := smokeState(120, list...)
		due := map[string]time.Time{}
		wants := Wants(s, r, nil)
		for _, w := range wants {
			due[w.Kind] = w.Due
		}
		_, finish, _, ok := s.Finish("a")
		if !ok {
			continue
		}
		finishes++
		if !due[string(Smoked)].Equal(finish) {
			t.Errorf("%s: whether it is done is asked at %v, the forecast is %v", at, due[string(Smoked)], finish)
		}
		if soon := finish.Add(-nearlyBefore); soon.After(hourOf(at)) && !due[NearlyThere].Equal(soon) {
			t.Errorf("%s: nearly there is said at %v, want %v", at, due[NearlyThere], soon)
		}
		again := Wants(s, r, []store.Chore{{Kind: string(Smoked), State: store.StateSent, Slot: "x", Due: finish, Sent: finish}})
		for _, w := range again {
			if w.Kind == string(Smoked) && !w.Due.Equal(finish.Add(doneAgain)) {
				t.Errorf("%s: unanswered at %v it is asked again at %v", at, finish, w.Due)
			}
		}
		if ask, ok := due[AskReading]; ok {
			gaps = append(gaps, ask.Sub(hourOf(at)))
		}
	}
	if finishes < 5 || len(gaps) < 3 {
		t.Fatalf("%d forecasts, readings asked for after %v", finishes, gaps)
	}
	if !slices.IsSortedFunc(gaps, func(a, b time.Duration) int { return int(b - a) }) || gaps[0] <= gaps[len(gaps)-1] {
		t.Errorf("readings are asked for after %v", gaps)
	}
}

// A stall is a core that stands under a pit well above it; a core nearly as warm as
// its pit, or one that climbs, is none (common practice, no source).
func TestStall(t *testing.T) {
	at := func(h string, pit, core float64) []told {
		return []told{{Reading, "", h, fmt.Sprintf(`{"pit":%g,"core":%g}`, pit, core)}}
	}
	for _, c := range []struct {
		name    string
		told    [][]told
		stalled bool
		tooCool bool
	}{
		{"an hour without a degree", [][]told{at("10 14:00", 157, 138), at("10 15:00", 156, 138)}, true, false},
		{"a degree an hour", [][]told{at("10 14:00", 157, 138), at("10 15:00", 156, 139)}, true, false},
		{"three degrees an hour", [][]told{at("10 14:00", 157, 138), at("10 15:00", 156, 141)}, false, false},
		{"half an hour says nothing yet", [][]told{at("10 14:00", 157, 138), at("10 14:30", 156, 138)}, false, false},
		{"nearly as warm as the pit", [][]told{at("10 14:00", 150, 146), at("10 15:00", 150, 146)}, false, false},
		{"a core that falls", [][]told{at("10 14:00", 157, 138), at("10 15:00", 156, 130)}, false, false},
		{"cold meat in a cold smoke", [][]told{at("10 14:00", 95, 70), at("10 15:00", 95, 70)}, false, true},
		{"a pit under the target", [][]told{at("10 14:00", 144, 120), at("10 15:00", 145, 126)}, false, true},
		{"a pit at the target", [][]told{at("10 14:00", 150, 120), at("10 15:00", 150, 126)}, false, false},
		{"a pit brought up again", [][]told{at("10 14:00", 144, 120), at("10 15:00", 158, 126)}, false, false},
		{"a pit that is still coming up", [][]told{at("10 09:00", 120, 50)}, false, false},
	} {
		list := []told{{string(Smoking), "", "10 08:00", ""}}
		for _, r := range c.told {
			list = append(list, r...)
		}
		s := smokeState(120, list...)
		o := s.Outlook("a")
		if o.Stalled != c.stalled || o.TooCool != c.tooCool {
			t.Errorf("%s: stalled %v, too cool %v", c.name, o.Stalled, o.TooCool)
		}
		if _, ok := s.Stall("a"); ok != c.stalled {
			t.Errorf("%s: a stretch was found: %v", c.name, ok)
		}
	}
}
