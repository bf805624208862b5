package curemath

import (
	"fmt"
	"math"
	"time"
)

// ProgressErrorKind says what stands in the way of a progress figure.
type ProgressErrorKind int

const (
	// ProgressBadThickness: not above zero, not a number, or over 300 mm.
	ProgressBadThickness ProgressErrorKind = iota + 1
	// ProgressBadFat: a fat share outside 0–100 %.
	ProgressBadFat
	// ProgressBadWeight: a weight of brine or meat that is not above zero.
	ProgressBadWeight
	// ProgressBadTime: a time before the start, or more than a year after it.
	ProgressBadTime
	// ProgressNoTemperature: no temperature was given.
	ProgressNoTemperature
	// ProgressBadTemperature: not a temperature a slab of meat can have.
	ProgressBadTemperature
	// ProgressTooWarm: over 50 °F, where bacteria grow quickly in unsalted meat
	// (USDA farm pork handbook). No figure is given; the meat is the question.
	ProgressTooWarm
	// ProgressNever: the wanted share is not reached, because the slab is frozen
	// from here on or the share is not below 100 %.
	ProgressNever
	// ProgressBadPoints: fewer than 2 or more than 2,000 points asked for.
	ProgressBadPoints
)

// ProgressError is the error of every function of cure progress.
type ProgressError struct {
	Kind ProgressErrorKind
	Temp Celsius // for ProgressBadTemperature and ProgressTooWarm
}

func (e ProgressError) Error() string {
	switch e.Kind {
	case ProgressBadThickness:
		return "thickness must be above 0 and at most 300 mm"
	case ProgressBadFat:
		return "fat share must be between 0 and 100 %"
	case ProgressBadWeight:
		return "weights must be above zero"
	case ProgressBadTime:
		return "time in cure must be between 0 and a year"
	case ProgressNoTemperature:
		return "no temperature given"
	case ProgressBadTemperature:
		return fmt.Sprintf("%.1f °C is no temperature for a slab in cure", float64(e.Temp))
	case ProgressTooWarm:
		return fmt.Sprintf("%.1f °C is too warm for meat in cure", float64(e.Temp))
	case ProgressNever:
		return "that share is never reached"
	case ProgressBadPoints:
		return "between 2 and 2000 points"
	}
	return fmt.Sprintf("cure progress: error %d", int(e.Kind))
}

const (
	thickestSlab = Millimetres(300)
	longestCure  = 366 * 24 * time.Hour
)

func checkThickness(t Millimetres) error {
	if !(t > 0 && t <= thickestSlab) {
		return ProgressError{Kind: ProgressBadThickness}
	}
	return nil
}

func checkFat(f Percent) error {
	if !(f >= 0 && f <= 100) {
		return ProgressError{Kind: ProgressBadFat}
	}
	return nil
}

func checkElapsed(d time.Duration) error {
	if d < 0 || d > longestCure {
		return ProgressError{Kind: ProgressBadTime}
	}
	return nil
}

func checkCureTemp(t Celsius) error {
	switch {
	case math.IsNaN(float64(t)) || t < -60 || t > 100:
		return ProgressError{Kind: ProgressBadTemperature, Temp: t}
	case t.Fahrenheit() > cureTooWarm:
		return ProgressError{Kind: ProgressTooWarm, Temp: t}
	}
	return nil
}
