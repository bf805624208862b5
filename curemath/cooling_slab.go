package curemath

import (
	"math"
	"time"
)

// ColdAir is how briskly the air round a cooling slab takes its heat.
type ColdAir int

const (
	// StillAir: a rack in a room or a fridge.
	StillAir ColdAir = iota + 1
	// MovingAir: a fan, the quickest that air does.
	MovingAir
)

const (
	// coldestFridge is the cold end of where a cure is kept (common practice, no
	// source); a freezer or a cold bath is colder and quicker.
	coldestFridge Fahrenheit = 34
	// thinnestUsual is a thin belly: common practice, no source.
	thinnestUsual Millimetres = 25.4
	// stillShare is the heat still air takes over that a pit with a fire gives
	// (from memory).
	stillShare = 0.5
)

// ColdestCore is about the coldest that the core of a slab of a thickness can have
// come to in air of a fridge (34 °F), some time after it was at a temperature. A
// thickness of 0 is that of a thin belly, 1 in. It is an estimate to ask by, never to
// refuse a reading by: a freezer, a cold bath or a cut in two is quicker.
//
// Formula: the first term of Fourier's series for a plane sheet with a Biot number,
// no more than 1: excess = C·exp(−ζ²·D·t ÷ l²) with ζ·tan ζ = Bi and C = 4·sin ζ ÷
// (2ζ + sin 2ζ), l half the thickness (a standard text of heat transfer, from memory).
// The heat diffusivity and the heat the face takes are those the forecast of a smoke
// begins with.
func ColdestCore(thick Millimetres, from Fahrenheit, after time.Duration, air ColdAir) Fahrenheit {
	if !(thick > 0) {
		thick = thinnestUsual
	}
	if from <= coldestFridge || after <= 0 {
		return from
	}
	p := beforeReadings().middle
	half := float64(thick) / 2000
	biot := math.Exp(p[atTake]) * half
	if air == StillAir {
		biot *= stillShare
	}
	fourier := math.Exp(p[atSpread]) * after.Hours() / (half * half)
	return coldestFridge + Fahrenheit(float64(from-coldestFridge)*centreExcess(biot, fourier))
}

// centreExcess is the share of its excess over the air that the centre of a plane
// sheet still has.
func centreExcess(biot, fourier float64) float64 {
	zeta, c := firstRoot(biot)
	return min(1, c*math.Exp(-zeta*zeta*fourier))
}

// firstRoot solves ζ·tan ζ = Bi below a right angle, by halving, and gives the factor
// of its term.
func firstRoot(biot float64) (zeta, c float64) {
	low, high := 0.0, math.Pi/2
	for range 60 {
		zeta = (low + high) / 2
		if zeta*math.Sin(zeta) < biot*math.Cos(zeta) {
			low = zeta
		} else {
			high = zeta
		}
	}
	return zeta, 4 * math.Sin(zeta) / (2*zeta + math.Sin(2*zeta))
}
