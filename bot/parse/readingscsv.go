package parse

import (
	"sort"
	"strconv"
	"time"
)

// Role is what a column of a thermometer's table holds.
type Role int

// The roles a column can have.
const (
	Unused Role = iota
	TimeColumn
	DateColumn
	PitColumn
	CoreColumn
)

// Column is one column as it was understood.
type Column struct {
	Index int    // from 0
	Name  string // its heading, or ""
	Role  Role
	Unit  TempUnit // of a temperature
	Piece string   // of a core: "a", "b" … or "" if it is the only one
}

// Table is a thermometer's file as it was understood, for showing back before
// anything is kept.
type Table struct {
	Columns []Column
	Rows    []Reading // in order of time; each has a time
	Remarks []string  // what was assumed or left out, a sentence each
}

const (
	// mostTableBytes and mostRows hold a reading a second for a day and more.
	mostTableBytes = 8 << 20
	mostRows       = 200_000
	// A table pasted into a chat works as well as a file.
	tableExample = "time,pit,core\n14:00,148,121\n14:30,151,124"
)

// ReadingsCSV reads a thermometer's export: comma, semicolon, tab, stroke or
// space between the columns, with or without headings, in UTF-8, UTF-16 with a
// byte order mark, or Windows-1252.
//
// Columns are found by their headings (time, date, pit, core, probe 1, °F …),
// else by what is in them; a unit in heading or cell wins over def. Times without
// a zone are in now's, times without a date are such that the last one is the
// latest not after now. Everything assumed is in Remarks. Errors are *Problem.
func ReadingsCSV(b []byte, def TempUnit, now time.Time) (Table, error) {
	if len(b) > mostTableBytes {
		return Table{}, &Problem{Kind: TooLong, Why: "that file is over 8 MB", Example: tableExample}
	}
	g, p := readGrid(decode(b))
	if p != nil {
		return Table{}, p
	}
	t := tableReader{grid: g, def: def, now: now}
	for _, step := range []func() *Problem{t.findColumns, t.findUnits, t.findTimes} {
		if p := step(); p != nil {
			return Table{}, p
		}
	}
	rows := t.rows()
	if len(rows) == 0 {
		return Table{}, notTable("I see no temperatures in it")
	}
	return Table{Columns: t.columns, Rows: rows, Remarks: t.remarks}, nil
}

func notTable(why string) *Problem {
	return &Problem{Kind: NotATable, Why: why, Example: tableExample}
}

// tableReader finds out what the columns of a grid are.
type tableReader struct {
	grid
	def     TempUnit
	now     time.Time
	columns []Column
	times   []time.Time // of each data row; zero if it has none
	remarks []string
}

func (t *tableReader) remark(s string) { t.remarks = append(t.remarks, s) }

func (t *tableReader) remarkCount(n int, thing, what string) {
	switch {
	case n == 1:
		t.remark("1 " + thing + what)
	case n > 1:
		t.remark(strconv.Itoa(n) + " " + thing + "s" + what)
	}
}

// rows makes readings of the data.
func (t *tableReader) rows() []Reading {
	var out []Reading
	late, timeless, odd := 0, 0, 0
	for k, record := range t.data {
		at := t.times[k]
		if at.IsZero() {
			timeless++
			continue
		}
		got, bad := t.row(record, at)
		odd += bad
		if len(got) > 0 && at.After(t.now) {
			late++
		}
		out = append(out, got...)
	}
	t.remarkCount(timeless, "row", " without a time I can read: left out.")
	t.remarkCount(odd, "cell", " that can be no temperature: left out.")
	t.remarkCount(late, "row", " later than now.")
	sort.SliceStable(out, func(i, j int) bool { return out[i].At.Before(out[j].At) })
	return out
}

// row makes the readings of one record: pit and core together, or the pit and
// then the core of each piece.
func (t *tableReader) row(record []string, at time.Time) (out []Reading, odd int) {
	whole := Reading{At: at, HasTime: true}
	for _, c := range t.columns {
		if c.Role != PitColumn && c.Role != CoreColumn || c.Index >= len(record) {
			continue
		}
		cell, ok := cellTemperature(record[c.Index])
		if !ok {
			continue
		}
		f, ok := cell.fahrenheit(c.Unit)
		if !ok {
			odd++
			continue
		}
		switch {
		case c.Role == PitColumn && whole.Pit == nil:
			whole.Pit = &f
		case c.Role == CoreColumn && c.Piece == "" && whole.Core == nil:
			whole.Core = &f
		case c.Role == CoreColumn:
			out = append(out, Reading{Piece: c.Piece, Core: &f, At: at, HasTime: true})
		}
	}
	if whole.Pit != nil || whole.Core != nil {
		out = append([]Reading{whole}, out...)
	}
	return out, odd
}
