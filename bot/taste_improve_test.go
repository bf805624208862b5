package bot

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/course"
	"larderhand/curemath"
	"larderhand/store"
)

// tasted is a batch of so much salt that member 1 scored.
func tasted(number int, salt curemath.Percent, score string) course.State {
	b := store.Batch{Number: number, Opened: time.Unix(0, 0), Plan: store.Plan{Salt: salt}, Pieces: []store.Piece{{Letter: "a", Weight: curemath.Kilogram}}}
	return course.Fold(b, []store.Entry{{ID: 1, Kind: course.Taste, Member: 1, Body: course.Body{Extra: map[string]string{"salt": score}}.JSON()}})
}

func TestAdviceComesFromTheNumbers(t *testing.T) {
	for _, c := range []struct {
		name string
		now  course.State
		past []course.State
		want string
	}{
		{"middle of what was liked", tasted(4, 2.9, "5"), []course.State{tasted(1, 2.2, "3"), tasted(2, 2.6, "3")}, "salty at 2.9 %; 2.4 % is the middle of your liked range (2.2 to 2.6)"},
		{"one liked", tasted(4, 2.9, "4"), []course.State{tasted(1, 2.4, "3")}, "at 2.4 % you found it right"},
		{"half-way", tasted(4, 2.9, "4"), []course.State{tasted(1, 2.1, "2"), tasted(2, 1.5, "1")}, "too mild at 2.1 %; half-way is 2.5 %"},
		{"too little, half-way", tasted(4, 2.1, "1"), []course.State{tasted(1, 2.9, "4")}, "too mild at 2.1 % and salty at 2.9 %; half-way is 2.5 %"},
		{"contradiction", tasted(4, 2.4, "5"), []course.State{tasted(1, 2.8, "3")}, "the numbers don't say"},
		{"nothing else", tasted(4, 2.9, "5"), nil, "nothing you scored tells yet"},
		{"the same again", tasted(4, 2.9, "5"), []course.State{tasted(1, 2.9, "4")}, "nothing you scored tells yet"},
		{"just right", tasted(4, 2.9, "3"), []course.State{tasted(1, 2.2, "3")}, ""},
	} {
		got := advice(qualities()[0], 1, c.now, "", append(c.past, c.now))
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if other := advice(qualities()[0], 2, c.now, "", append(c.past, c.now)); other != "" {
			t.Errorf("%s: someone who scored nothing is told %q", c.name, other)
		}
	}
}

func TestReadScores(t *testing.T) {
	for _, c := range []struct{ in, salt, smoke, remark string }{
		{"salt 4 smoke 2 nice crust", "4", "2", "nice crust"},
		{"salty: 4/5, smoky=1", "4", "1", ""},
		{"2 slices, smoke 5", "", "5", "2 slices,"},
		{"nice", "", "", "nice"},
		{"salt four", "", "", "salt four"},
	} {
		got, remark, err := readScores(c.in)
		if err != nil || got["salt"] != c.salt || got["smoke"] != c.smoke || remark != c.remark {
			t.Errorf("%q: %v %q %v", c.in, got, remark, err)
		}
	}
	for _, bad := range []string{"salt 0", "salt 6", "smoke 99999999999999999999"} {
		if _, _, err := readScores(bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}
