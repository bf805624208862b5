package parse

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"larderhand/curemath"
)

// draw writes a cure line on one line, in grams and millimetres, so that a row
// of the table shows all of it.
func draw(c CureLine) string {
	var out []string
	add := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	for _, p := range c.Pieces {
		s := fmt.Sprintf("%.1fg", float64(p.Weight))
		if p.Thickness != 0 {
			s += fmt.Sprintf(" %.1fmm", float64(p.Thickness))
		}
		if p.Flavouring != "" {
			s += " " + p.Flavouring
		}
		if p.RindOn != nil && len(c.Pieces) > 1 {
			s += fmt.Sprintf(" rind %t", *p.RindOn)
		}
		add("[%s]", s)
	}
	if len(c.Pieces) == 0 && c.Thickness != 0 {
		add("%.1fmm", float64(c.Thickness))
	}
	for _, v := range []struct {
		name string
		p    *curemath.Percent
	}{{"salt", c.Salt}, {"sugar", c.Sugar}, {"mix", c.Mix}, {"nitrate", c.MixNitrate}} {
		if v.p != nil {
			add("%s %g%%", v.name, float64(*v.p))
		}
	}
	if c.Nitrite != nil {
		add("nitrite %g", float64(*c.Nitrite))
	}
	if c.Ascorbate != nil {
		add("ascorbate %g", float64(*c.Ascorbate))
	}
	if c.RindOn != nil {
		add("rind %t", *c.RindOn)
	}
	if c.Method != "" {
		add("method %s", c.Method)
	}
	if c.Days != nil {
		add("%d days", *c.Days)
	}
	if c.From != nil {
		add("from %s", c.From.Format("02 15:04"))
	}
	if c.Fridge != nil {
		add("fridge %.3gC", float64(*c.Fridge))
	}
	if c.Bare != nil {
		add("bare %g", *c.Bare)
	}
	return strings.Join(out, " ")
}

