package curemath

import (
	"fmt"
	"math"
	"time"
)

// CoreReading is one temperature at the slowest-heating point of a piece.
type CoreReading struct {
	At   time.Time
	Temp Fahrenheit
}

// PitReading is one temperature of the air a piece hangs in.
type PitReading struct {
	At   time.Time
	Temp Fahrenheit
}

// ReadingErrorKind says what is wrong with a list of readings.
type ReadingErrorKind int

const (
	// ReadingsNone: the list is empty.
	ReadingsNone ReadingErrorKind = iota + 1
	// ReadingNotANumber: a temperature is NaN or infinite.
	ReadingNotANumber
	// ReadingImplausible: a temperature no smokehouse has (a core outside −40 to
	// 250 °F, a pit outside −60 to 700 °F).
	ReadingImplausible
	// ReadingsUnordered: a reading is earlier than the one before it.
	ReadingsUnordered
	// ReadingsSameTime: two readings have the same time.
	ReadingsSameTime
)

// ReadingError is what is wrong with a list of readings and with which one.
type ReadingError struct {
	Kind  ReadingErrorKind
	Index int // counted from 0
	At    time.Time
	Temp  Fahrenheit
}

func (e ReadingError) Error() string {
	switch e.Kind {
	case ReadingsNone:
		return "There is no reading yet."
	case ReadingNotANumber:
		return fmt.Sprintf("Reading %d is not a number.", e.Index+1)
	case ReadingImplausible:
		return fmt.Sprintf("Reading %d, %.0f °F, is no temperature of this kind.", e.Index+1, float64(e.Temp))
	case ReadingsUnordered:
		return fmt.Sprintf("Reading %d is earlier than the one before it.", e.Index+1)
	case ReadingsSameTime:
		return fmt.Sprintf("Readings %d and %d have the same time.", e.Index, e.Index+1)
	default:
		return fmt.Sprintf("Reading %d cannot be used.", e.Index+1)
	}
}

// checkCore refuses a list the sums cannot stand on. Every function that takes
// readings wants them in order of time, each time once.
func checkCore(rs []CoreReading) error {
	if len(rs) == 0 {
		return ReadingError{Kind: ReadingsNone}
	}
	var before time.Time
	for i, r := range rs {
		if err := checkReading(i, r.At, before, r.Temp, -40, 250); err != nil {
			return err
		}
		before = r.At
	}
	return nil
}

func checkReading(i int, at, before time.Time, temp, low, high Fahrenheit) error {
	kind := ReadingErrorKind(0)
	switch t := float64(temp); {
	case math.IsNaN(t) || math.IsInf(t, 0):
		kind = ReadingNotANumber
	case temp < low || temp > high:
		kind = ReadingImplausible
	case i > 0 && at.Equal(before):
		kind = ReadingsSameTime
	case i > 0 && at.Before(before):
		kind = ReadingsUnordered
	default:
		return nil
	}
	return ReadingError{Kind: kind, Index: i, At: at, Temp: temp}
}

// coreSpan is the straight line between two neighbouring readings.
type coreSpan struct {
	from, to CoreReading
}

func (s coreSpan) length() time.Duration { return s.to.At.Sub(s.from.At) }

// crossing is the time at which the line passes a temperature between its ends,
// to the millisecond, so that a time of exactly five hours comes out as that.
func (s coreSpan) crossing(t Fahrenheit) time.Time {
	share := float64((t - s.from.Temp) / (s.to.Temp - s.from.Temp))
	after := time.Duration(share * float64(s.length())).Round(time.Millisecond)
	return s.from.At.Add(min(max(after, 0), s.length()))
}

// within clips the line to the part with temperatures from low to high. It is
// false when no part lies there.
func (s coreSpan) within(low, high Fahrenheit) (coreSpan, bool) {
	a, b := s.from, s.to
	if max(a.Temp, b.Temp) < low || min(a.Temp, b.Temp) > high {
		return coreSpan{}, false
	}
	clip := func(r CoreReading) CoreReading {
		if t := min(max(r.Temp, low), high); t != r.Temp {
			return CoreReading{At: s.crossing(t), Temp: t}
		}
		return r
	}
	return coreSpan{clip(a), clip(b)}, true
}

// coreSpans are the straight lines between the readings, in order.
func coreSpans(rs []CoreReading) []coreSpan {
	if len(rs) < 2 {
		return nil
	}
	out := make([]coreSpan, len(rs)-1)
	for i := range out {
		out[i] = coreSpan{rs[i], rs[i+1]}
	}
	return out
}
