package parse

import "strings"

// findUnits gives every temperature its scale: from its heading or a row of
// units, from the cells, or the conversation's.
func (t *tableReader) findUnits() *Problem {
	assumed := false
	for i := range t.columns {
		c := &t.columns[i]
		if c.Role != PitColumn && c.Role != CoreColumn {
			continue
		}
		if c.Unit = unitInHeading(c.Name); c.Unit == UnitUnknown && i < len(t.units) {
			c.Unit = unitInHeading("(" + t.units[i] + ")")
		}
		if c.Unit == UnitUnknown {
			c.Unit = t.unitInCells(i)
		}
		if c.Unit == UnitUnknown {
			c.Unit, assumed = t.def, true
		}
		if c.Unit == UnitUnknown {
			p := notTable("it does not say whether it is °F or °C")
			p.Kind, p.Example = NoUnit, "time,pit °F,core °F\n14:00,148,121\n14:30,151,124"
			return p
		}
	}
	if assumed {
		t.remark("No unit in the file: read as " + scaleName(t.def) + ", as this conversation has it.")
	}
	t.doubtUnits()
	return nil
}

func scaleName(u TempUnit) string {
	if u == CelsiusUnit {
		return "°C"
	}
	return "°F"
}

// doubtUnits says so where the numbers look like the other scale.
func (t *tableReader) doubtUnits() {
	for i, c := range t.columns {
		m, n := t.middle(i)
		switch {
		case n == 0 || c.Role != PitColumn && c.Role != CoreColumn:
		case c.Unit == CelsiusUnit && c.Role == PitColumn && m > 150, c.Unit == CelsiusUnit && c.Role == CoreColumn && m > 105:
			t.remark("Column " + quoteName(c) + " is very hot for °C: is it °F?")
		case c.Unit == FahrenheitUnit && c.Role == PitColumn && m < 80 && m > 20:
			t.remark("Column " + quoteName(c) + " is cold for a pit in °F: is it °C?")
		}
	}
}

// unitInHeading reads the scale in Pit (°F), core_c, Temp C.
func unitInHeading(name string) TempUnit {
	name = foldText(name)
	for scale, letter := range map[TempUnit]string{FahrenheitUnit: "f", CelsiusUnit: "c"} {
		long := map[string]string{"f": "fahrenheit", "c": "celsius"}[letter]
		for _, mark := range []string{"°" + letter, "° " + letter, "(" + letter + ")", "[" + letter + "]", "deg " + letter, "deg" + letter, long} {
			if strings.Contains(name, mark) {
				return scale
			}
		}
		if strings.HasSuffix(name, "_"+letter) || strings.HasSuffix(name, " "+letter) && strings.Contains(name, "temp") {
			return scale
		}
	}
	return UnitUnknown
}

// unitInCells gives the scale that the first filled cells name.
func (t *tableReader) unitInCells(i int) TempUnit {
	for _, r := range t.data {
		if i < len(r) {
			if c, ok := cellTemperature(r[i]); ok {
				return c.scale
			}
		}
	}
	return UnitUnknown
}