// 1 lb = 453.59237 g, 1 oz = 1/16 lb and 1 in = 25.4 mm: NIST Handbook 44,
// appendix C.
func TestCure(t *testing.T) {
	rows := []struct{ in, want string }{
		{"5 lb", "[2268.0g]"},
		{"2.27kg", "[2270.0g]"},
		{"5lbs belly 1.5 in thick", "[2268.0g 38.1mm]"},
		{"cure 4.5 lb belly", "[2041.2g]"},
		{"i have a 5 lb belly, about 1.5 in thick", "[2268.0g 38.1mm]"},
		{"4½ lb pork belly 38 mm", "[2041.2g 38.0mm]"},
		{`5 lb 1½"`, "[2268.0g 38.1mm]"},
		{"5 lb 4 cm thick", "[2268.0g 40.0mm]"},
		{"thickness 4 cm, weight 5 lb", "[2268.0g 40.0mm]"},
		{"5 lb salt 2.25% sugar 1.5% nitrite 150 ppm", "[2268.0g] salt 2.25% sugar 1.5% nitrite 150"},
		{"5 lb 2.25% salt 1.5% sugar 150ppm", "[2268.0g] salt 2.25% sugar 1.5% nitrite 150"},
		{"5 lb salt: 2.5%, sugar: 1%, nitrite: 120 ppm", "[2268.0g] salt 2.5% sugar 1% nitrite 120"},
		{"5 lb salt = 2.5 sugar = 1", "[2268.0g] salt 2.5% sugar 1%"},
		{"5 lb salt 2.5", "[2268.0g] salt 2.5%"},
		{"5 lb 2.5% sea salt and 1% brown sugar", "[2268.0g] salt 2.5% sugar 1%"},
		{"5 lb no sugar", "[2268.0g] sugar 0%"},
		{"5 lb target 120", "[2268.0g] nitrite 120"},
		{"5 lb aim for 120 ppm", "[2268.0g] nitrite 120"},
		{"5 lb nitrite target 120 ppm", "[2268.0g] nitrite 120"},
		{"5 lb 150 ppm, ascorbate 500 ppm", "[2268.0g] nitrite 150 ascorbate 500"},
		{"5 lb nitrite 150 ppm ascorbate 0.05%", "[2268.0g] nitrite 150 ascorbate 500"},
		{"5 lb 500 ppm sodium erythorbate", "[2268.0g] ascorbate 500"},
		{"5 lb mix 0.6%", "[2268.0g] mix 0.6%"},
		{"5 lb mix cure #1", "[2268.0g] mix 6.25%"}, // a number is a name, not 1 %
		{"5 lb mix #1", "[2268.0g] mix 6.25%"},
		{"5 lb with pink salt #1 1.5 in juniper", "[2268.0g 38.1mm juniper] mix 6.25%"},
		{"5 lb prague powder no. 1", "[2268.0g] mix 6.25%"},
		{"5 lb #1 cure", "[2268.0g] mix 6.25%"},
		{"5 lb cure number 1, 120 ppm", "[2268.0g] mix 6.25% nitrite 120"},
		{"mix #1", "mix 6.25%"},
		{"5 lb 6.25% mix", "[2268.0g] mix 6.25%"},
		{"5 lb curing salt 6.25%", "[2268.0g] mix 6.25%"},
		{"5 lb mix 6.25% nitrite", "[2268.0g] mix 6.25%"},
		{"5 lb mix nitrite 6.25% salt 2%", "[2268.0g] salt 2% mix 6.25%"},
		{"5 lb mix 6.25% nitrite 120 ppm", "[2268.0g] mix 6.25% nitrite 120"},
		{"5 lb mix 6.25% + 4% nitrate", "[2268.0g] mix 6.25% nitrate 4%"},
		{"5 lb mix of 6.25% nitrite and 4% nitrate", "[2268.0g] mix 6.25% nitrate 4%"},
		{"6 lb juniper, 3.2 kg coffee chilli", "[2721.6g juniper] [3200.0g coffee chilli]"},
		{"6 lb juniper and 3.2 kg coffee chilli", "[2721.6g juniper] [3200.0g coffee chilli]"},
		{"6 lb juniper; 3.2 kg coffee", "[2721.6g juniper] [3200.0g coffee]"},
		{"6 lb juniper\n3.2 kg coffee", "[2721.6g juniper] [3200.0g coffee]"},
		{"- 6 lb juniper\n- 3.2 kg coffee", "[2721.6g juniper] [3200.0g coffee]"},
		{"• 6 lb juniper\n• 3.2 kg coffee", "[2721.6g juniper] [3200.0g coffee]"},
		{"6 lb juniper 3.2 kg coffee", "[2721.6g juniper] [3200.0g coffee]"},
		{"6 lb Black Pepper and Honey and 3.2 kg coffee & chilli", "[2721.6g Black Pepper and Honey] [3200.0g coffee & chilli]"},
		{"6 lb black pepper, honey, 3.2 kg coffee", "[2721.6g black pepper, honey] [3200.0g coffee]"},
		{"6 lb in juniper and black pepper", "[2721.6g juniper and black pepper]"},
		{"6 lb with a touch of honey", "[2721.6g touch of honey]"},
		{"6 lb 2 oz salt and pepper", "[2778.3g salt and pepper]"},
		{"6 lb juniper, 3 kg salt & pepper", "[2721.6g juniper] [3000.0g salt & pepper]"},
		{"6 lb belly with curing mix", "[2721.6g]"},
		{"6 lb equilibrium cure", "[2721.6g]"},
		{"6 lb salt and pepper", "[2721.6g salt and pepper]"},
		{"6 lb brown sugar", "[2721.6g brown sugar]"},
		{"6 lb spice mix", "[2721.6g spice mix]"},
		{"6 lb five spice, 3 kg 5 spice", "[2721.6g five spice] [3000.0g 5 spice]"},
		{"6 lb “jalapeño” 🌶", "[2721.6g jalapeño 🌶]"},
		{"6 lb 1.5 in juniper, 3 kg 4 cm coffee", "[2721.6g 38.1mm juniper] [3000.0g 40.0mm coffee]"},
		{"1.5 in 6 lb juniper, 4 cm 3 kg coffee", "[2721.6g 38.1mm juniper] [3000.0g 40.0mm coffee]"},
		{"6 lb juniper, 3 kg coffee, 4 cm thick", "[2721.6g 40.0mm juniper] [3000.0g 40.0mm coffee]"},
		{"6 lb 5 cm juniper, 3 kg coffee, 4 cm thick", "[2721.6g 50.0mm juniper] [3000.0g 40.0mm coffee]"},
		{"6 lb juniper rind on, 3 kg coffee skin off", "[2721.6g juniper rind true] [3000.0g coffee rind false]"},
		{"6 lb juniper, 3 kg coffee, rind on", "[2721.6g juniper] [3000.0g coffee] rind true"},
		{"5 lb rind on", "[2268.0g] rind true"},
		{"5 lb skin-on belly", "[2268.0g] rind true"},
		{"5 lb skinless", "[2268.0g] rind false"},
		{"5 lb without the rind", "[2268.0g] rind false"},
		{"5 lb rind removed", "[2268.0g] rind false"},
		{"2 x 5 lb juniper", "[2268.0g juniper] [2268.0g juniper]"},
		{"2×5 lb", "[2268.0g] [2268.0g]"},
		{"two slabs 5 lb each, coffee", "[2268.0g coffee] [2268.0g coffee]"},
		{"2 pieces: 6 lb juniper, 3 kg coffee", "[2721.6g juniper] [3000.0g coffee]"},
		{"5 lb (2.27 kg) juniper", "[2268.0g juniper]"},
		{"5 lb from yesterday 18:00", "[2268.0g] from 02 18:00"},
		{"5 lb juniper from 2h ago, 9 days", "[2268.0g juniper] 9 days from 03 10:00"},
		{"5 lb from monday 18:00 in juniper", "[2268.0g juniper] from 01 18:00"},
		{"5 lb from yesterday 6 lb coffee", "[2268.0g] [2721.6g coffee] from 02 12:00"},
		{"5 lb since 08:00 salt 2%", "[2268.0g] salt 2% from 03 08:00"},
		{"5 lb 9 days", "[2268.0g] 9 days"},
		{"5 lb for a week", "[2268.0g] 7 days"},
		{"5 lb days 9", "[2268.0g] 9 days"},
		{"5 lb 10-day cure", "[2268.0g] 10 days"},
		{"5 lb fridge 3 C", "[2268.0g] fridge 3C"},
		{"5 lb fridge at 38F", "[2268.0g] fridge 3.33C"},
		{"5 lb at 3 °C in the fridge", "[2268.0g] fridge 3C"},
		{"5 lb dry cure", "[2268.0g] method dry"},
		{"5 lb dry brine", "[2268.0g] method dry"},
		{"5 lb wet cure", "[2268.0g] method brine"},
		{"5 lb brine", "[2268.0g] method brine"},
		{"5 lb pumped with brine", "[2268.0g] method pump"},
		{"5 lb salt box", "[2268.0g] method box"},
		{"5 lb dry mustard", "[2268.0g dry mustard]"},
		{"5 lb just salt and pepper", "[2268.0g salt and pepper]"},
		{"5 lb celery seed", "[2268.0g celery seed]"},
		{"5 lb no chilli", "[2268.0g no chilli]"},
		{"salt 2.25% sugar 1.5%", "salt 2.25% sugar 1.5%"},
		{"38 mm", "38.0mm"},
		{"mix 0.6%", "mix 0.6%"},
		{"9 days", "9 days"},
		{"5", "bare 5"},
		{"cure 5", "bare 5"},
		{"4½", "bare 4.5"},
		{"5.", "bare 5"},
		{"5 lb belly 1.5 in thick. Salt 2%!", "[2268.0g 38.1mm] salt 2%"},
		{"5 lb juniper\x00\x07\u202eberries", "[2268.0g juniper berries]"},
	}
	for _, r := range rows {
		got, err := Cure(r.in, noon())
		if s := draw(got); err != nil || s != r.want {
			t.Errorf("Cure(%q)\n got %s, %v\nwant %s", r.in, s, err, r.want)
		}
	}
}

