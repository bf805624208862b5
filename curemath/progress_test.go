package curemath

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

const day = 24 * time.Hour

func fridge(t Celsius) []TempSpan { return []TempSpan{{Temp: t}} }

// leanSlab cures at the temperature the diffusivities stand for, so that the
// typical D is 2.5 × 10⁻¹⁰ m²/s, the low 1 and the high 4.
func leanSlab(inches float64, faces Faces, s Supply) Course {
	return Course{
		Slab:   Slab{Thickness: Inch * Millimetres(inches), Faces: faces},
		Supply: s,
		Temps:  fridge(diffusionReference),
	}
}

// Check case C15: 1.5 in., both faces, D 2.5e-10, 7 days (computed from Crank's
// series) and the same slab with the rind on.
func TestSevenDaysInAnInchAndAHalf(t *testing.T) {
	rows := []struct {
		name            string
		course          Course
		fourier, centre float64
	}{
		{"fixed dose", leanSlab(1.5, BothFaces, FixedDose()), 0.416641, 0.967253},
		{"constant surface", leanSlab(1.5, BothFaces, ConstantSurface()), 0.416641, 0.544584},
		{"rind on", leanSlab(1.5, OneFace, FixedDose()), 0.104160, math.NaN()},
	}
	for _, r := range rows {
		p, err := CureProgress(r.course, 7*day)
		if err != nil {
			t.Fatal(r.name, err)
		}
		sixPlaces(t, r.name+" Fourier number", p.Fourier, r.fourier)
		if !math.IsNaN(r.centre) {
			sixPlaces(t, r.name+" centre", float64(p.Centre.Typical)/100, r.centre)
		}
	}
	p, _ := CureProgress(leanSlab(1.5, BothFaces, ConstantSurface()), 7*day)
	sixPlaces(t, "constant surface mean", float64(p.Uptake.Typical)/100, 0.710039)
	profile, err := CureProfile(leanSlab(1.5, BothFaces, FixedDose()), 7*day, 3)
	if err != nil {
		t.Fatal(err)
	}
	sixPlaces(t, "fixed dose surface", float64(profile[0].Share.Typical)/100, 1.032748)
	sixPlaces(t, "fixed dose far surface", float64(profile[2].Share.Typical)/100, 1.032748)
}

// Days to centre 0.9 with both faces open at D = 1 / 2.5 / 4 × 10⁻¹⁰ (computed
// from Crank's series; printed to a tenth of a day, 120 to a day).
func TestDaysToNineTenths(t *testing.T) {
	rows := []struct {
		inches                    float64
		supply                    Supply
		longest, middle, quickest float64
	}{
		{1, FixedDose(), 5.7, 2.3, 1.4},
		{1.5, FixedDose(), 12.7, 5.1, 3.2},
		{2, FixedDose(), 22.7, 9.1, 5.7},
		{2.5, FixedDose(), 35.4, 14.2, 8.9},
		{1, ConstantSurface(), 19.2, 7.7, 4.8},
		{1.5, ConstantSurface(), 43.3, 17.3, 10.8},
		{2, ConstantSurface(), 77.0, 30.8, 19.2},
		{2.5, ConstantSurface(), 120, 48.1, 30.1},
	}
	for _, r := range rows {
		got, err := CureTimeTo(leanSlab(r.inches, BothFaces, r.supply), 90)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			name string
			got  time.Duration
			want float64
		}{{"longest", got.Longest, r.longest}, {"typical", got.Typical, r.middle}, {"quickest", got.Quickest, r.quickest}} {
			tolerance := 0.0501
			if c.want == 120 {
				tolerance = 0.5
			}
			if d := c.got.Hours() / 24; math.Abs(d-c.want) > tolerance {
				t.Errorf("%g in., supply %d, %s: %.2f days, want %.1f", r.inches, r.supply.kind, c.name, d, c.want)
			}
		}
	}
}

