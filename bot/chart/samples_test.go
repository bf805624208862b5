package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
	_ "time/tzdata"

	"larderhand/curemath"
)

// Made-up days of the Quarry Lane Smokehouse Club; none was measured.

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func berlin(t testing.TB, hour, minute int) time.Time {
	return time.Date(2025, 3, 14, hour, minute, 0, 0, zone(t, "Europe/Berlin"))
}

// warming gives readings each step from start for a while: a piece that warms
// towards the pit, with a stall in the middle.
func warming(start time.Time, length, step time.Duration, pace float64) []Reading {
	var out []Reading
	for at := time.Duration(0); at <= length; at += step {
		h := at.Hours()
		if h > 9 {
			h = 9 + max(0, h-11.5)
		}
		out = append(out, Reading{start.Add(at), curemath.Celsius(68 - 63*math.Exp(-h*pace))})
	}
	return out
}

func pit(start time.Time, length, step time.Duration, around, swing float64) []Reading {
	rng := rand.New(rand.NewPCG(7, 7))
	var out []Reading
	for at := time.Duration(0); at <= length; at += step {
		v := around + swing*math.Sin(at.Hours()*2.1) + rng.NormFloat64()*swing/4
		out = append(out, Reading{start.Add(at), curemath.Celsius(v)})
	}
	return out
}

// goodDay is a night smoke of two pieces, three hours from done.
func goodDay(t testing.TB) SmokeData {
	start := berlin(t, 16, 10)
	const length = 13 * time.Hour
	at := func(h float64) time.Time { return start.Add(time.Duration(h * float64(time.Hour))) }
	return SmokeData{
		Batch: 3, Flavour: "juniper", Target: 65.6, Ceiling: 73.9, Share: 80,
		Pit: pit(start, length, 40*time.Minute, 68, 3),
		Pieces: []SmokePiece{
			{Ref: "a", Name: "thick end, rind off", Core: warming(start, length, 50*time.Minute, 0.17), Finish: Finish{at(15.2), at(16.9), at(20)}},
			{Ref: "b", Name: "thin end", Core: warming(start, length, 50*time.Minute, 0.235), Finish: Finish{at(13.4), at(14), at(15.2)}},
		},
		Events: []Event{
			{Kind: WoodAdded, At: at(0.1)}, {Kind: WoodAdded, At: at(3.3)}, {Kind: WoodAdded, At: at(8)},
			{Kind: Stalled, At: at(9), Until: at(11.5)},
			{Kind: Wrapped, At: at(11.4)},
		},
	}
}

// hardDay is in Fahrenheit: the fire went out and then the pit ran away.
func hardDay(t testing.TB) SmokeData {
	start := time.Date(2025, 3, 8, 7, 0, 0, 0, zone(t, "America/Chicago"))
	at := func(h float64) time.Time { return start.Add(time.Duration(h * float64(time.Hour))) }
	p := pit(start, 10*time.Hour, 30*time.Minute, 66, 3)
	for i := range p {
		switch h := p[i].At.Sub(start).Hours(); {
		case h > 4 && h < 6:
			p[i].Temp = curemath.Celsius(66 - 16*(h-4))
		case h >= 6 && h < 8:
			p[i].Temp = curemath.Celsius(38 + 24*(h-6))
		case h >= 8:
			p[i].Temp = curemath.Celsius(86 - 8*(h-8))
		}
	}
	return SmokeData{
		Batch: 12, Flavour: "coffee and chilli", Target: 65.6, Ceiling: 73.9,
		Pit:    p,
		Pieces: []SmokePiece{{Ref: "a", Core: warming(start, 10*time.Hour, time.Hour, 0.15)}},
		Events: []Event{{Kind: FireOut, At: at(5.6)}, {Kind: WoodAdded, At: at(6)}, {Kind: TooHot, At: at(7.5)}, {Kind: Noted, At: at(8.2), Note: "vent closed by half"}},
	}
}

// fullPit is 26 pieces, all named, finishing hours apart.
func fullPit(t testing.TB) SmokeData {
	start := berlin(t, 5, 0)
	d := SmokeData{Batch: 41, Flavour: "black pepper and honey", Target: 65.6, Ceiling: 73.9, Pit: pit(start, 9*time.Hour, 10*time.Minute, 68, 3)}
	for i := range 26 {
		done := start.Add(10*time.Hour + time.Duration(i)*15*time.Minute)
		d.Pieces = append(d.Pieces, SmokePiece{
			Ref: letterOf(i), Name: fmt.Sprintf("belly of rack %d", i/4+1),
			Core:   warming(start, 9*time.Hour, 30*time.Minute, 0.31-0.008*float64(i)),
			Finish: Finish{done.Add(-time.Hour), done, done.Add(2 * time.Hour)},
		})
	}
	for i := range 14 {
		d.Events = append(d.Events, Event{Kind: WoodAdded, At: start.Add(time.Duration(i) * 40 * time.Minute)})
	}
	return d
}

