package label

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"pgregory.net/rapid"

	"larderhand/bot/typeface"
	"larderhand/curemath"
)

var keep = flag.String("keep", "", "folder to write PDFs into, to look at")

// sample is made up, like all labels of the Quarry Lane Smokehouse Club.
func sample() Label {
	day := func(m time.Month, d int) time.Time { return time.Date(2025, m, d, 0, 0, 0, 0, time.UTC) }
	return Label{
		Product: "Juniper bacon",
		Ingredients: []Ingredient{
			{"juniper berries", 9}, {"salt", 42}, {"pork belly", 2353}, {"brown sugar", 24},
			{"cracked black pepper", 7}, {"curing salt (salt, sodium nitrite)", 4.5}, {"mustard powder", 3}, {"soy sauce", 12},
		},
		Allergens: []string{"mustard", "soy"},
		Packed:    day(3, 16), UseByFridge: day(3, 23), UseByFreezer: day(4, 16),
		Batch: 3, Piece: "a", Net: 412.7, From: "Ines, Quarry Lane Smokehouse Club",
	}
}

func TestText(t *testing.T) {
	want := strings.TrimSpace(`
Juniper bacon
Cured, smoked; cook before eating
Ingredients: pork belly, salt, brown sugar, SOY sauce, juniper berries, cracked black pepper, curing salt (salt, sodium nitrite), MUSTARD powder
Contains: mustard, soy
Net 412 g (14.5 oz)
Packed 16 Mar 2025
Use by, fridge 23 Mar 2025
Use by, freezer 16 Apr 2025
Batch 3, piece A
Packed by Ines, Quarry Lane Smokehouse Club
Keep refrigerated (4 °C / 40 °F or colder) or frozen`)
	if got := Text(sample()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	l := sample()
	l.Statement = "Cured, smoked, cooked"
	if got := Text(l); !strings.Contains(got, "\nCured, smoked, cooked\n") || strings.Contains(got, "cook before") {
		t.Errorf("the caller's statement was not used:\n%s", got)
	}
}

// Exact factors: NIST Handbook 44, appendix C (1 lb = 453.59237 g). The values are
// divided out and rounded down by hand.
func TestNetWeight(t *testing.T) {
	for _, c := range []struct {
		g    curemath.Grams
		want string
	}{
		{412.7, "412 g (14.5 oz)"},
		{28.349523125, "28 g (1.0 oz)"},
		{453.59237, "453 g (1 lb 0.0 oz)"},
		{453.59, "453 g (15.9 oz)"},
		{83 * curemath.Ounce, "2353 g (5 lb 3.0 oz)"},
		{1000, "1000 g (2 lb 3.2 oz)"},
	} {
		if got := NetWeight(c.g); got != c.want {
			t.Errorf("NetWeight(%g) = %s, want %s", float64(c.g), got, c.want)
		}
	}
}

func TestAllergensStandOut(t *testing.T) {
	for _, c := range []struct{ name, allergens, want string }{
		{"mustard powder", "mustard", "[MUSTARD] powder"},
		{"soy sauce (wheat, Soybeans)", "soy,wheat,soybean", "[SOY] sauce ([WHEAT], [SOYBEANS])"},
		{"nutmeg", "nut", "nutmeg"},
		{"mixed nuts", "nut", "mixed [NUTS]"},
		{"tree nut and nut oil", "nut,tree nut", "[TREE NUT] and [NUT] oil"},
		{"Sesame", "sesame", "[SESAME]"},
		{"mustardseed", "mustard", "mustardseed"},
		{"salt", "", "salt"},
		{"crème", "crème", "[CRÈME]"},
	} {
		var got strings.Builder
		for _, s := range spans(c.name, strings.Split(c.allergens, ",")) {
			if s.strong {
				s.text = "[" + s.text + "]"
			}
			got.WriteString(s.text)
		}
		if got.String() != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got.String(), c.want)
		}
	}
}

