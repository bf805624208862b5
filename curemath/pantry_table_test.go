package curemath

import (
	"testing"
)

// b3 is low, typical, high.
type b3 [3]float64

func bandIs[T ~float64](b Band[T], w b3) bool {
	return Band[T]{T(w[0]), T(w[1]), T(w[2])} == b
}

// figures are one row of the ingredient table: grams a teaspoon, a US cup and a
// piece, and percent of the mass.
type figures struct{ tsp, cup, each, salt, sugar, water, alcohol, acid, ascorbate b3 }

// Every figure of every row of the ingredient table. The source of what is
// published stands above its row; ends of a range without a word are from memory.
func TestEveryFigureOfTheIngredients(t *testing.T) {
	want := map[string]figures{
		// 6 g a teaspoon and the make-up: USDA data (second-hand); 1.20 to 1.30 g/mL
		// (second-hand) × 4.929 and × 236.6 mL; 292 g a cup from memory.
		"fine-salt": {tsp: b3{5.9, 6, 6.4}, cup: b3{284, 292, 308}, salt: b3{99.5, 99.8, 99.8}},
		// Fine, down to the dense coarse kind below; typical cup 48 × 6 (computed).
		"salt": {tsp: b3{4.7, 6, 6.4}, cup: b3{225, 288, 308}, salt: b3{99.5, 99.8, 99.8}},
		// From the least of the hollow-flake kind to the most of the dense one.
		"kosher-salt": {tsp: b3{2.8, 4.2, 5.6}, cup: b3{135, 202, 270}, salt: b3{99.5, 99.8, 99.8}},
		// 15 g a tablespoon (second-hand); 4.7 to 5.6 and 225 to 270 from 0.945 to 1.12 g/mL (computed).
		"dense-kosher-salt": {tsp: b3{4.7, 5, 5.6}, cup: b3{225, 240, 270}, salt: b3{99.5, 99.8, 99.8}},
		// 10 g a tablespoon, 0.625 to 0.75 g/mL (second-hand); 2.8 and 135 from memory.
		"flake-salt": {tsp: b3{2.8, 3.3, 3.7}, cup: b3{135, 160, 177}, salt: b3{99.5, 99.8, 99.8}},
		// 200 g a cup (second-hand).
		"white-sugar": {tsp: b3{4, 4.2, 4.4}, cup: b3{192, 200, 210}, sugar: b3{99.9, 99.9, 99.9}},
		// 220 g a cup citing USDA (second-hand); 95 to 97 sugar, 1 to 3 water from memory.
		"brown-sugar-packed": {tsp: b3{4.4, 4.6, 4.8}, cup: b3{210, 220, 230}, sugar: b3{95, 96, 97}, water: b3{1, 2, 3}},
		// 3 to 4.2 and 145 to 200 g, 91 sugar, 8 water: from memory.
		"maple-sugar": {tsp: b3{3, 3.6, 4.2}, cup: b3{145, 172, 200}, sugar: b3{91, 91, 91}, water: b3{8, 8, 8}},
		// Solids 66.0 to 68.9 %: USDA grade standard (found), 98 % of them sugar and 328 g a cup
		// (second-hand); 315 from memory; 312 from 1.32 g/mL (computed).
		"maple-syrup": {tsp: b3{6.5, 6.6, 6.8}, cup: b3{312, 315, 328}, sugar: b3{64.7, 65.7, 67.5}, water: b3{31.1, 33, 34}},
		// 7.1 and 339 to 340 g (second-hand); 82 sugar, 17 water from memory.
		"honey": {tsp: b3{6.9, 7.1, 7.2}, cup: b3{336, 340, 345}, sugar: b3{80, 82, 83}, water: b3{16, 17, 18.5}},
		// 312 g a cup (second-hand); 337, 75 sugar and 22 water from memory.
		"molasses": {tsp: b3{6.5, 6.8, 7}, cup: b3{312, 325, 337}, sugar: b3{70, 75, 78}, water: b3{20, 22, 26}},
		// 6.8 and 328 g (second-hand); 77 solids, 23 water from memory.
		"corn-syrup": {tsp: b3{6.7, 6.8, 7}, cup: b3{322, 328, 340}, sugar: b3{75, 77, 79}, water: b3{21, 23, 25}},
		// 0.948 g/mL at 20 °C, interpolated in a density table (found); 0.4 × 0.78924 ÷ 0.948 (computed).
		"spirit": {tsp: b3{4.65, 4.67, 4.72}, cup: b3{223, 224.3, 226}, water: b3{64, 66.7, 69}, alcohol: b3{31, 33.3, 36}},
		// 4.929 and 236.6 mL at 0.998 g/mL (computed).
		"water": {tsp: b3{4.9, 4.92, 4.93}, cup: b3{235, 236, 236.6}, water: b3{100, 100, 100}},
		// 5.2 and 248 g, 10 to 11 sugar, 88 water: from memory.
		"apple-juice": {tsp: b3{5.1, 5.2, 5.25}, cup: b3{245, 248, 250}, sugar: b3{10, 10.5, 11}, water: b3{87, 88, 89}},
		// 5.0 and 239 g, 5 acid, 94 water: from memory.
		"vinegar": {tsp: b3{4.9, 5, 5.05}, cup: b3{236, 239, 241}, water: b3{92, 94, 96}, acid: b3{4, 5, 7}},
		// 5.3 to 6 and 255 g, 14 to 16 salt, 70 water, down to the 8 salt of a low-sodium one: from memory.
		"soy-sauce": {tsp: b3{5.3, 5.5, 6}, cup: b3{253, 255, 285}, salt: b3{8, 15, 16}, sugar: b3{0, 1.5, 5}, water: b3{66, 70, 78}},
		// 2.3 and 110 g: from memory.
		"ground-pepper": {tsp: b3{2.1, 2.3, 2.6}, cup: b3{100, 110, 125}},
		// 2.0 to 2.4 g: common practice, no source.
		"cracked-pepper": {tsp: b3{2, 2.2, 2.4}},
		// 3.1, 2.3 and 2.0 g: from memory.
		"garlic-powder":  {tsp: b3{2.8, 3.1, 3.4}, cup: b3{135, 150, 165}},
		"paprika":        {tsp: b3{2.1, 2.3, 2.5}, cup: b3{100, 109, 120}},
		"mustard-powder": {tsp: b3{1.8, 2, 2.3}, cup: b3{86, 96, 110}},

		// All from memory.
		"rock-salt":        {tsp: b3{4, 5.5, 6.5}, cup: b3{190, 260, 310}, salt: b3{97, 99, 99.8}},
		"seasoned-salt":    {tsp: b3{4, 5, 6}, cup: b3{190, 240, 290}, salt: b3{60, 80, 99}},
		"brown-sugar":      {tsp: b3{3, 4.3, 4.8}, cup: b3{145, 205, 230}, sugar: b3{95, 96, 97}, water: b3{1, 2, 3}},
		"raw-sugar":        {tsp: b3{3.8, 4.2, 4.6}, cup: b3{180, 200, 220}, sugar: b3{98, 99, 99.5}, water: b3{0.2, 0.5, 1}},
		"powdered-sugar":   {tsp: b3{2.4, 2.6, 2.8}, cup: b3{113, 120, 130}, sugar: b3{96, 97, 98}},
		"dextrose":         {tsp: b3{3, 3.4, 4.2}, cup: b3{145, 165, 200}, sugar: b3{91, 95, 100}, water: b3{0, 5, 9}},
		"golden-syrup":     {tsp: b3{6.6, 6.9, 7.2}, cup: b3{315, 330, 345}, sugar: b3{68, 76, 82}, water: b3{17, 22, 26}},
		"wine":             {tsp: b3{4.85, 4.9, 5}, cup: b3{233, 235, 242}, sugar: b3{0.1, 1, 10}, water: b3{75, 87, 90}, alcohol: b3{9, 10, 15}},
		"beer":             {tsp: b3{4.95, 4.98, 5.05}, cup: b3{237, 239, 243}, sugar: b3{0.1, 1, 4}, water: b3{89, 92, 95}, alcohol: b3{3, 4, 6}},
		"fruit-juice":      {tsp: b3{5.1, 5.2, 5.3}, cup: b3{245, 249, 254}, sugar: b3{8, 10, 16}, water: b3{82, 88, 90}},
		"sour-juice":       {tsp: b3{5, 5.1, 5.2}, cup: b3{240, 244, 248}, sugar: b3{1.5, 2.5, 3}, water: b3{89, 91, 93}, acid: b3{4, 6, 8}},
		"soft-drink":       {tsp: b3{5, 5.1, 5.2}, cup: b3{240, 246, 250}, sugar: b3{7, 10.5, 12}, water: b3{88, 89.5, 93}},
		"coffee-brewed":    {tsp: b3{4.9, 4.93, 5}, cup: b3{236, 237, 240}, water: b3{97, 99, 99.5}},
		"stock":            {tsp: b3{4.9, 5, 5.1}, cup: b3{236, 240, 245}, salt: b3{0, 0.8, 1.5}, water: b3{95, 97, 99}},
		"balsamic":         {tsp: b3{5.2, 5.3, 5.6}, cup: b3{250, 255, 270}, sugar: b3{12, 15, 30}, water: b3{60, 77, 80}, acid: b3{5, 6, 7}},
		"fish-sauce":       {tsp: b3{5.7, 6, 6.2}, cup: b3{275, 288, 298}, salt: b3{18, 22, 26}, sugar: b3{0, 3, 5}, water: b3{65, 70, 75}},
		"worcester":        {tsp: b3{5.5, 5.7, 5.9}, cup: b3{265, 275, 283}, salt: b3{1.5, 2.5, 3.5}, sugar: b3{10, 15, 20}, water: b3{70, 77, 82}, acid: b3{2, 4, 6}},
		"hot-sauce":        {tsp: b3{4.9, 5.1, 6}, cup: b3{236, 245, 288}, salt: b3{2, 5, 8}, sugar: b3{0, 3, 18}, water: b3{65, 85, 90}, acid: b3{2, 4, 6}},
		"prepared-mustard": {tsp: b3{5, 5.2, 5.5}, cup: b3{240, 250, 265}, salt: b3{2, 3, 6}, sugar: b3{0.5, 2, 8}, water: b3{65, 80, 85}, acid: b3{2, 3, 4}},
		"miso":             {tsp: b3{5.5, 5.8, 6.2}, cup: b3{265, 275, 295}, salt: b3{5, 11, 13}, sugar: b3{2, 6, 15}, water: b3{42, 45, 55}},
		"liquid-smoke":     {tsp: b3{4.8, 4.95, 5.1}, cup: b3{232, 237, 245}, water: b3{90, 95, 99}},
		"vanilla":          {tsp: b3{4.2, 4.3, 4.6}, cup: b3{205, 208, 220}, sugar: b3{0, 5, 13}, water: b3{52, 65, 70}, alcohol: b3{28, 30, 35}},
		"oil":              {tsp: b3{4.4, 4.5, 4.6}, cup: b3{214, 218, 221}},
		"ascorbate":        {tsp: b3{3, 4, 5}, ascorbate: b3{100, 100, 100}},
		"vitamin-c":        {tsp: b3{3, 4, 5}, ascorbate: b3{100, 100, 100}},
		"phosphate":        {tsp: b3{3.5, 4.5, 5.5}},
		"baking-soda":      {tsp: b3{4.4, 4.6, 5}, cup: b3{215, 221, 240}},
		"msg":              {tsp: b3{3.8, 4.3, 5}, cup: b3{185, 205, 240}},
		"starter":          {tsp: b3{2.5, 3, 4}},
		"peppercorns":      {tsp: b3{2.3, 2.8, 3.3}, cup: b3{110, 130, 150}},
		"onion-powder":     {tsp: b3{2.2, 2.4, 2.8}, cup: b3{105, 115, 135}},
		"garlic-fresh":     {tsp: b3{2.5, 2.8, 5}, cup: b3{125, 136, 150}, each: b3{3, 4, 7}},
		"ground-spice":     {tsp: b3{1.6, 2.2, 3}, cup: b3{80, 105, 140}},
		"crushed-chilli":   {tsp: b3{1.3, 1.8, 2.3}, cup: b3{62, 85, 110}},
		"whole-spice":      {tsp: b3{1.4, 2, 3.4}, cup: b3{70, 100, 160}},
		"dried-herb":       {tsp: b3{0.5, 1, 1.4}, cup: b3{24, 45, 65}},
		"fresh-herb":       {tsp: b3{0.6, 1, 1.6}, cup: b3{20, 45, 65}, each: b3{0.5, 1, 2.5}},
		"bay":              {tsp: b3{0.5, 0.6, 0.8}, each: b3{0.1, 0.2, 0.6}},
		"star-anise":       {tsp: b3{1.5, 2, 2.8}, each: b3{0.8, 1.3, 2.5}},
		"cinnamon-stick":   {each: b3{2, 3.5, 6}},
		"coffee-ground":    {tsp: b3{1.2, 1.8, 2.5}, cup: b3{70, 88, 110}},
		"zest":             {tsp: b3{1.8, 2, 2.5}, cup: b3{85, 96, 110}, each: b3{3, 6, 12}},
		"onion":            {tsp: b3{3, 3.3, 3.6}, cup: b3{115, 160, 170}, each: b3{60, 110, 200}},
		"apple":            {tsp: b3{2.3, 2.6, 3}, cup: b3{110, 125, 140}, each: b3{130, 180, 240}, sugar: b3{9, 10.4, 13}, water: b3{83, 85.5, 88}},
		"rice-flour":       {tsp: b3{2.5, 2.7, 3.4}, cup: b3{120, 128, 165}},
	}
	p, err := LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	if len(p.rows) != len(want) {
		t.Errorf("%d rows, %d written out", len(p.rows), len(want))
	}
	for _, r := range p.rows {
		w, ok := want[r.ID]
		if !ok {
			t.Errorf("%s is not written out", r.ID)
			continue
		}
		m, u := r.measure, r.makeUp
		for _, c := range []struct {
			what string
			same bool
		}{
			{"teaspoon", bandIs(m.tsp, w.tsp)}, {"cup", bandIs(m.cup, w.cup)}, {"piece", bandIs(m.each, w.each)},
			{"salt", bandIs(u.salt, w.salt)}, {"sugar", bandIs(u.sugar, w.sugar)}, {"water", bandIs(u.water, w.water)},
			{"alcohol", bandIs(u.alcohol, w.alcohol)}, {"acid", bandIs(u.acid, w.acid)}, {"ascorbate", bandIs(u.ascorbate, w.ascorbate)},
		} {
			if !c.same {
				t.Errorf("%s: %s is not as written out: %+v, %+v, want %+v", r.ID, c.what, m, u, w)
			}
		}
	}
}