// diffused is salt across a slab on a day, the whole dose laid on the open faces:
// a plane sheet with a fixed dose, J. Crank, The Mathematics of Diffusion; from
// memory. It only feeds pictures here.
func diffused(mm float64, rind bool, day int) []float64 {
	const points, diffusion = 81, 2.5e-10
	out := make([]float64, points)
	way := mm / 2000
	if rind {
		way = mm / 1000
	}
	fo := diffusion * float64(day) * 86400 / way / way
	for i := range out {
		z := mm / 1000 * float64(i) / (points - 1)
		if !rind && z > way {
			z = 2*way - z
		}
		v := 1.0
		for n := 1; n < 200; n++ {
			v += 2 * math.Cos(float64(n)*math.Pi*z/way) * math.Exp(-float64(n*n)*math.Pi*math.Pi*fo)
		}
		out[i] = v
	}
	return out
}

func slabOf(mm float64, rind bool, today int, days ...int) ProgressData {
	d := ProgressData{Batch: 3, Flavour: "juniper", Piece: "a", Thickness: curemath.Millimetres(mm), RindOn: rind, Today: today}
	for _, day := range append([]int{today}, days...) {
		d.Profiles = append(d.Profiles, Profile{Day: day, Share: diffused(mm, rind, day)})
	}
	mid := d.Profiles[0].Share[40]
	if rind {
		mid = d.Profiles[0].Share[80]
	}
	d.Slowest = Slowest{Low: mid * 0.45, Typical: mid, High: min(1, mid*1.3)}
	return d
}

// running is five batches in different stages, one of them late.
func running(t testing.TB) CalendarData {
	now := berlin(t, 14, 10)
	day := func(d float64) time.Time { return now.Add(time.Duration(d * 24 * float64(time.Hour))) }
	return CalendarData{Now: now, Rows: []CalendarRow{
		{Batch: 3, Flavour: "juniper", Next: Due{"flip", day(0.8)}, Spans: []Span{{Curing, day(-3), day(5)}, {Drying, day(5), day(6)}, {Smoking, day(6), day(7)}, {Cooling, day(7), day(7.6)}}},
		{Batch: 4, Flavour: "black pepper and honey", Next: Due{"core check", day(-0.1)}, Spans: []Span{{Curing, day(-10), day(-2)}, {Drying, day(-2), day(-1)}, {Smoking, day(-1), day(0.4)}, {Cooling, day(0.4), day(1)}}},
		{Batch: 5, Flavour: "coffee and chilli", Next: Due{"fry a slice", day(2)}, Spans: []Span{{Curing, day(-6), day(2)}, {Drying, day(2), day(3)}, {Smoking, day(3), day(4)}}},
		{Batch: 6, Next: Due{"use by", day(11)}, Spans: []Span{{Curing, day(-20), day(-12)}, {Drying, day(-12), day(-11)}, {Smoking, day(-11), day(-10)}, {Cooling, day(-10), day(-9.5)}, {Packed, day(-9.5), day(11)}}},
		{Batch: 7, Flavour: "juniper, thin", Next: Due{"cure check", day(9)}, Spans: []Span{{Curing, day(-0.1), day(9)}}},
	}}
}

func finished(t testing.TB) SummaryData {
	smoke := goodDay(t)
	for i := range smoke.Pieces {
		smoke.Pieces[i].Finish = Finish{}
	}
	return SummaryData{
		Batch: 3, Flavour: "juniper", Under: "Ines · 5 Mar – 16 Mar 2025 · 2 pieces",
		Tiles: []Fact{{"days in cure", "9", Unjudged}, {"ppm nitrite, ingoing", "118", Met}, {"yield of green weight", "88 %", Unjudged}, {"cost a kilogram", "11.40", Unjudged}},
		Sections: []Section{
			{"What went in", []Fact{{"Belly", "2 353 g green, rind off, 38 mm", Unjudged}, {"Curing mix", "4.5 g of 6.25 %", Unjudged}, {"Salt", "42 g (2.0 % with the mix)", Unjudged}, {"Seasoning", "brown sugar 24 g, juniper berries 9 g, cracked black pepper 7 g, mustard powder 3 g", Unjudged}}},
			{"Smoke", []Fact{{"Wood", "beech, 13 h 10", Unjudged}, {"Pit", "64–72 °C, ceiling 74 °C", Met}, {"Core", "A 65.8 °C, B 66.1 °C", Unjudged}}},
			{"Heat and chill", []Fact{{"Heat", "held long enough by the published table, from the readings; an estimate, cook before eating", Doubtful}, {"Cooling", "54→27 °C in 3 h 20 of 5 h; 27→7 °C in 8 h of 10 h", Met}}},
		},
		Notes:   []string{"Tobias: a little salty at the thin end, juniper just there.", "Marit: best batch of the winter!"},
		Caution: "Cured, smoked; cook before eating. In the fridge until 23 Mar 2025, or frozen.",
		Curve:   smoke,
	}
}