func TestCureProblems(t *testing.T) {
	checkProblems(t, []problemRow{
		{"", Empty, ""},
		{"hello", UnknownWord, "hello"},
		{"belly", NotAWeight, "belly"},
		{"5 belly", NoUnit, "5"},
		{"5 juniper", NoUnit, "5"},
		{"-5", Negative, "-5"},
		{"-5 lb belly", Negative, "-5 lb"},
		{"--5 lb", Negative, "--5 lb"},
		{"0", Zero, "0"},
		{"0 lb juniper", Zero, "0 lb"},
		{"5 tons", TooBig, "5 tons"},
		{"NaN lb", NotANumber, "NaN lb"},
		{"1e400 lb", NotANumber, "1e400 lb"},
		{"1e400", NotANumber, "1e400"},
		{"5 lb 20 oz", OuncesTooMany, "5 lb 20 oz"},
		{"2,268 kg", Ambiguous, "2,268 kg"},
		{"2,268", Ambiguous, "2,268"},
		{"2 268 g", Ambiguous, "2 268 g"},
		{"5 stone", UnknownUnit, "5 stone"},
		{"5 lbb", UnknownUnit, "5 lbb"},
		{"5-6 lb", Ambiguous, "5-6 lb"},
		{"5 lb 7-10 days", Ambiguous, "7-10 days"},
		{"5 lb 3 kg", Ambiguous, "5 lb 3 kg"},
		{"4 lb, 8 oz", Ambiguous, "4 lb, 8 oz"},
		{"3 slabs 5 lb", Ambiguous, "3 slabs"},
		{"3 slabs: 5 lb, 6 lb", Ambiguous, "3 slabs"},
		{"5 lb each", Ambiguous, "5 lb"},
		{"27 x 5 lb", TooMany, "5 lb"},
		{"juniper 6 lb", UnknownWord, "juniper"},
		{"6 lb 5", NoUnit, "5"},
		{"5 lb 1.5%", Ambiguous, "1.5%"},
		{"5 lb nitrite", NoUnit, "nitrite"},
		{"5 lb nitrite 0.25%", Ambiguous, "nitrite 0.25%"},
		{"5 lb 150 ppm ascorbate 500 ppm", Ambiguous, "150 ppm ascorbate 500 ppm"},
		{"5 lb nitrate 4%", NoUnit, "nitrate"},
		{"5 lb salt 120%", TooBig, "120%"},
		{"5 lb salt -2%", Negative, "-2%"},
		{"5 lb salt 2% salt 3%", SaidTwice, "3%"},
		{"5 lb dry cure, brine", SaidTwice, "brine"},
		{"5 lb 9 days 10 days", SaidTwice, "10 days"},
		{"5 lb 1 in 2 in", SaidTwice, "2 in"},
		{"5 lb rind on rind off", SaidTwice, "rind off"},
		{"5 lb rind", UnknownWord, "rind"},
		{"5 lb salt 30 g", NotAPercent, "salt 30 g"},
		{"5 lb, 30 g salt", NotAPercent, "30 g salt"},
		{"5 lb 12 g curing mix", NotAPercent, "12 g curing mix"},
		{"5 lb 0.25 oz mix", NotAPercent, "5 lb 0.25 oz mix"},
		{"5 lb 2 oz salt", NotAPercent, "5 lb 2 oz salt"},
		{"5 lb mix", NotAPercent, "5 lb mix"},
		{"6 lb juniper, 3 kg sugar", NotAPercent, "3 kg sugar"},
		{"5 lb 1 tsp mix", NotAWeight, "1 tsp"},
		{"5 fl oz", NotAWeight, "5 fl oz"},
		{"5 lb 36h", NotADuration, "36h"},
		{"5 lb 0 days", Zero, "0 days"},
		{"5 lb 400 days", TooBig, "400 days"},
		{"5 lb from soon", NotATime, "soon"},
		{"5 lb from tomorrow 8:00", InFuture, "tomorrow 8:00"},
		{"5 lb from 25:00", NotATime, "25:00"},
		{"5 lb fridge 38", NoUnit, "38"},
		{"5 lb fridge -300 C", ImpossibleTemperature, "-300 C"},
		{"5 lb 21 in", TooBig, "21 in"},
		{"5 lb no cure just salt 1 in", NoCure, "no cure"},
		{"5 lb mix cure #2", NoCure, "mix cure #2"},
		{"5 lb pink curing salt no. 2 1 in", NoCure, "pink curing salt no. 2"},
		{"5 lb prague powder #2", NoCure, "prague powder #2"},
		{"mix #2", NoCure, "mix #2"},
		{"5 lb without nitrites", NoCure, "without nitrites"},
		{"5 lb no pink salt 1 in", NoCure, "no pink salt"},
		{"5 lb without any curing mix", NoCure, "without any curing mix"},
		{"6 lb juniper, 3 kg uncured", NoCure, "uncured"},
		{"5 lb just salt", NoCure, "just salt"},
		{"5 lb salt only", NoCure, "salt only"},
		{"5 lb only sea salt", NoCure, "only sea salt"},
		{"5 lb celery powder instead of pink salt", NoCure, "celery powder"},
		{"5 lb Celery Juice", NoCure, "Celery Juice"},
		{"3 lb saltpeter 1 in", NoCure, "saltpeter"},
		{"3 lb saltpetre", NoCure, "saltpetre"},
		{"5 lb celery pork powder", NoCure, "celery powder"},
		{"3 lb with potassium nitrate", NoCure, "potassium nitrate"},
	}, func(s string) error { _, err := Cure(s, noon()); return err })
}

