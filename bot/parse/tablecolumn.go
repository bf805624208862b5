package parse

import (
	"slices"
	"sort"
	"strings"
)

// findColumns gives every column a role: by its heading, else by its content.
func (t *tableReader) findColumns() *Problem {
	for i := range t.width {
		c := Column{Index: i}
		if i < len(t.heads) {
			c.Name = tidy(t.heads[i], 40)
		}
		c.Role, c.Piece = roleNamed(c.Name)
		if c.Role == PitColumn || c.Role == CoreColumn {
			if _, n := t.middle(i); n == 0 {
				c.Role = Unused
			}
		}
		t.columns = append(t.columns, c)
	}
	t.guessTime()
	t.guessTemperatures()
	t.namePieces()
	if !slices.ContainsFunc(t.columns, func(c Column) bool { return c.Role == PitColumn || c.Role == CoreColumn }) {
		return notTable("I see no column with pit or core temperatures")
	}
	return nil
}

// guessTime finds the times by their looks where no heading says time.
func (t *tableReader) guessTime() {
	if t.column(TimeColumn) >= 0 {
		return
	}
	for i := range t.columns {
		if t.columns[i].Role != Unused && t.columns[i].Role != DateColumn || t.mostly(i, func(s string) bool { return !looksTimed(s) || looksDated(s) == dateOnly }) {
			continue
		}
		t.columns[i].Role = TimeColumn
		return
	}
	for i := range t.columns { // a date column that holds the time too
		if t.columns[i].Role == DateColumn && !t.mostly(i, func(s string) bool { return !looksTimed(s) }) {
			t.columns[i].Role = TimeColumn
			return
		}
	}
}

// guessTemperatures looks for pit and cores among the columns without a telling
// heading.
func (t *tableReader) guessTemperatures() {
	var free []int
	for i, c := range t.columns {
		if _, n := t.middle(i); c.Role == Unused && n*2 > len(t.data) && !aside(headingWords(c.Name)) {
			free = append(free, i)
		}
	}
	if len(free) == 0 {
		return
	}
	pitFound, coreFound := t.column(PitColumn) >= 0, t.column(CoreColumn) >= 0
	switch {
	case pitFound && coreFound:
		for _, i := range free { // a probe beside a named core is another core
			if probe(t.columns[i].Name) {
				t.columns[i].Role = CoreColumn
			}
		}
		return
	case !pitFound && !coreFound && len(free) == 1:
		t.columns[free[0]].Role = CoreColumn
		t.remark("One column of temperatures, taken as the core.")
		return
	case !pitFound && len(free) > 0:
		sort.SliceStable(free, func(a, b int) bool {
			ma, _ := t.middle(free[a])
			mb, _ := t.middle(free[b])
			return ma > mb
		})
		t.columns[free[0]].Role = PitColumn
		t.remark("The hottest column" + called(t.columns[free[0]].Name) + " is taken as the pit.")
		free = free[1:]
	}
	if coreFound {
		return
	}
	for _, i := range free {
		t.columns[i].Role = CoreColumn
	}
	if len(free) > 0 && pitFound {
		t.remark("The other temperatures are taken as cores.")
	}
}

func called(name string) string {
	if name == "" {
		return ""
	}
	return " (" + name + ")"
}

func probe(name string) bool { return strings.Contains(foldText(name), "probe") }

// namePieces letters the cores, in order, if there are several.
func (t *tableReader) namePieces() {
	var cores []int
	used := map[string]bool{}
	for i, c := range t.columns {
		if c.Role == CoreColumn {
			cores = append(cores, i)
			used[c.Piece] = true
		}
	}
	if len(cores) < 2 {
		return
	}
	next := 'a'
	for _, i := range cores {
		if t.columns[i].Piece != "" {
			continue
		}
		for used[string(next)] && next < 'z' {
			next++
		}
		t.columns[i].Piece = string(next)
		used[string(next)] = true
		t.remark("Column " + quoteName(t.columns[i]) + " is taken as piece " + string(next) + ".")
	}
}

func quoteName(c Column) string {
	if c.Name != "" {
		return "“" + c.Name + "”"
	}
	return plain(float64(c.Index + 1))
}

// column gives the first column with a role, or -1.
func (t *tableReader) column(r Role) int {
	return slices.IndexFunc(t.columns, func(c Column) bool { return c.Role == r })
}

// mostly says whether most filled cells of the column are so.
func (t *tableReader) mostly(i int, so func(string) bool) bool {
	yes, all := 0, 0
	for _, r := range t.data[:min(len(t.data), 200)] {
		if i < len(r) && r[i] != "" {
			all++
			if so(r[i]) {
				yes++
			}
		}
	}
	return yes*2 > all || all == 0
}

// middle gives the median of the temperatures of a column, and how many cells
// have one.
func (t *tableReader) middle(i int) (float64, int) {
	var v []float64
	for _, r := range t.data {
		if i < len(r) {
			if c, ok := cellTemperature(r[i]); ok {
				v = append(v, c.value)
			}
		}
	}
	if len(v) == 0 {
		return 0, 0
	}
	slices.Sort(v)
	return v[len(v)/2], len(v)
}
