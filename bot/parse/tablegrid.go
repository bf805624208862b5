package parse

import (
	"bytes"
	"encoding/csv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// grid is a table taken apart: headings, units if they had a row of their own,
// and data.
type grid struct {
	heads, units []string
	data         [][]string
	width        int
	comma        bool // columns are parted by commas, so a comma in a cell was quoted
}

// decode makes UTF-8 of the encodings that thermometers and spreadsheets write.
func decode(b []byte) []byte {
	out, _, err := transform.Bytes(unicode.BOMOverride(transform.Nop), b)
	if err != nil {
		out = b
	}
	if !utf8.Valid(out) {
		if win, err := charmap.Windows1252.NewDecoder().Bytes(out); err == nil {
			out = win
		}
	}
	return bytes.TrimPrefix(out, []byte("\ufeff"))
}

// readGrid splits a text into records and tells headings from data.
func readGrid(b []byte) (grid, *Problem) {
	b = bytes.ReplaceAll(b, []byte("\r\n"), []byte("\n"))
	b = bytes.ReplaceAll(b, []byte("\r"), []byte("\n"))
	if len(bytes.TrimSpace(b)) == 0 {
		return grid{}, &Problem{Kind: Empty, Why: "the file is empty", Example: tableExample}
	}
	sep := separator(b)
	records := split(b, sep)
	if len(records) > mostRows {
		return grid{}, &Problem{Kind: TooMany, Why: "the file has more than 200,000 lines", Example: tableExample}
	}
	first := 0
	for first < len(records) && !isData(records[first]) {
		first++
	}
	if first == len(records) {
		return grid{}, notTable("I see no rows with a time and a temperature")
	}
	g := grid{data: records[first:], width: len(records[first]), comma: sep == ','}
	above := first - 1
	if above >= 0 && unitRow(records[above]) {
		g.units = records[above]
		above--
	}
	if above >= 0 && len(records[above]) >= 2 {
		g.heads = records[above]
	}
	return g, nil
}

// separator finds the sign that parts the first lines into the most even
// columns. A comma counts last: it may be a decimal sign.
func separator(b []byte) rune {
	sample := b
	if lines := bytes.SplitAfterN(b, []byte("\n"), 41); len(lines) > 40 {
		sample = bytes.Join(lines[:40], nil)
	}
	best, score := ' ', 0
	for _, sep := range "\t;|," {
		count := map[int]int{}
		top := 0
		for _, r := range split(sample, sep) {
			if n := len(r); n > 1 {
				count[n]++
				top = max(top, count[n])
			}
		}
		if top > score {
			best, score = sep, top
		}
	}
	return best
}

// split takes a text apart; a line that is no proper record is left out.
func split(b []byte, sep rune) [][]string {
	var out [][]string
	if sep == ' ' {
		for line := range strings.Lines(string(b)) {
			if f := strings.Fields(line); len(f) > 0 {
				out = append(out, f)
			}
		}
		return out
	}
	r := csv.NewReader(bytes.NewReader(b))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = sep, -1, true, sep != '\t'
	for {
		rec, err := r.Read()
		if rec == nil && err != nil {
			return out
		}
		for i := range rec {
			rec[i] = strings.TrimSpace(rec[i])
		}
		out = append(out, rec)
	}
}

// isData says whether a record has a time in it and a number besides.
func isData(record []string) bool {
	timed, numbers := false, 0
	for _, cell := range record {
		if _, ok := cellTemperature(cell); ok {
			numbers++
		} else if looksTimed(cell) {
			timed = true
		}
	}
	return timed && numbers > 0 || numbers > 1
}

// unitRow says whether a record only names units.
func unitRow(record []string) bool {
	named := false
	for _, cell := range record {
		switch strings.Trim(foldText(cell), "()[]°º. ") {
		case "":
		case "f", "c", "fahrenheit", "celsius", "deg f", "deg c", "degf", "degc":
			named = true
		case "s", "sec", "min", "h", "hh:mm", "hh:mm:ss", "time", "utc", "local":
		default:
			return false
		}
	}
	return named
}

// foldText makes a heading or cell plain: lower case, ASCII digits and signs,
// single spaces.
func foldText(s string) string {
	var b strings.Builder
	for _, g := range glyphs(s) {
		r := g.r
		if r == tie || r == '\n' {
			r = ' '
		}
		b.WriteRune(r)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