func TestIncomplete(t *testing.T) {
	_, err := PDF(Label{})
	var lacks *Incomplete
	if !errors.As(err, &lacks) || len(lacks.Missing) != 4 {
		t.Errorf("got %v", err)
	}
	for name, spoil := range map[string]func(*Label){
		"use-by before packed": func(l *Label) { l.UseByFridge = l.Packed.AddDate(0, 0, -1) },
		"no weight":            func(l *Label) { l.Net = curemath.Grams(math.NaN()) },
		"absurd weight":        func(l *Label) { l.Net = curemath.Grams(math.Inf(1)) },
		"blank ingredients":    func(l *Label) { l.Ingredients = []Ingredient{{" \n", 5}} },
		"no letters for it":    func(l *Label) { l.Ingredients = append(l.Ingredients, Ingredient{"蜂蜜", 5}) },
		"no letters for one":   func(l *Label) { l.Allergens = append(l.Allergens, "胡麻") },
		"blank product":        func(l *Label) { l.Product = "\t" },
	} {
		l := sample()
		spoil(&l)
		if _, err := PDF(l); !errors.As(err, &lacks) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if _, err := Sheet(nil, A4); err == nil {
		t.Error("an empty sheet was made")
	}
	endless := sample()
	for i := range 400 {
		endless.Ingredients = append(endless.Ingredients, Ingredient{fmt.Sprintf("spice number %d of a long list", i), 1})
	}
	if _, err := PDF(endless); err == nil {
		t.Error("a label longer than a sheet was printed")
	}
	if _, err := Sheet([]Label{endless}, A4); err == nil {
		t.Error("a label longer than its sheet was printed")
	}
	if _, err := Sheet([]Label{sample()}, Paper(9)); err == nil {
		t.Error("an unknown paper was used")
	}
}

func TestSortedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SliceOf(rapid.Custom(func(t *rapid.T) Ingredient {
			return Ingredient{
				Name:   rapid.OneOf(rapid.SampledFrom([]string{"salt", "Salt", "pork belly", "honey", "", " "}), rapid.String()).Draw(t, "name"),
				Weight: curemath.Grams(rapid.OneOf(rapid.Float64Range(0, 5000), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), -3, 0})).Draw(t, "weight")),
			}
		})).Draw(t, "in")
		kept := slices.Clone(in)
		out := Sorted(in)
		if fmt.Sprint(kept) != fmt.Sprint(in) {
			t.Fatal("the caller's list was changed")
		}
		for i := 1; i < len(out); i++ {
			if !(out[i-1].Weight >= out[i].Weight) {
				t.Fatalf("%v before %v", out[i-1], out[i])
			}
		}
		sum := map[string]curemath.Grams{}
		for _, i := range in {
			if n := strings.ToLower(plain(i.Name)); n != "" {
				w := i.Weight
				if !(w > 0) || math.IsInf(float64(w), 0) {
					w = 0
				}
				sum[n] += w
			}
		}
		if len(sum) != len(out) {
			t.Fatalf("%d names became %d ingredients", len(sum), len(out))
		}
		for _, o := range out {
			if want := sum[strings.ToLower(o.Name)]; math.Abs(float64(o.Weight-want)) > 1e-6 {
				t.Fatalf("%s weighs %v, want %v", o.Name, o.Weight, want)
			}
		}
	})
}

func FuzzSpans(f *testing.F) {
	for _, s := range []string{"soy sauce", "nutmeg and nuts", "ŉ ß ı", "\xff mustard", ""} {
		f.Add(s, "nut")
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, name, allergen string) {
		name = plain(name)
		joined := ""
		for _, s := range spans(name, []string{allergen}) {
			joined += s.text
			if s.text == "" {
				t.Fatalf("an empty stretch in %q", name)
			}
		}
		if !strings.EqualFold(joined, name) {
			t.Fatalf("%q became %q", name, joined)
		}
		if a := plain(allergen); a != "" && name == a {
			if s := spans(name, []string{a}); !s[0].strong {
				t.Fatalf("%q does not stand out on its own", a)
			}
		}
	})
}

// laid is a label laid out with the real letters' widths.
func laid(t interface{ Fatal(...any) }, l Label) layout {
	w, err := newWriter([]Label{l}, fpdf.SizeType{Wd: labelWidth, Ht: labelHeight})
	if err != nil {
		t.Fatal(err)
	}
	return w.layouts[0]
}

func oddLabel(t *rapid.T) Label {
	text := rapid.OneOf(rapid.SampledFrom([]string{
		"juniper berries", "קפה וצ'ילי 12", "فلفل أسود", "🐖🔥", "蜂蜜", strings.Repeat("w", 300), strings.Repeat("honey ", 60), "a\u202Eb", "\xff", "crème\u0301",
	}), rapid.String())
	l := sample()
	l.Product = "x" + text.Draw(t, "product")
	l.Statement = text.Draw(t, "statement")
	l.From = text.Draw(t, "from")
	l.Piece = text.Draw(t, "piece")
	l.Keep = text.Draw(t, "keep")
	l.Batch = rapid.Int().Draw(t, "batch")
	printable := rapid.OneOf(rapid.SampledFrom([]string{"juniper berries", "קפה וצ'ילי 12", "فلفل أسود", strings.Repeat("w", 300), strings.Repeat("honey ", 60), "honey 🐖", "crème\u0301"}), rapid.StringMatching(`[A-Za-zäöüß(),.'\- ]{1,40}`), text)
	l.Allergens = rapid.SliceOfN(printable, 0, 3).Draw(t, "allergens")
	for _, n := range rapid.SliceOfN(printable, 0, 8).Draw(t, "ingredients") {
		l.Ingredients = append(l.Ingredients, Ingredient{n, curemath.Grams(rapid.Float64Range(-1, 100).Draw(t, "weight"))})
	}
	l.Net = curemath.Grams(rapid.Float64Range(1, 9000).Draw(t, "net"))
	return l
}