// What no row may be, whatever its figures: a slip of the pen shows here.
func TestIngredientsAreSane(t *testing.T) {
	p, err := LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range p.rows {
		m, u := r.measure, r.makeUp
		low, mid := 0.0, 0.0
		for _, b := range []Band[Percent]{u.salt, u.sugar, u.water, u.alcohol, u.acid, u.ascorbate} {
			if b.Low < 0 || b.Low > b.Typical || b.Typical > b.High || b.High > 100 {
				t.Errorf("%s: made up of %v", r.ID, b)
			}
			low, mid = low+float64(b.Low), mid+float64(b.Typical)
		}
		if low > 100+1e-9 || mid > 100+1e-9 {
			t.Errorf("%s: made up of %v %% at least, %v %% typically", r.ID, low, mid)
		}
		for _, b := range []Band[Grams]{m.tsp, m.cup, m.each} {
			if b != (Band[Grams]{}) && (b.Low <= 0 || b.Low > b.Typical || b.Typical > b.High) {
				t.Errorf("%s: weighs %v", r.ID, b)
			}
		}
		for _, d := range []Grams{m.tsp.Typical / Grams(Teaspoon), m.cup.Typical / Grams(Cup)} {
			if d != 0 && (d < 0.1 || d > 1.5) {
				t.Errorf("%s: %v g/mL", r.ID, d)
			}
		}
		// 48 teaspoons are a cup (exact).
		if k := m.cup.Typical / m.tsp.Typical; m.cup.High > 0 && m.tsp.High > 0 && (k < 40 || k > 60) {
			t.Errorf("%s: a cup is %v teaspoons", r.ID, k)
		}
	}
}

// A source names a document where there was one and none where there was none,
// and says its date or that it has none.
func TestIngredientSourcesAreHonest(t *testing.T) {
	p, err := LoadPantry()
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{
		"USDA food composition data": true, "USDA grade standard for maple syrup": true, "20 °C density table for ethanol and water": true,
		"water near 20 °C, 0.998 g/mL": true, "by definition": true,
		// Seen quoted, and nobody wrote down where.
		"document not recorded": true,
	}
	for _, r := range p.rows {
		for _, s := range []Source{r.WeightSource, r.MakeUpSource} {
			recalled := s.Status == FromMemory || s.Status == Practice
			if recalled != (s.Document == "") || !recalled && !named[s.Document] {
				t.Errorf("%s: %+v", r.ID, s)
			}
			if s.Date == "" {
				t.Errorf("%s: no date, nor a word that there is none: %+v", r.ID, s)
			}
		}
	}
	for _, bad := range []Source{
		{Document: "kitchen tables", Status: FromMemory}, {Status: SecondHand}, {Status: Found}, {Document: "a book"}, {Section: "p. 3", Status: Practice},
	} {
		if bad.honest() {
			t.Errorf("taken for honest: %+v", bad)
		}
	}
}
