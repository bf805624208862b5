package curemath_test

import (
	"strings"
	"testing"

	"larderhand/curemath"
)

// Limits as published, and the status each has in the trade sheet this project
// was checked against.
func TestBaconLimits(t *testing.T) {
	dry, box := curemath.DryRub, curemath.DryBox
	wet, pump := curemath.Immersion, curemath.Injection
	for _, c := range []struct {
		set    string
		method curemath.Method
		rind   bool
		max    curemath.PPM
		status curemath.Status
		from   string
	}{
		{"us", dry, false, 200, curemath.SecondHand, "9 CFR 424.22(b)"},
		{"us", box, false, 200, curemath.SecondHand, "9 CFR 424.22(b)"},
		{"us", wet, false, 120, curemath.SecondHand, "9 CFR 424.22(b)"},
		{"us", pump, false, 120, curemath.SecondHand, "9 CFR 424.22(b)(1)"},
		// Calculations handbook ch. 3: rind-on bellies, 10 % off.
		{"us", dry, true, 180, curemath.SecondHand, "9 CFR 424.22(b)"},
		{"us", pump, true, 108, curemath.SecondHand, "9 CFR 424.22(b)(1)"},
		{"ca", dry, false, 120, curemath.SecondHand, "Health Canada"},
		{"ca", pump, false, 120, curemath.SecondHand, "Health Canada"},
		// 80 mg/kg as ion is 119.97 ppm (computed).
		{"eu", dry, false, 119.97, curemath.FromMemory, "2023/2108"},
		{"eu", wet, false, 119.97, curemath.FromMemory, "2023/2108"},
		{"codex", dry, false, 119.97, curemath.Found, "CXS 192"},
		{"uk", dry, false, 150, curemath.FromMemory, "1333/2008"},
		// The strictest takes the better-known of two equal limits.
		{"strictest", dry, false, 119.97, curemath.Found, "CXS 192"},
		{"strictest", pump, true, 107.973, curemath.Found, "CXS 192"},
	} {
		l := rules(t, c.set).BaconLimit(c.method, c.rind)
		near(t, c.set+" "+c.method.String(), l.Max, c.max, 1e-9)
		if l.Source.Status != c.status || !strings.Contains(l.Source.String(), c.from) {
			t.Errorf("%s %s: source %q", c.set, c.method, l.Source)
		}
		if l.Min <= 0 || l.Min >= l.Max || l.MinSource.Status == 0 {
			t.Errorf("%s %s: floor %v from %q", c.set, c.method, l.Min, l.MinSource)
		}
	}
}

func TestUnknownCountryGetsTheStrictest(t *testing.T) {
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	got, ok := r.ByID("Atlantis")
	if ok || !got.Unknown || got.Remark == "" {
		t.Fatalf("Atlantis: known %v, remark %q", ok, got.Remark)
	}
	for _, m := range curemath.Methods() {
		for _, s := range r.All() {
			if l := s.BaconLimit(m, false); got.BaconLimit(m, false).Max > l.Max {
				t.Errorf("%s: %s is stricter than the strictest", m, s.ID)
			}
		}
	}
	c, err := curemath.SolveDry(curemath.DryTargets{Green: 1000, Nitrite: got.Aim(curemath.DryRub), Salt: 2.5, Mix: curemath.StandardMix(), Rules: got})
	if err != nil {
		t.Fatal(err)
	}
	if !warned(c.Warnings, curemath.WarnRulesUnknown) {
		t.Error("nothing said about the unknown country")
	}
}

func TestCountryNames(t *testing.T) {
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	for name, id := range map[string]string{" USA ": "us", "Germany": "eu", "canada": "ca", "EU": "eu", "Great Britain": "uk", "strictest": "strictest"} {
		if s, ok := r.ByID(name); !ok || s.ID != id {
			t.Errorf("%q: %q, %v", name, s.ID, ok)
		}
	}
}