func TestCureUnderstood(t *testing.T) {
	for in, want := range map[string]string{
		"5 lb 1.5 in salt 2% from soon": "a weight of 5 lb, thickness 1.5 in, salt 2%",
		"5 lb 20 oz":                    "a weight of 5 lb",
		"juniper":                       "",
	} {
		_, err := Cure(in, noon())
		p, ok := err.(*Problem)
		if !ok || p.Understood != want {
			t.Errorf("Cure(%q): %v; understood should be %q", in, err, want)
		}
	}
}

func TestCureFlavouringIsTidy(t *testing.T) {
	c, err := Cure("5 lb "+strings.Repeat("juniper ", 40)+"\x1b\u202e", noon())
	if err != nil {
		t.Fatal(err)
	}
	f := c.Pieces[0].Flavouring
	if n := utf8.RuneCountInString(f); n > mostFlavour || !strings.HasSuffix(f, "…") {
		t.Errorf("flavouring of %d characters: %q", n, f)
	}
}

func TestLooksLikeCure(t *testing.T) {
	for _, in := range []string{"5 lb", "5", "a 5 lb belly", "½lb", "2.27kg", "two pounds", "-5 lb", "5 tons", "NaN lb", "1e400 lb", "5 lb 20 oz",
		"5 fl oz", "5 lbb", "5-6 lb", "1.5 in 5 lb", "2 x 5 lb", "two slabs 5 lb each", "cure 5 lb", "5 belly", "2,268 kg"} {
		if !LooksLikeCure(in) {
			t.Errorf("%q does not look like a cure", in)
		}
	}
	for _, in := range []string{"", "flip 3", "3 pit 148", "151/124", "pit 148", "3 rinse", "salt 2%", "note 3 lost 2 lb", "1.5 in", "2h", "14:30", "65 C", "juniper 6 lb", "why 3"} {
		if LooksLikeCure(in) {
			t.Errorf("%q looks like a cure", in)
		}
	}
}

