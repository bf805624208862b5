package curemath

import "time"

// LethalityRow is one row of the published time–temperature table: how long the
// core has to stay at that temperature or above. A time of 0 is "at once".
type LethalityRow struct {
	Core Fahrenheit
	Log6_5,
	Log7 time.Duration
}

// Range of the table. Below the first row nothing is credited; past the last
// there is nothing to gain.
const (
	lethalityFrom Fahrenheit = 130
	lethalityTo   Fahrenheit = 160
)

func lethalitySource() Source {
	return Source{
		Document: "FSIS Appendix A, time–temperature table for whole-muscle beef",
		Date:     "1999",
		Status:   Found,
		Note:     "cooked, roast and corned beef in humid heat; it says nothing of a dry surface, and nothing of poultry",
	}
}

// LethalityTable gives the rows of FSIS Appendix A (1999), 130 to 160 °F, in
// order, one for each degree. Between rows the row below is the one that counts.
func LethalityTable() [31]LethalityRow {
	const m, s = time.Minute, time.Second
	return [31]LethalityRow{
		{130, 112 * m, 121 * m},
		{131, 89 * m, 97 * m},
		{132, 71 * m, 77 * m},
		{133, 56 * m, 62 * m},
		{134, 45 * m, 47 * m},
		{135, 36 * m, 37 * m},
		{136, 28 * m, 32 * m},
		{137, 23 * m, 24 * m},
		{138, 18 * m, 19 * m},
		{139, 15 * m, 15 * m},
		{140, 12 * m, 12 * m},
		{141, 9 * m, 10 * m},
		{142, 8 * m, 8 * m},
		{143, 6 * m, 6 * m},
		{144, 5 * m, 5 * m},
		{145, 4 * m, 4 * m},
		{146, 169 * s, 182 * s},
		{147, 134 * s, 144 * s},
		{148, 107 * s, 115 * s},
		{149, 85 * s, 91 * s},
		{150, 67 * s, 72 * s},
		{151, 54 * s, 58 * s},
		{152, 43 * s, 46 * s},
		{153, 34 * s, 37 * s},
		{154, 27 * s, 29 * s},
		{155, 22 * s, 23 * s},
		{156, 17 * s, 19 * s},
		{157, 14 * s, 15 * s},
		{158, 0, 0},
		{159, 0, 0},
		{160, 0, 0},
	}
}

// TableHeat is what the table says of one column.
type TableHeat struct {
	// Logs is the column: 6.5 or 7 log reductions.
	Logs float64
	Met  bool
	// MetAt is when the holding time of a row was first full.
	MetAt time.Time
	// Row is the row that is met or, while none is, the one that the stretch at
	// the end of the readings is nearest to filling. It is 0 if the core is
	// under 130 °F now, where nothing is credited.
	Row Fahrenheit
	// Needed is the time of that row, Held how long the core has stayed at it or
	// above without a break, Missing the rest, if the core stays there.
	Needed, Held, Missing time.Duration
}

// readTable holds the readings to one column, a row at a time: a row is met
// when the core stayed at its temperature or above for its time without a break.
func readTable(rs []CoreReading, logs float64, column func(LethalityRow) time.Duration) TableHeat {
	out := TableHeat{Logs: logs}
	last := rs[len(rs)-1]
	for _, row := range LethalityTable() {
		needed := column(row)
		for _, held := range stretchesAt(rs, row.Core) {
			if held.length() >= needed {
				if met := held.from.Add(needed); !out.Met || met.Before(out.MetAt) {
					out.Met, out.MetAt = true, met
					out.Row, out.Needed, out.Held, out.Missing = row.Core, needed, held.length(), 0
				}
				break
			}
			if current := held.to.Equal(last.At); current && !out.Met {
				missing := needed - held.length()
				if out.Row == 0 || missing < out.Missing {
					out.Row, out.Needed, out.Held, out.Missing = row.Core, needed, held.length(), missing
				}
			}
		}
	}
	return out
}

// coreStretch is an unbroken time at a temperature or above.
type coreStretch struct{ from, to time.Time }

func (s coreStretch) length() time.Duration { return s.to.Sub(s.from) }

// stretchesAt finds every unbroken time at a temperature or above, from a reading
// there to a reading there: where between two readings the core came up to it or fell
// under it nobody saw, and that time is credited with nothing (the cautious side; our
// own choice, common practice, no source). A gap longer than MaxHeatGap breaks a
// stretch likewise.
func stretchesAt(rs []CoreReading, level Fahrenheit) []coreStretch {
	var out []coreStretch
	open := false
	for i, r := range rs {
		if i > 0 {
			line := coreSpan{rs[i-1], r}
			switch seen := line.length() <= MaxHeatGap; {
			case open && seen && r.Temp >= level:
				out[len(out)-1].to = r.At
			case r.Temp >= level:
				out = append(out, coreStretch{r.At, r.At})
			}
		} else if r.Temp >= level {
			out = append(out, coreStretch{r.At, r.At})
		}
		open = r.Temp >= level
	}
	return out
}