// Whatever stands on a label, all of it is on the paper: nothing runs over an
// edge, no two lines run into each other, and no ingredient is lost.
func TestOddLabelsKeepInside(t *testing.T) {
	faces, err := typeface.Load()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		l := oddLabel(t)
		w, err := newWriter([]Label{l}, fpdf.SizeType{Wd: labelWidth, Ht: labelHeight})
		if lacking := unprintable(l, faces); len(lacking) > 0 {
			var lacks *Incomplete
			if !errors.As(err, &lacks) {
				t.Fatalf("%v went unnoticed: %v", lacking, err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		out := w.layouts[0]
		var all strings.Builder
		for _, s := range out.sets {
			if end := s.x + w.width(s.size, s.strong, s.text); s.x < padding-0.01 || end > labelWidth-padding+0.05 {
				t.Fatalf("%q runs from %.1f to %.1f mm", s.text, s.x, end)
			}
			if s.y-s.size*pointMM < 0 || s.y > out.height-1 {
				t.Fatalf("%q stands at %.1f of %.1f mm", s.text, s.y, out.height)
			}
			if s.size < smallestSize {
				t.Fatalf("%q is %.1f points small", s.text, s.size)
			}
			all.WriteString(s.text)
		}
		squeeze := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, " ", "")) }
		for _, i := range Sorted(l.Ingredients) {
			if name := faces.Clean(i.Name, highestRune); !strings.Contains(squeeze(all.String()), squeeze(typeface.Visual(name))) {
				t.Fatalf("%q is not on the label", name)
			}
		}
		if Text(l) == "" {
			t.Fatal("no text")
		}
	})
}

func TestPDF(t *testing.T) {
	long := sample()
	long.Product = "Coffee and chilli belly bacon with black pepper, cold smoked over beech"
	for i := range 30 {
		long.Ingredients = append(long.Ingredients, Ingredient{fmt.Sprintf("spice number %d of a long list", i), curemath.Grams(i) / 10})
	}
	odd := sample()
	odd.Product = "בייקון קפה 12 🐖"
	odd.Ingredients = append(odd.Ingredients, Ingredient{"فلفل أسود وعسل", 8}, Ingredient{"honey 🐝", 7})
	var ten []Label
	for i := range 10 {
		l := sample()
		l.Piece = string(rune('a' + i))
		ten = append(ten, l)
	}
	ten[5] = long
	for _, c := range []struct {
		name string
		make func() ([]byte, error)
	}{
		{"one", func() ([]byte, error) { return PDF(sample()) }},
		{"long", func() ([]byte, error) { return PDF(long) }},
		{"odd", func() ([]byte, error) { return PDF(odd) }},
		{"a4", func() ([]byte, error) { return Sheet(ten, A4) }},
		{"letter", func() ([]byte, error) { return Sheet(ten, Letter) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			raw, err := c.make()
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.HasPrefix(raw, []byte("%PDF-")) || !bytes.Contains(raw, []byte("%%EOF")) {
				t.Error("not a PDF")
			}
			if len(raw) > 200_000 {
				t.Errorf("%d bytes", len(raw))
			}
			for range 3 {
				if again, err := c.make(); err != nil || !bytes.Equal(raw, again) {
					t.Fatalf("the same label gave other bytes (%v)", err)
				}
			}
			if *keep != "" {
				if err := os.WriteFile(filepath.Join(*keep, c.name+".pdf"), raw, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
	if h := laid(t, sample()).height; h != labelHeight {
		t.Errorf("an ordinary label is %.1f mm high", h)
	}
	if h := laid(t, long).height; h <= labelHeight {
		t.Errorf("a long label did not grow: %.1f mm", h)
	}
}

func BenchmarkPDF(b *testing.B) {
	size := 0
	for b.Loop() {
		raw, err := PDF(sample())
		if err != nil {
			b.Fatal(err)
		}
		size = len(raw)
	}
	b.ReportMetric(float64(size), "bytes/label")
}
