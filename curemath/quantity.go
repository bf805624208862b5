// Package curemath holds the sums of a curing room: how much curing mix, salt
// and sugar a piece of meat takes, how far a cure has moved, what a core
// temperature has done, how fast a piece has to cool.
//
// The package is pure. It reads no clock, file or network, it knows no chat and
// no store, and every function answers the same question the same way twice.
// Every exported formula names the document it comes from.
package curemath

// Grams is a mass in grams.
type Grams float64

// Exact conversion factors of the international avoirdupois system (NIST
// Handbook 44, appendix C: 1 lb = 0.45359237 kg exactly, 1 oz = 1/16 lb).
const (
	Ounce    Grams = 28.349523125
	Pound    Grams = 453.59237
	Kilogram Grams = 1000
	Ton      Grams = 1000000
)

// Pounds gives the mass in avoirdupois pounds.
func (g Grams) Pounds() float64 { return float64(g / Pound) }

// Kilograms gives the mass in kilograms.
func (g Grams) Kilograms() float64 { return float64(g / Kilogram) }

// Percent is a share in percent: 2.5 means 2.5 %.
type Percent float64

// Proportion gives the share as a number between 0 and 1 (6.25 % is 0.0625), the
// form the calculations handbook (FSIS Directive 7620.3, chapter 3) works in.
func (p Percent) Proportion() float64 { return float64(p) / 100 }

// Of gives that share of a mass (exact, by definition).
func (p Percent) Of(g Grams) Grams { return g * Grams(p.Proportion()) }

// PPM is milligrams of a substance in a kilogram of meat. Unless a name says
// otherwise the meat is green (raw, uncured) weight and the substance is sodium
// nitrite.
type PPM float64

// Of gives the mass of substance that many ppm of a meat weight comes to:
// milligrams in a kilogram (exact, by definition).
func (p PPM) Of(g Grams) Grams { return g * Grams(p) / 1e6 }

// Percent gives the same share in percent (10,000 ppm is 1 %, exact).
func (p PPM) Percent() Percent { return Percent(p / 10000) }

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// Fahrenheit is a temperature in degrees Fahrenheit. The published tables of
// this trade are printed in it, so their rows are kept in it.
type Fahrenheit float64

// Fahrenheit converts: °F = °C × 9/5 + 32 (exact).
func (c Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(c*9/5 + 32) }

// Celsius converts: °C = (°F − 32) × 5/9 (exact).
func (f Fahrenheit) Celsius() Celsius { return Celsius((f - 32) * 5 / 9) }

// Millimetres is a length in millimetres; thickness of a slab or a slice.
type Millimetres float64

// Inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const Inch Millimetres = 25.4

// Inches gives the length in inches.
func (m Millimetres) Inches() float64 { return float64(m / Inch) }

// Millilitres is a volume in millilitres.
type Millilitres float64

// US customary volumes, exact (1 US gal = 231 cubic inches; NIST Handbook 44,
// appendix C).
const (
	Teaspoon   Millilitres = 4.92892159375
	Tablespoon Millilitres = 14.78676478125
	FluidOunce Millilitres = 29.5735295625
	Cup        Millilitres = 236.5882365
	USGallon   Millilitres = 3785.411784
	Litre      Millilitres = 1000
)
