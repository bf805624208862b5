package curemath_test

import (
	"slices"
	"testing"

	"larderhand/curemath"
)

// limitRow is one row of the limit tables as the documents have it, written out
// by hand, beside what of it is in use here.
type limitRow struct {
	product string
	wet     bool // the row is for immersion
	pumped  bool
	dry     bool
	// max is in what the document counts: sodium nitrite, or nitrite ion.
	max                curemath.PPM
	ion, residual      bool
	potassium, min     curemath.PPM
	ascorbate          curemath.PPM
	from, until        string
	aside              bool
	doc, section, date string
	status             curemath.Status
}

const (
	cfr        = "9 CFR"
	noEdition  = "edition not recorded"
	amendment  = "Regulation (EU) 2023/2108"
	amends     = "amending Annex II to Regulation (EC) No 1333/2008"
	annex      = "Annex II part E, category 08.3"
	listCanada = "Health Canada list of permitted preservatives"
)

// Every row of every limit table, figure by figure. The floor of 100 is the CFIA
// definition of curing, 100 to 200 ppm (second-hand, not checked against the
// text), where a row has none of its own.
func TestEveryRowOfTheLimits(t *testing.T) {
	second, memory, found := curemath.SecondHand, curemath.FromMemory, curemath.Found
	tables := map[string][]limitRow{
		"us": {
			// Dry-cured bacon 200, potassium 246: 9 CFR 424.22(b), FSIS text on bacon (second-hand).
			{product: "bacon", dry: true, max: 200, potassium: 246, min: 100, doc: cfr, section: "424.22(b)", date: noEdition, status: second},
			// Immersion-cured bacon 120: FSIS consumer text, 9 CFR 424.22(b) (second-hand); 148 from memory, agrees with 120 × 1.23347.
			{product: "bacon", wet: true, max: 120, potassium: 148, min: 100, doc: cfr, section: "424.22(b) and FSIS consumer text on bacon", date: noEdition, status: second},
			// Pumped bacon 120 with 550 of ascorbate: 9 CFR 424.22(b)(1) (second-hand); 148 from memory.
			{product: "bacon", pumped: true, max: 120, potassium: 148, min: 100, ascorbate: 550, doc: cfr, section: "424.22(b)(1)", date: noEdition, status: second},
			// The alternatives: 100 (K 123) with a quality programme; 40 to 80 (K 49 to 99) with sugar and a culture: 9 CFR 424.22(b) (from memory).
			{product: "bacon", pumped: true, max: 100, potassium: 123, min: 100, ascorbate: 550, aside: true, doc: cfr, section: "424.22(b)", date: noEdition, status: memory},
			{product: "bacon", pumped: true, max: 80, potassium: 99, min: 40, ascorbate: 550, aside: true, doc: cfr, section: "424.22(b)", date: noEdition, status: memory},
			// Other pumped or immersed cuts 200: 9 CFR 424.21(c), handbook ch. 3 (second-hand).
			{product: "other cut", wet: true, pumped: true, max: 200, min: 100, doc: cfr, section: "424.21(c) and calculations handbook ch. 3", date: noEdition, status: second},
			// Other dry-cured cuts 625, 1 oz to 100 lb: the same (625 second-hand, 1 oz from memory).
			{product: "other cut", dry: true, max: 625, min: 100, doc: cfr, section: "424.21(c) 1 oz to 100 lb", date: noEdition, status: second},
			// Comminuted 156, a quarter ounce to 100 lb: the same (found).
			{product: "comminuted", max: 156, min: 100, doc: cfr, section: "424.21(c) 1/4 oz to 100 lb", date: noEdition, status: found},
		},
		"eu": {
			// 80 as ion from 9 October 2025: Regulation (EU) 2023/2108 (date second-hand, figure from memory).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 80, ion: true, min: 100, from: "2025-10-09", doc: amendment, section: amends, date: "applies from 9 October 2025", status: memory},
			// 105 as ion for dry-cured and Wiltshire bacon: the same (from memory, low confidence).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 105, ion: true, min: 100, from: "2025-10-09", aside: true, doc: amendment, section: amends, date: "applies from 9 October 2025", status: memory},
			// 150 added, to 8 October 2025: Regulation (EC) 1333/2008, Annex II part E, 08.3 (found).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 150, min: 100, until: "2025-10-08", aside: true, doc: "Regulation (EC) No 1333/2008", section: annex, date: "to 8 October 2025", status: found},
		},
		"ca": {
			// Bacon 120, no dry-cure exception, and cured meat 200: list of permitted preservatives (second-hand).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 120, min: 100, doc: listCanada, section: "part 1", date: noEdition, status: second},
			{product: "other cut", dry: true, wet: true, pumped: true, max: 200, min: 100, doc: listCanada, section: "part 1", date: noEdition, status: second},
		},
		"codex": {
			// 80 residual, as ion: CXS 192 tables, categories 08.2.2 and 08.3, notes 32 and 286 to 288 (found).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 80, ion: true, residual: true, min: 100, doc: "CXS 192 (GSFA)", section: "categories 08.2.2 and 08.3, notes 32 and 286 to 288", date: noEdition, status: found},
		},
		"uk": {
			// 150, the retained old figure of Regulation 1333/2008 (from memory).
			{product: "bacon", dry: true, wet: true, pumped: true, max: 150, min: 100, doc: "Regulation (EC) No 1333/2008 as retained in Great Britain", section: annex, date: "after 2020", status: memory},
		},
	}
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	all := 0
	for _, s := range r.All() {
		if s.ID == curemath.StrictestRules {
			if n := len(s.Limits()); n != all {
				t.Errorf("strictest of %d rows, there are %d", n, all)
			}
			continue
		}
		want, known := tables[s.ID]
		got := s.Limits()
		all += len(got)
		if !known || len(got) != len(want) {
			t.Errorf("%s: %d rows, %d written out", s.ID, len(got), len(want))
			continue
		}
		for i, w := range want {
			l := got[i]
			row := limitRow{
				product: l.Product, max: l.Published, ion: l.AsIon, residual: l.Residual, potassium: l.Potassium, min: l.Min, ascorbate: l.Ascorbate,
				from: l.From, until: l.Until, aside: l.SetAside != "", doc: l.Source.Document, section: l.Source.Section, date: l.Source.Date, status: l.Source.Status,
			}
			// Rubbed dry once or in several goes is one thing to the documents.
			row.dry = slices.Contains(l.Methods, curemath.DryRub) && slices.Contains(l.Methods, curemath.DryBox)
			row.wet, row.pumped = slices.Contains(l.Methods, curemath.Immersion), slices.Contains(l.Methods, curemath.Injection)
			if row != w {
				t.Errorf("%s, row %d:\n got %+v\nwant %+v", s.ID, i+1, row, w)
			}
			floor := curemath.Source{Document: "CFIA definition of curing", Section: "100 to 200 ppm", Date: noEdition, Status: second}
			if w.min == 40 {
				floor = l.Source
			}
			if l.MinSource.String() != floor.String() || l.MinSource.Date != floor.Date {
				t.Errorf("%s, row %d: floor from %q", s.ID, i+1, l.MinSource)
			}
			// In use here: milligrams of sodium nitrite, 1 ÷ 0.66679 of the ion
			// (computed from atomic weights), cut to 0.01.
			most := l.Published
			if w.ion {
				most = map[curemath.PPM]curemath.PPM{80: 119.97, 105: 157.47}[w.max]
			}
			near(t, s.ID+" "+l.What, l.Max, most, 1e-9)
		}
	}
}