func TestRindOnTakesFourTimesAsLong(t *testing.T) {
	both, err := CureTimeTo(leanSlab(1.5, BothFaces, FixedDose()), 90)
	if err != nil {
		t.Fatal(err)
	}
	one, err := CureTimeTo(leanSlab(1.5, OneFace, FixedDose()), 90)
	if err != nil {
		t.Fatal(err)
	}
	if ratio := one.Typical.Hours() / both.Typical.Hours(); math.Abs(ratio-4) > 1e-3 {
		t.Errorf("one face takes %.4f times both faces, want 4", ratio)
	}
}

func TestProgressRemarksAndRefusals(t *testing.T) {
	course := func(f Fahrenheit, inches float64, fat Percent) Course {
		return Course{Slab: Slab{Thickness: Inch * Millimetres(inches), Fat: fat}, Temps: fridge(f.Celsius())}
	}
	rows := []struct {
		name    string
		course  Course
		remarks []ProgressRemark
		kind    ProgressErrorKind
	}{
		{"a good fridge", course(37, 1.5, 40), nil, 0},
		{"the edges of a good fridge", course(34, 1.5, 40), nil, 0},
		{"40 °F is still in", course(40, 1.5, 40), nil, 0},
		{"fat unknown", course(37, 1.5, 0), []ProgressRemark{RemarkLeanAssumed}, 0},
		{"33 °F", course(33, 1.5, 40), []ProgressRemark{RemarkColderThanAimed}, 0},
		{"frozen", course(20, 1.5, 40), []ProgressRemark{RemarkFrozen}, 0},
		{"45 °F", course(45, 1.5, 40), []ProgressRemark{RemarkWarmerThanFridge}, 0},
		{"3 in.", course(37, 3, 40), []ProgressRemark{RemarkThick}, 0},
		{"55 °F", course(55, 1.5, 40), nil, ProgressTooWarm},
		{"not a temperature", course(Fahrenheit(math.NaN()), 1.5, 40), nil, ProgressBadTemperature},
		{"endless heat", course(Fahrenheit(math.Inf(1)), 1.5, 40), nil, ProgressBadTemperature},
		{"no thickness", course(37, 0, 40), nil, ProgressBadThickness},
		{"thickness not a number", course(37, math.NaN(), 40), nil, ProgressBadThickness},
		{"more fat than slab", course(37, 1.5, 101), nil, ProgressBadFat},
		{"no temperature", Course{Slab: Slab{Thickness: 38}}, nil, ProgressNoTemperature},
	}
	for _, r := range rows {
		p, err := CureProgress(r.course, 5*day)
		var failed ProgressError
		if errors.As(err, &failed); failed.Kind != r.kind {
			t.Errorf("%s: error %v, want kind %d", r.name, err, r.kind)
		}
		if len(p.Remarks) != len(r.remarks) || (len(r.remarks) > 0 && p.Remarks[0] != r.remarks[0]) {
			t.Errorf("%s: remarks %v, want %v", r.name, p.Remarks, r.remarks)
		}
	}
	if _, err := CureProgress(course(37, 1.5, 40), -time.Hour); err == nil {
		t.Error("a time before the start was accepted")
	}
}

