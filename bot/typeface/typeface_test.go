package typeface

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func load(t testing.TB) Faces {
	t.Helper()
	f, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestClean(t *testing.T) {
	f := load(t)
	for _, c := range []struct{ name, in, want string }{
		{"plain", "black pepper", "black pepper"},
		{"accents", "Žitný špek", "Žitný špek"},
		{"decomposed accents", "cafe\u0301", "café"},
		{"line breaks and tabs", "a\r\n\tb", "a b"},
		{"spaces at the ends", "  a  b ", "a b"},
		{"emoji dropped", "honey 🐖🔥 belly", "honey belly"},
		{"only emoji", "🐖🔥", ""},
		{"letters without a glyph", "蜂蜜と胡椒のベーコン", "□□□"},
		{"letters without a glyph among others", "Ines 蜂蜜 belly", "Ines □□ belly"},
		{"direction override taken out", "a\u202Eb\u2066c", "abc"},
		{"invalid bytes", "a\xff\xfeb", "a□b"},
		{"stacked accents", "a" + strings.Repeat("\u0323\u0301", 40), "ạ́\u0323"},
		{"accent without a letter", "\u0301 a", "a"},
		{"family emoji with joiners", "👨‍👩‍👧 club", "club"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := f.Clean(c.in, unicode.MaxRune)
			if c.name == "stacked accents" {
				if n := utf8.RuneCountInString(got); n > 4 {
					t.Errorf("%d runes left of a stack: %q", n, got)
				}
				return
			}
			if got != c.want {
				t.Errorf("Clean(%q) = %q, want %q", c.in, got, c.want)
			}
		})
	}
	if got := f.Clean("ok \U0001F600", 0xFFFF); got != "ok" {
		t.Errorf("a rune over the limit was kept: %q", got)
	}
	if got := f.Clean("ok \U0001F600", unicode.MaxRune); got != "ok \U0001F600" {
		t.Errorf("the typeface holds this face, got %q", got)
	}
}

// Published examples: Unicode Standard Annex 9, rule L2 ("car means CAR", with
// capitals for right-to-left letters), here in Hebrew letters; from memory.
// Joined forms: The Unicode Standard, chapter 9, "Arabic", cursive joining; from
// memory, code points from the block's own compatibility data.
func TestVisual(t *testing.T) {
	f := load(t)
	for _, c := range []struct{ name, in, want string }{
		{"left to right", "car means 5 lb", "car means 5 lb"},
		{"word in a line", "car means אבג.", "car means גבא."},
		{"figures inside", "אבג 12 דהו", "והד 12 גבא"},
		{"figures inside a line", "see אבג 12 דהו", "see והד 12 גבא"},
		{"figures before a full stop", "see אבג 12.", "see 12 גבא."},
		{"figures before a unit", "see אבג 12 kg", "see 12 גבא kg"},
		{"brackets mirrored", "אב(ג)", "(ג)בא"},
		{"point stays on its letter", "אבִג", "גבִא"},
		{"fenced name before figures", f.Name("אבג", unicode.MaxRune) + " 62 °C", "גבא 62 °C"},
		{"fenced plain name", f.Name("Marit", unicode.MaxRune) + " 62", "Marit 62"},
		{"latin inside right to left", "אבג bacon דהו", "והד bacon גבא"},
		{"joined with lam and alef", "سلام", "\uFEE1\uFEFC\uFEB3"},
		{"letter that joins backwards only", "دب", "\uFE8F\uFEA9"},
		{"joined in the middle", "ببب", "\uFE90\uFE92\uFE91"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Visual(c.in); got != c.want {
				t.Errorf("Visual(%q) = %+q, want %+q", c.in, got, c.want)
			}
		})
	}
}

func TestEveryDrawnJoinHasAGlyph(t *testing.T) {
	f := load(t)
	for base, forms := range joins() {
		for _, r := range base {
			if !f.Has(r) {
				forms = nil // Clean has taken such a letter out before it could be joined
			}
		}
		for _, r := range forms {
			if !f.Has(r) {
				t.Errorf("no glyph for %U, a form of %q", r, base)
			}
		}
	}
}

func count(s string) float64 { return float64(utf8.RuneCountInString(s)) }

func TestFitAndWrap(t *testing.T) {
	if got := Fit("black pepper and honey", 12, count); got != "black peppe…" {
		t.Errorf("got %q", got)
	}
	if got := Fit("short", 12, count); got != "short" {
		t.Errorf("got %q", got)
	}
	if got := Fit("short", 0, count); got != "" {
		t.Errorf("got %q", got)
	}
	if got := strings.Join(Wrap("aaaa\u05b4", 4, count), "|"); got != "aaa|a\u05b4" {
		t.Errorf("a letter without its mark: %q", got)
	}
	got := strings.Join(Wrap("coffee and chilli on a verylongwordindeed belly", 10, count), "|")
	if want := "coffee and|chilli on|a|verylongwo|rdindeed|belly"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestTextProperties(t *testing.T) {
	f := load(t)
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(rapid.String(), rapid.StringOfN(rapid.SampledFrom([]rune("ab אבגִ(12)سلامب\u2068\u2069\u202e🐖蜂 .-/")), 0, 60, -1)).Draw(t, "s")
		checkText(t, f, s)
		width := rapid.Float64Range(-1, 40).Draw(t, "width")
		if got := Fit(s, width, count); got != "" && count(Visual(got)) > width {
			t.Fatalf("Fit(%q, %g) = %q is too wide", s, width, got)
		}
		c := f.Clean(s, unicode.MaxRune)
		lines := Wrap(c, width, count)
		if a, b := strings.ReplaceAll(c, " ", ""), strings.ReplaceAll(strings.Join(lines, ""), " ", ""); a != b {
			t.Fatalf("Wrap lost letters: %q became %q", a, b)
		}
		for _, l := range lines {
			if width >= 4 && count(Visual(l)) > width {
				t.Fatalf("line %q wider than %g", l, width)
			}
		}
	})
}

type fataler interface{ Fatalf(string, ...any) }

// checkText holds what must be true of any text: it can be drawn, cleaning again
// changes nothing, ordering keeps every letter.
func checkText(t fataler, f Faces, s string) {
	c := f.Clean(s, unicode.MaxRune)
	if again := f.Clean(c, unicode.MaxRune); again != c {
		t.Fatalf("Clean(%q) = %q, and again %q", s, c, again)
	}
	for _, r := range Visual(f.Name(s, unicode.MaxRune)) {
		if !f.Has(r) {
			t.Fatalf("no glyph for %U in the drawing of %q", r, s)
		}
	}
	if v := Visual(c); utf8.RuneCountInString(v) > utf8.RuneCountInString(c) {
		t.Fatalf("Visual(%q) = %q grew", c, v)
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"juniper", "אבג (12)", "سلام", "a\u0301\u0301\u0301", "\xff", "🐖", "\u2068a", "ا\u200dب"} {
		f.Add(s)
	}
	faces := load(f)
	f.Fuzz(func(t *testing.T, s string) { checkText(t, faces, s) })
}