// Every row of the file says where it comes from and how well it is known.
func TestEveryLimitHasASource(t *testing.T) {
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for _, s := range r.All() {
		for _, l := range s.Limits() {
			rows++
			if l.Source.Status == 0 || l.Source.Document == "" || l.What == "" || l.Published <= 0 {
				t.Errorf("%s: %+v", s.ID, l)
			}
			for _, src := range []curemath.Source{l.Source, l.MinSource} {
				if src.Document == "" || src.Section == "" || src.Status == 0 {
					t.Errorf("%s %s: no document, section or status: %+v", s.ID, l.What, src)
				}
				if src.Date != curemath.NoEdition && !strings.ContainsAny(src.Date, "0123456789") {
					t.Errorf("%s %s: neither a date nor a word that there is none: %q", s.ID, l.What, src.Date)
				}
			}
			if l.AsIon == (l.Max == l.Published) {
				t.Errorf("%s %s: as ion %v, %v from %v", s.ID, l.What, l.AsIon, l.Max, l.Published)
			}
			if l.Until != "" && l.SetAside == "" {
				t.Errorf("%s %s: over since %s and still used", s.ID, l.What, l.Until)
			}
		}
	}
	if rows < 20 {
		t.Errorf("only %d rows", rows)
	}
}

// Other rows of the US table in ounces to 100 lb (9 CFR 424.21(c); ¼ oz found,
// 1 oz from memory): W6 and W7.
func TestOuncesToTheHundredweight(t *testing.T) {
	r := rules(t, "us")
	for _, c := range []struct {
		ounces  curemath.Grams
		product string
		ppm     curemath.PPM
	}{{0.25, "comminuted", 156.25}, {1, "other cut", 625}} {
		got := curemath.PPM(float64(c.ounces*curemath.Ounce) / float64(100*curemath.Pound) * 1e6)
		near(t, c.product, got, c.ppm, 1e-9)
		found := false
		for _, l := range r.Limits() {
			found = found || l.Product == c.product && l.Max <= c.ppm && l.Max > c.ppm-1
		}
		if !found {
			t.Errorf("no row for %s near %v", c.product, c.ppm)
		}
	}
}

// Factors computed from atomic weights; the two-digit forms are second-hand.
func TestIonFactors(t *testing.T) {
	near(t, "120 ppm as ion", curemath.PPM(120).AsNitriteIon(), 80.015, 5e-4)
	near(t, "150 ppm as ion", curemath.PPM(150).AsNitriteIon(), 100.0, 0.05)
	near(t, "120 as potassium nitrite", curemath.PPM(120).AsPotassiumNitrite(), 148.0, 0.05)
	near(t, "200 as potassium nitrite", curemath.PPM(200).AsPotassiumNitrite(), 246.7, 0.05)
	near(t, "sodium in salt", curemath.Sodium(100), 39.337, 5e-3)
	near(t, "there and back", curemath.FromNitriteIon(curemath.PPM(137).AsNitriteIon()), 137, 1e-9)
}

// A mix made with potassium nitrite is held to the document's own figure for
// it (148 from memory, 246 second-hand), where that is the lower.
func TestPotassiumLimit(t *testing.T) {
	k := curemath.Mix{Name: "potassium mix", Nitrite: 6.25, Potassium: true}
	l := rules(t, "us").BaconLimit(curemath.DryRub, false)
	near(t, "246 of the potassium salt", l.MaxFor(k).AsPotassiumNitrite(), 246, 1e-9)
	near(t, "sodium mix", l.MaxFor(curemath.StandardMix()), 200, 0)
	c, err := curemath.SolveDry(curemath.DryTargets{Green: 10000, Nitrite: 120, Salt: 2.5, Mix: k, Rules: rules(t, "us")})
	if err != nil {
		t.Fatal(err)
	}
	// 1.2 g of sodium nitrite is 1.480 g of potassium nitrite, 23.68 g of mix.
	near(t, "mix", c.Exact.Mix, 23.6826, 1e-3)
}
