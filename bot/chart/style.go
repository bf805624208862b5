package chart

import (
	"math"
	"strconv"
	"time"

	"larderhand/curemath"
)

// Style is how a conversation likes its pictures. The zero value is a light
// picture in °C and millimetres with a 24-hour clock in UTC.
type Style struct {
	Dark       bool
	Fahrenheit bool
	Inches     bool
	Clock12    bool           // 2 pm rather than 14:00
	Zone       *time.Location // nil is UTC
}

func (s Style) local(t time.Time) time.Time {
	if s.Zone == nil {
		return t.UTC()
	}
	return t.In(s.Zone)
}

// degrees gives a temperature as a number on the conversation's scale.
func (s Style) degrees(t curemath.Celsius) float64 {
	if s.Fahrenheit {
		return float64(t.Fahrenheit())
	}
	return float64(t)
}

func (s Style) degreeUnit() string {
	if s.Fahrenheit {
		return "°F"
	}
	return "°C"
}

// bareDegrees writes a temperature to the whole degree without its unit.
func (s Style) bareDegrees(t curemath.Celsius) string {
	return whole(s.degrees(t))
}

func whole(v float64) string { return minus(strconv.FormatFloat(math.Round(v), 'f', 0, 64)) }

// thickness gives a length as a number in the conversation's unit.
func (s Style) thickness(mm curemath.Millimetres) float64 {
	if s.Inches {
		return mm.Inches()
	}
	return float64(mm)
}

func (s Style) thicknessUnit() string {
	if s.Inches {
		return "in"
	}
	return "mm"
}

// clock writes a time of day, and the weekday before it if that is not the day
// of ref.
func (s Style) clock(t, ref time.Time) string {
	l := s.local(t)
	out := l.Format("15:04")
	if s.Clock12 {
		out = l.Format("3:04 pm")
	}
	if !ref.IsZero() && day(l) != day(s.local(ref)) {
		out = l.Format("Mon ") + out
	}
	return out
}

// hour writes a time for an axis: as short as it can be said.
func (s Style) hour(t time.Time) string {
	l := s.local(t)
	switch {
	case !s.Clock12:
		return l.Format("15:04")
	case l.Minute() == 0:
		return l.Format("3 pm")
	default:
		return l.Format("3:04 pm")
	}
}

// date is a calendar day without its time.
type date struct {
	year  int
	month time.Month
	day   int
}

func day(t time.Time) date {
	y, m, d := t.Date()
	return date{y, m, d}
}

// minus turns a hyphen before a figure into a minus sign, and −0 into 0.
func minus(s string) string {
	if s == "-0" {
		return "0"
	}
	if len(s) > 1 && s[0] == '-' {
		return "−" + s[1:]
	}
	return s
}