// No movement is credited to frozen days nor more than 40 °F's to warm ones.
func TestPiecewiseTemperatures(t *testing.T) {
	steady := leanSlab(1.5, BothFaces, FixedDose())
	split := steady
	split.Temps = []TempSpan{{For: 2 * day, Temp: diffusionReference}, {For: day, Temp: diffusionReference}, {Temp: diffusionReference}}
	a, _ := CureProgress(steady, 6*day)
	b, err := CureProgress(split, 6*day)
	if err != nil || math.Abs(a.Fourier-b.Fourier) > 1e-12 {
		t.Errorf("the same fridge told in three spans: %g, in one %g (%v)", b.Fourier, a.Fourier, err)
	}

	frozen := steady
	frozen.Temps = []TempSpan{{For: 2 * day, Temp: diffusionReference}, {For: 3 * day, Temp: -18}, {Temp: diffusionReference}}
	c, _ := CureProgress(frozen, 6*day)
	three, _ := CureProgress(steady, 3*day)
	if math.Abs(c.Fourier-three.Fourier) > 1e-12 {
		t.Errorf("three frozen days counted: %g, want %g", c.Fourier, three.Fourier)
	}

	at40, at48 := steady, steady
	at40.Temps, at48.Temps = fridge(Fahrenheit(40).Celsius()), fridge(Fahrenheit(48).Celsius())
	d, _ := CureProgress(at40, 6*day)
	e, _ := CureProgress(at48, 6*day)
	if d.Fourier != e.Fourier {
		t.Errorf("48 °F credited with %g, 40 °F with %g", e.Fourier, d.Fourier)
	}

	stays := steady
	stays.Temps = fridge(-18)
	var failed ProgressError
	if _, err := CureTimeTo(stays, 90); !errors.As(err, &failed) || failed.Kind != ProgressNever {
		t.Errorf("a frozen slab: %v, want never", err)
	}
}

func TestLimitedBrineSupply(t *testing.T) {
	// 2 kg lean meat holds 1.5 kg of water at 75 % (second-hand).
	s, err := LimitedBrine(1500, 2000, 0)
	if err != nil || math.Abs(s.Alpha()-1) > 1e-12 || s.Kind() != SupplyLimitedBrine {
		t.Errorf("alpha %g kind %d (%v), want 1", s.Alpha(), s.Kind(), err)
	}
	if s, _ := LimitedBrine(1, 2000, 0); s.Kind() != SupplyFixedDose {
		t.Error("a spoon of liquor is not a fixed dose")
	}
	if s, _ := LimitedBrine(1e6, 2000, 0); s.Kind() != SupplyConstantSurface {
		t.Error("a vat is not a constant surface")
	}
	for _, bad := range []Grams{0, -1, Grams(math.NaN()), Grams(math.Inf(1))} {
		if _, err := LimitedBrine(bad, 2000, 0); err == nil {
			t.Errorf("brine water of %g was accepted", float64(bad))
		}
	}
}

func TestProgressNeverFallsAndKeepsItsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCourse(t)
		early := time.Duration(rapid.Int64Range(0, int64(60*day)).Draw(t, "elapsed"))
		later := early + time.Duration(rapid.Int64Range(0, int64(60*day)).Draw(t, "more"))
		a, err := CureProgress(c, early)
		if err != nil {
			t.Fatal(err)
		}
		b, _ := CureProgress(c, later)
		if b.Centre.Low < a.Centre.Low-1e-9 || b.Centre.Typical < a.Centre.Typical-1e-9 || b.Centre.High < a.Centre.High-1e-9 {
			t.Fatalf("progress fell from %v to %v", a.Centre, b.Centre)
		}
		if a.Centre.Low > a.Centre.Typical+1e-9 || a.Centre.Typical > a.Centre.High+1e-9 || a.Centre.High > 100 || a.Centre.Low < 0 {
			t.Fatalf("range out of order: %v", a.Centre)
		}
		thicker := c
		thicker.Slab.Thickness *= 1.2
		if d, err := CureProgress(thicker, early); err == nil && d.Centre.Typical > a.Centre.Typical+1e-9 {
			t.Fatalf("a thicker slab is ahead: %v over %v", d.Centre, a.Centre)
		}
		fatter := c
		fatter.Slab.Fat = min(100, c.Slab.Fat+20)
		if d, err := CureProgress(fatter, early); err == nil && d.Centre.Typical > a.Centre.Typical+1e-9 {
			t.Fatalf("a fatter slab is ahead: %v over %v", d.Centre, a.Centre)
		}
	})
}

