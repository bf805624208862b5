package reply

import (
	"strings"
	"unicode/utf8"
)

// Text renders the blocks as plain text: paragraphs apart by a blank line, table
// columns aligned by counting runes. It is what a terminal shows and what a log
// or a file keeps.
func (r Reply) Text() string {
	parts := make([]string, 0, len(r.Blocks))
	for _, b := range r.Blocks {
		parts = append(parts, b.Text())
	}
	return strings.Join(parts, "\n\n")
}

// Text renders one block as plain text.
func (b Block) Text() string {
	if b.Rows != nil {
		return strings.Join(Align(b.Rows), "\n")
	}
	lines := make([]string, len(b.Lines))
	for i, l := range b.Lines {
		lines[i] = l.Text()
	}
	return strings.Join(lines, "\n")
}

// Text renders one line as plain text.
func (l Line) Text() string {
	var s strings.Builder
	for _, sp := range l {
		if sp.Style == Code {
			s.WriteString("`" + sp.Text + "`")
			continue
		}
		s.WriteString(sp.Text)
	}
	return s.String()
}

// Align pads the cells of a table to columns: the first to the left, the others
// to the right, two spaces between.
func Align(rows [][]string) []string {
	var width []int
	for _, row := range rows {
		for i, c := range row {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	out := make([]string, len(rows))
	for i, row := range rows {
		var s strings.Builder
		for j, c := range row {
			pad := strings.Repeat(" ", width[j]-utf8.RuneCountInString(c))
			if j == 0 {
				s.WriteString(c + pad)
				continue
			}
			s.WriteString("  " + pad + c)
		}
		out[i] = strings.TrimRight(s.String(), " ")
	}
	return out
}