// sane holds whatever Cure returns to what its types promise.
func sane(t tester, in string, c CureLine, now time.Time) {
	t.Helper()
	if len(c.Pieces) > MostPieces {
		t.Fatalf("%q: %d pieces", in, len(c.Pieces))
	}
	for _, p := range c.Pieces {
		clean := utf8.ValidString(p.Flavouring) && utf8.RuneCountInString(p.Flavouring) <= mostFlavour && !strings.ContainsFunc(p.Flavouring, unicode.IsControl)
		if !(p.Weight > 0 && p.Weight <= Heaviest) || !(p.Thickness >= 0 && p.Thickness <= Thickest) || !clean {
			t.Fatalf("%q: piece %+v", in, p)
		}
	}
	for _, v := range []*curemath.Percent{c.Salt, c.Sugar, c.Mix, c.MixNitrate} {
		if v != nil && !(*v >= 0 && *v <= 100) {
			t.Fatalf("%q: share %v", in, *v)
		}
	}
	for _, v := range []*curemath.PPM{c.Nitrite, c.Ascorbate} {
		if v != nil && !(*v >= 0 && *v <= 1e6) {
			t.Fatalf("%q: %v ppm", in, *v)
		}
	}
	switch {
	case c.Days != nil && (*c.Days < 1 || *c.Days > 365),
		c.From != nil && c.From.After(now),
		c.Bare != nil && !(*c.Bare > 0 && !math.IsInf(*c.Bare, 0)),
		c.Bare != nil && len(c.Pieces) > 0:
		t.Fatalf("%q: %+v", in, c)
	}
}

func FuzzCure(f *testing.F) {
	seeds(f, "5 lb salt 2.25% sugar 1.5% nitrite 150 ppm", "6 lb black pepper and honey, 3.2 kg coffee", "two slabs 5 lb each rind on",
		"5 lb mix 6.25% + 4% nitrate fridge 3 C", "2 x 5 lb from yesterday 18:00 9 days", "- 5 lb\n- 3 kg", "5 lb (2.27 kg) 5 spice", "5 lb 30 g salt",
		"5 lb celery belly powder", "5 lb no cure", "3 lb saltpetre", "5 lb just salt and pepper")
	read := func(s string) error { _, err := Cure(s, noon()); return err }
	f.Fuzz(func(t *testing.T, s string) {
		LooksLikeCure(s)
		c, err := Cure(s, noon())
		if err != nil {
			checkProblem(t, s, err, read)
			return
		}
		sane(t, s, c, noon())
		for _, piece := range c.Pieces {
			if p := RefusedFlavouring(piece.Flavouring); p != nil {
				t.Errorf("Cure(%q) takes %q for a flavouring", s, p.Said)
			}
		}
	})
}

func BenchmarkCure(b *testing.B) {
	now := noon()
	for b.Loop() {
		if _, err := Cure("6 lb 1.5 in juniper, 3.2 kg 4 cm black pepper and honey, salt 2.25% sugar 1.5% nitrite 150 ppm from yesterday 18:00", now); err != nil {
			b.Fatal(err)
		}
	}
}