func drawCourse(t *rapid.T) Course {
	brine, err := LimitedBrine(Grams(rapid.Float64Range(10, 50000).Draw(t, "brine")), 2000, 0)
	if err != nil {
		t.Fatal(err)
	}
	return Course{
		Slab: Slab{
			Thickness: Millimetres(rapid.Float64Range(5, 150).Draw(t, "thickness")),
			Faces:     rapid.SampledFrom([]Faces{BothFaces, OneFace}).Draw(t, "faces"),
			Fat:       Percent(rapid.Float64Range(0, 100).Draw(t, "fat")),
		},
		Supply: rapid.SampledFrom([]Supply{FixedDose(), ConstantSurface(), brine}).Draw(t, "supply"),
		Temps: []TempSpan{
			{For: time.Duration(rapid.Int64Range(0, int64(9*day)).Draw(t, "first")), Temp: Celsius(rapid.Float64Range(-5, 9).Draw(t, "cold"))},
			{Temp: Celsius(rapid.Float64Range(1.2, 4.4).Draw(t, "fridge"))},
		},
	}
}

// What goes in as a fixed dose stays in: the mean of the profile is 1 at all
// times, and the curve holds the same centre as the single answer.
func TestProfileAndCurveAgree(t *testing.T) {
	c := leanSlab(1.5, BothFaces, FixedDose())
	profile, err := CureProfile(c, 3*day, 401)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i, p := range profile {
		w := 1.0
		if i == 0 || i == len(profile)-1 {
			w = 0.5
		}
		sum += w * float64(p.Share.Typical) / 100 / float64(len(profile)-1)
	}
	if math.Abs(sum-1) > 1e-4 {
		t.Errorf("the profile holds %.5f of the dose, want 1", sum)
	}
	curve, err := CureCurve(c, 14*day, 15)
	if err != nil {
		t.Fatal(err)
	}
	single, _ := CureProgress(c, 3*day)
	if curve[3].Elapsed != 3*day || curve[3].Centre != single.Centre {
		t.Errorf("curve on day 3: %v, alone %v", curve[3], single.Centre)
	}
	middle := profile[200]
	if math.Abs(float64(middle.Share.Typical-single.Centre.Typical)) > 1e-9 {
		t.Errorf("profile centre %v, progress %v", middle.Share, single.Centre)
	}
	rind, err := CureProfile(leanSlab(1.5, OneFace, FixedDose()), 3*day, 11)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < len(rind); i++ {
		if rind[i].Share.Typical > rind[i-1].Share.Typical {
			t.Errorf("with the rind on, depth %g is stronger than nearer the open face", float64(rind[i].Depth))
		}
	}
}

func BenchmarkCureProgress(b *testing.B) {
	c := leanSlab(1.5, BothFaces, FixedDose())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := CureProgress(c, 7*day); err != nil {
			b.Fatal(err)
		}
	}
}

// A point an hour for 14 days, in each shape.
func BenchmarkCureCurve14Days(b *testing.B) {
	brine, _ := LimitedBrine(1500, 2000, 0)
	for name, s := range map[string]Supply{"dose": FixedDose(), "brine": brine, "constant": ConstantSurface()} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			c := leanSlab(1.5, BothFaces, s)
			for b.Loop() {
				if _, err := CureCurve(c, 14*day, 14*24+1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The trail names every source and the same figures as the result.
func TestProgressTrail(t *testing.T) {
	c := leanSlab(1.5, BothFaces, FixedDose())
	c.Slab.Fat = 30
	p, err := CureProgress(c, 7*day)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Trail {
		if s.What == "" || s.Working == "" || s.Source.Status == 0 {
			t.Errorf("step without words, working or source: %+v", s)
		}
	}
	last := p.Trail[len(p.Trail)-1]
	if want := figure(float64(p.Centre.Typical), 1) + " % ("; !strings.HasPrefix(last.Working, want) {
		t.Errorf("last step %q, want it to begin with %q", last.Working, want)
	}
}
