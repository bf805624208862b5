package parse

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestBatch(t *testing.T) {
	rows := []struct {
		in   string
		want BatchRef
		rest string
	}{
		{"3", BatchRef{3, ""}, ""},
		{"#3", BatchRef{3, ""}, ""},
		{"# 3", BatchRef{3, ""}, ""},
		{"batch 3", BatchRef{3, ""}, ""},
		{"Batch #12 flip", BatchRef{12, ""}, "flip"},
		{"3a", BatchRef{3, "a"}, ""},
		{"3A", BatchRef{3, "a"}, ""},
		{"3 a", BatchRef{3, "a"}, ""},
		{"3-a", BatchRef{3, "a"}, ""},
		{"3/b", BatchRef{3, "b"}, ""},
		{"#3h", BatchRef{3, "h"}, ""},
		{"3c 121", BatchRef{3, "c"}, "121"},
		{"3 b too salty", BatchRef{3, "b"}, "too salty"},
		{"3 a bit salty", BatchRef{3, ""}, "a bit salty"},
		{"3 I like it", BatchRef{3, ""}, "I like it"},
		{"3a bit salty", BatchRef{3, "a"}, "bit salty"},
		{"3 a core 121", BatchRef{3, "a"}, "core 121"},
		{"3: Turned it", BatchRef{3, ""}, "Turned it"},
		{"3, 2h", BatchRef{3, ""}, "2h"},
		{"3 2h", BatchRef{3, ""}, "2h"},
		{"3 pit 148 core 121", BatchRef{3, ""}, "pit 148 core 121"},
		{"3 151/124", BatchRef{3, ""}, "151/124"},
		{"3 in the cellar", BatchRef{3, ""}, "in the cellar"},
		{"  3   Fine  fat ", BatchRef{3, ""}, "Fine  fat"},
		{"３ａ", BatchRef{3, "a"}, ""},
		{"99999", BatchRef{99999, ""}, ""},
	}
	for _, r := range rows {
		ref, rest, ok, err := Batch(r.in)
		if err != nil || !ok || ref != r.want || rest != r.rest {
			t.Errorf("Batch(%q) = %+v, %q, %v, %v; want %+v, %q", r.in, ref, rest, ok, err, r.want, r.rest)
		}
	}
	for _, in := range []string{"", "flip", "5 lb", "5lb salt", "2h", "45 min", "30s", "151/124", "14:30 pit 148", "2027-03-01", "pit 148", "2.5 %", "1.5 in", "5#"} {
		if ref, rest, ok, err := Batch(in); ok || err != nil || rest != strings.TrimSpace(in) {
			t.Errorf("Batch(%q) = %+v, %q, %v, %v; want no batch", in, ref, rest, ok, err)
		}
	}
	checkProblems(t, []problemRow{
		{"0", NotABatch, "0"},
		{"-3", NotABatch, "-3"},
		{"3.5", NotABatch, "3.5"},
		{"3½", NotABatch, "3½"},
		{"½", NotABatch, "½"},
		{"1e9", NotANumber, "1e9"},
		{"100000", TooBig, "100000"},
		{"#3.5", NotABatch, "3.5"},
		{"999999999999999999999999999999", NotANumber, "999999999999999999999999999999"},
	}, func(s string) error { _, _, _, err := Batch(s); return err })
}

func TestBatchRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := BatchRef{Number: rapid.IntRange(1, mostBatches).Draw(t, "number")}
		if rapid.Bool().Draw(t, "piece") {
			want.Piece = string(rune('a' + rapid.IntRange(0, 25).Draw(t, "letter")))
		}
		text := "#" + strconv.Itoa(want.Number) + want.Piece
		ref, rest, ok, err := Batch(text + " Note 7")
		if err != nil || !ok || ref != want || rest != "Note 7" {
			t.Fatalf("%q reads %+v, %q, %v, %v", text, ref, rest, ok, err)
		}
	})
}

func FuzzBatch(f *testing.F) {
	seeds(f, "3", "#3a", "3 a bit", "batch 3: x", "3 in", "3-a", "5#", "-3")
	f.Fuzz(func(t *testing.T, s string) {
		ref, rest, ok, err := Batch(s)
		switch {
		case err != nil:
			checkProblem(t, s, err, func(s string) error { _, _, _, err := Batch(s); return err })
			if ok {
				t.Fatalf("%q: a batch and a problem", s)
			}
		case ok && (ref.Number < 1 || ref.Number > mostBatches || len(ref.Piece) > 1):
			t.Fatalf("Batch(%q) = %+v", s, ref)
		}
		if !strings.HasSuffix(strings.TrimSpace(s), rest) {
			t.Fatalf("Batch(%q) leaves %q, which is no tail of it", s, rest)
		}
	})
}

func BenchmarkBatch(b *testing.B) {
	for b.Loop() {
		if _, _, ok, err := Batch("3a pit 148 core 121"); !ok || err != nil {
			b.Fatal(ok, err)
		}
	}
}
