package parse

import (
	"strconv"
	"strings"

	"larderhand/curemath"
)

// cell is a temperature in a table, with the scale if the cell names it.
type cell struct {
	value float64
	scale TempUnit
}

// cellTemperature reads a number with at most a sign for its scale. In a table a
// comma is the decimal sign: no pit has ever been at a thousand degrees.
func cellTemperature(s string) (cell, bool) {
	s = strings.TrimSpace(s)
	if s == "" || len(s) > 32 {
		return cell{}, false
	}
	var c cell
	if last := s[len(s)-1]; last < '0' || last > '9' {
		s = foldText(s)
		switch {
		case strings.HasSuffix(s, "f"):
			c.scale = FahrenheitUnit
		case strings.HasSuffix(s, "c"):
			c.scale = CelsiusUnit
		}
		if c.scale != UnitUnknown {
			s = s[:len(s)-1]
		}
		s = strings.TrimRight(strings.TrimSuffix(strings.TrimRight(s, " "), "deg"), " °")
	}
	digits, marks := 0, 0
	for i := range len(s) {
		switch ch := s[i]; {
		case ch >= '0' && ch <= '9':
			digits++
		case ch == '.' || ch == ',':
			marks++
		case (ch == '-' || ch == '+') && i == 0:
		default:
			return c, false
		}
	}
	if digits == 0 || digits > 15 || marks > 1 {
		return c, false
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	c.value = v
	return c, err == nil
}

// fahrenheit gives the temperature; ok is false for what a broken probe writes.
func (c cell) fahrenheit(column TempUnit) (f curemath.Fahrenheit, ok bool) {
	if c.scale != UnitUnknown {
		column = c.scale
	}
	f = curemath.Fahrenheit(c.value)
	if column == CelsiusUnit {
		f = curemath.Celsius(c.value).Fahrenheit()
	}
	// A probe without contact writes a far negative or a very large number.
	return f, f > -100 && f < hottest
}
