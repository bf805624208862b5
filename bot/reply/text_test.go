package reply

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestText(t *testing.T) {
	var r Reply
	r.Say(B("Batch 1"), " is open.")
	r.Sayf("%d pieces", 2)
	r.Table([][]string{{"salt", "53 g"}, {"mix", "4.3 g"}})
	r.Par("Type ", Type("flip 1"), ".")
	want := "Batch 1 is open.\n2 pieces\n\nsalt   53 g\nmix   4.3 g\n\nType `flip 1`."
	if got := r.Text(); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	if (Reply{}).Empty() != true || r.Empty() {
		t.Error("Empty is wrong")
	}
}

// Columns line up whatever is in the cells: every row that reaches a column has it
// end at the same place.
func TestAlignLinesUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		cell := rapid.StringMatching(`[a-z0-9 é½°]{0,8}[a-z0-9]`)
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, 3, 3), 1, 6).Draw(rt, "rows")
		lines := Align(rows)
		for _, l := range lines {
			if utf8.RuneCountInString(l) != utf8.RuneCountInString(lines[0]) {
				rt.Fatalf("uneven:\n%s", strings.Join(lines, "\n"))
			}
		}
		for i, row := range rows {
			if !strings.HasPrefix(lines[i], row[0]) || !strings.HasSuffix(lines[i], row[2]) {
				rt.Fatalf("row %v became %q", row, lines[i])
			}
		}
	})
}
