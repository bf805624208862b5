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

// made is a batch of so much salt, sugar and smoke that member 1 scored.
func made(number int, salt, sugar curemath.Percent, smoke time.Duration, scores map[string]string) course.State {
	b := store.Batch{Number: number, Opened: time.Unix(0, 0), Plan: store.Plan{Salt: salt, Sugar: sugar}, Pieces: []store.Piece{{Letter: "a", Weight: curemath.Kilogram}}}
	begun := time.Unix(0, 0).AddDate(0, 0, 10)
	return course.Fold(b, []store.Entry{{ID: 1, Kind: string(course.Smoking), At: begun, Body: course.Body{}.JSON()},
		{ID: 2, Kind: string(course.Smoked), At: begun.Add(smoke), Body: course.Body{}.JSON()},
		{ID: 3, Kind: course.Taste, Member: 1, At: begun.AddDate(0, 0, 1), Body: course.Body{Extra: scores}.JSON()}})
}

// Each quality is advised on by the figure it depends on, and by no other.
func TestAdviceOnEachQuality(t *testing.T) {
	past := []course.State{
		made(1, 2.2, 0.8, 4*time.Hour, map[string]string{"salt": "3", "sweet": "3", "smoke": "3", "texture": "3"}),
		made(2, 2.6, 1.2, 8*time.Hour, map[string]string{"salt": "3", "sweet": "3", "smoke": "3", "texture": "3"}),
	}
	for _, c := range []struct{ quality, score, want string }{
		{"salt", "5", "salty at 2.9 %; 2.4 % is the middle of your liked range (2.2 to 2.6)"},
		{"salt", "1", "too mild at 2.9 %, and right at 2.2 to 2.6 before: the numbers don't say"},
		{"sweet", "4", "too sweet at 2 % sugar; 1 % sugar is the middle of your liked range (0.8 to 1.2)"},
		{"sweet", "2", "not sweet enough at 2 % sugar, and right at 0.8 to 1.2 before: the numbers don't say"},
		{"smoke", "2", "at 3 h of smoke; 6 h of smoke is the middle of your liked range (4 to 8)"},
		{"smoke", "5", "at 3 h of smoke, and right at 4 to 8 before: the numbers don't say"},
		{"texture", "1", "no number kept here says what to change"},
		{"texture", "5", "no number kept here says what to change"},
		{"salt", "3", ""}, {"sweet", "3", ""}, {"smoke", "3", ""}, {"texture", "3", ""},
	} {
		now := made(3, 2.9, 2, 3*time.Hour, map[string]string{c.quality: c.score})
		for _, q := range qualities() {
			got := advice(q, 1, now, "", append(past, now))
			switch {
			case q.name != c.quality && got != "":
				t.Errorf("%s %s also says of %s: %q", c.quality, c.score, q.name, got)
			case q.name == c.quality && (c.want == "" && got != "" || !strings.Contains(got, c.want)):
				t.Errorf("%s %s: %q, want %q", c.quality, c.score, got, c.want)
			}
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