// What policy asks of cured goods kept in the fridge: 120 ppm (calculations
// handbook, ch. 3, p. 12: second-hand), in the US only. The rind takes a tenth
// (same chapter). 550 is the most ascorbate anybody may aim at.
func TestFloorRindAndAscorbate(t *testing.T) {
	for _, id := range []string{"us", "eu", "ca", "codex", "uk", "strictest"} {
		s := rules(t, id)
		want := curemath.PPM(0)
		if id == "us" {
			want = 120
			if src := s.PolicyFloorSource; src.Document != "FSIS Directive 7620.3, calculations handbook" || src.Section != "ch. 3, p. 12" || src.Date != "rev. 1995" || src.Status != curemath.SecondHand {
				t.Errorf("policy floor from %+v", src)
			}
		}
		near(t, id+" policy floor", s.PolicyFloor, want, 0)
		factor, src := s.RindFactor()
		near(t, id+" rind", factor, 0.9, 0)
		if src.Document != "FSIS Directive 7620.3, calculations handbook" || src.Section != "ch. 3" || src.Date != "rev. 1995" || src.Status != curemath.SecondHand {
			t.Errorf("rind from %+v", src)
		}
	}
	near(t, "most ascorbate", curemath.MaxAscorbate, 550, 0)
}

// No sum here knows what day it is, so of rows that hold on different days the
// strictest must be the one in use: before 9 October 2025 as well as after.
func TestDatedRowsTheStricterCounts(t *testing.T) {
	for _, id := range []string{"us", "eu", "ca", "codex", "uk"} {
		s := rules(t, id)
		for _, day := range []string{"2025-10-08", "2025-10-09", "2027-03-01"} {
			for _, m := range curemath.Methods() {
				used, inForce := s.BaconLimit(m, false), 0
				for _, l := range s.Limits() {
					if l.Product != "bacon" || !slices.Contains(l.Methods, m) || (l.From != "" && day < l.From) || (l.Until != "" && day > l.Until) {
						continue
					}
					inForce++
					if (l.From != "" || l.Until != "") && used.Max > l.Max {
						t.Errorf("%s on %s: dated row %v is stricter than %v", id, day, l.Max, used.Max)
					}
				}
				if inForce == 0 {
					t.Errorf("%s on %s: no row in force", id, day)
				}
			}
		}
	}
}
