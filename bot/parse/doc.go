// Package parse turns what a person types into values with units, or into one
// Problem that says what could not be read, why, what was understood and a line
// that works. Nothing is guessed: whatever can be read two ways is asked about.
//
// The package is pure. Time and the conversation's zone come in with now. Every
// function takes any string at all, works in time that grows with its length
// and does not panic.
//
// How numbers are read, everywhere in the package:
//
//   - a point or a comma may be the decimal sign: 2.27 kg, 2,27 kg;
//   - a comma before exactly three digits is thousands in grams (2,268 g); in
//     every other unit it could be either, and is asked about. So is a point
//     before exactly three digits in grams (2.268 g). A leading zero settles it
//     (0,250 kg is a quarter of a kilogram);
//   - groups of three may be set apart with a no-break or thin space or an
//     apostrophe (2 268 g, 2'268 g), and both signs together are clear
//     (2,268.5 g and 2.268,5 g);
//   - fractions: ½, 4½, 4 ½, 1/2, 4 1/2, 4-1/2;
//   - digits of any script and width count, superscripts and exponents do not.
package parse
