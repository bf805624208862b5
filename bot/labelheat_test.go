package bot

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/course"
	"larderhand/curemath"
	"larderhand/store"
)

// What takes "cook before eating" off a label: 160 °F (NCHFP 6.1.3), shown by two
// readings and not by one, which may be a slip.
func TestHeatedThroughTakesTwoReadings(t *testing.T) {
	start := time.Date(2027, 3, 8, 6, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		minutes []int
		temps   []curemath.Fahrenheit
		through bool
	}{
		"two at 160 °F":           {[]int{0, 60, 120, 130}, []curemath.Fahrenheit{60, 120, 160, 161}, true},
		"one at 165 °F":           {[]int{0, 60, 120}, []curemath.Fahrenheit{60, 120, 165}, false},
		"a slip after a cold one": {[]int{0, 60}, []curemath.Fahrenheit{60, 165}, false},
		"two at 159 °F":           {[]int{0, 60, 120, 130}, []curemath.Fahrenheit{60, 120, 159, 159}, false},
		"slow to come up": {[]int{0, 50, 100, 150, 200, 250, 300, 350, 400, 440, 470, 480},
			[]curemath.Fahrenheit{48, 55, 70, 80, 90, 100, 110, 118, 125, 140, 160, 161}, false}, // over 6 h from 50 to 130 °F: FSIS cooking guideline 2021, from memory
		"in time to come up": {[]int{0, 50, 100, 150, 200, 250, 300, 310},
			[]curemath.Fahrenheit{48, 55, 80, 100, 120, 140, 160, 161}, true},
		"two at 165 °F, hours apart": {[]int{0, 60, 240}, []curemath.Fahrenheit{60, 165, 165}, false},
	} {
		entries := []store.Entry{
			{ID: 1, Kind: course.Opened, At: start.AddDate(0, 0, -8)},
			{ID: 2, Kind: string(course.Smoking), At: start},
		}
		for i, m := range c.minutes {
			entries = append(entries, store.Entry{ID: int64(i + 3), Kind: course.Reading, At: start.Add(time.Duration(m) * time.Minute), Body: course.Body{Core: &c.temps[i]}.JSON()})
		}
		s := course.Fold(store.Batch{Pieces: []store.Piece{{Letter: "a", Weight: 2300, Ingoing: 118}}}, entries)
		turn := &Turn{Now: start.Add(5 * time.Hour), Loc: time.UTC}
		said := turn.statement(s, s.Pieces[0])
		if through := said == "Cured, smoked, heated through by the keeper's readings"; through != c.through {
			t.Errorf("%s: the label says %q", name, said)
		}
	}
}

// Whatever else a label says, it says of meat under 100 ppm that it is fresh pork, and
// of meat that was not smoked that it was not (common practice, no source).
func TestAnUnreadCoolingTakesNothingOffALabel(t *testing.T) {
	start := time.Date(2027, 3, 8, 6, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		ingoing curemath.PPM
		skipped bool
		want    string
	}{
		"cured":     {118, false, "Cured, smoked; cook before eating. Cooling not shown by readings; "},
		"uncured":   {90, false, "Only 90 ppm nitrite, not fully cured; cook before eating, as fresh pork. Cooling not shown by readings; "},
		"no smoke":  {118, true, "Cured, not smoked; cook before eating. Cooling not shown by readings; "},
		"just weak": {99.9, false, "Only 99.9 ppm nitrite, not fully cured; cook before eating, as fresh pork. Cooling not shown by readings; "},
	} {
		entries := []store.Entry{
			{ID: 1, Kind: course.Opened, At: start.AddDate(0, 0, -8)},
			{ID: 2, Kind: string(course.Smoking), At: start},
			{ID: 3, Kind: string(course.Smoked), At: start.Add(50 * time.Minute)},
			{ID: 4, Kind: string(course.Cooled), At: start.Add(14 * time.Hour), Body: course.Body{Text: coldInTime}.JSON()},
		}
		s := course.Fold(store.Batch{Pieces: []store.Piece{{Letter: "a", Weight: 2300, Ingoing: c.ingoing}}}, entries)
		if c.skipped {
			m := s.Pieces[0].Marks[course.Smoking]
			m.Skipped = true
			s.Pieces[0].Marks[course.Smoking] = m
		}
		turn := &Turn{Now: start.Add(24 * time.Hour), Loc: time.UTC}
		if said := turn.statement(s, s.Pieces[0]); !strings.HasPrefix(said, c.want) {
			t.Errorf("%s: the label says %q, want it to begin %q", name, said, c.want)
		}
	}
}

// The card of a batch speaks of its weakest piece, and of its shortest days: fresh pork
// keeps 3 to 5 at 40 °F, bacon 7 (US cold storage chart; fresh pork from memory).
func TestTheCardSpeaksOfTheWeakestPiece(t *testing.T) {
	start := time.Date(2027, 3, 8, 6, 0, 0, 0, time.UTC)
	entries := []store.Entry{
		{ID: 1, Kind: course.Opened, At: start.AddDate(0, 0, -8)},
		{ID: 2, Kind: string(course.Smoking), At: start},
		{ID: 3, Kind: string(course.Smoked), At: start.Add(50 * time.Minute)},
		{ID: 4, Kind: string(course.Cooled), At: start.Add(14 * time.Hour), Body: course.Body{Text: coldInTime}.JSON()},
		{ID: 5, Kind: string(course.Packed), At: start.Add(20 * time.Hour)},
	}
	s := course.Fold(store.Batch{Pieces: []store.Piece{{Letter: "a", Weight: 2300, Ingoing: 90}, {Letter: "b", Weight: 2300, Ingoing: 118}}}, entries)
	turn := &Turn{Now: start.Add(24 * time.Hour), Loc: time.UTC}
	said := turn.cardCaution(s)
	for _, want := range []string{"as fresh pork", "Cooling not shown by readings", "In the fridge until Fri 12 Mar 2027"} {
		if !strings.Contains(said, want) {
			t.Errorf("the card lacks %q: %s", want, said)
		}
	}
}
