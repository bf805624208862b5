package parse

import "time"

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
	Rows    []Reading // in order of time
	Remarks []string  // what was assumed or left out, a sentence each
}

const tableExample = "a CSV file with the columns time, pit, core"

// ReadingsCSV reads a thermometer's export. Errors are *Problem.
func ReadingsCSV(b []byte, def TempUnit, now time.Time) (Table, error) {
	return Table{}, &Problem{Kind: NotATable, Why: "I can't read files yet", Example: tableExample}
}
