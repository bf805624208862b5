package curemath

import (
	"math"
	"strconv"
	"strings"
)

// Step is one line of arithmetic, as a person could redo it on paper.
type Step struct {
	// What is being worked out: "Curing mix".
	What string
	// Working is the sum in figures:
	// "2267.96 g × 120 ÷ 1,000,000 ÷ 0.0625 = 4.354 g".
	Working string
	// Source is where the formula or the figure comes from.
	Source Source
}

// Trail is every step of a result, in order.
type Trail []Step

// String prints the trail, one numbered step a line with its source below.
func (t Trail) String() string {
	var b strings.Builder
	for i, s := range t {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(strconv.Itoa(i + 1))
		b.WriteString(". ")
		b.WriteString(s.What)
		b.WriteString(": ")
		b.WriteString(s.Working)
		b.WriteString(" [")
		b.WriteString(s.Source.String())
		b.WriteByte(']')
	}
	return b.String()
}

// ledger writes a trail into one buffer, so that a cure sum with a dozen steps
// costs a handful of allocations rather than a dozen formatted strings.
type ledger struct {
	text  []byte
	steps []Step
	ends  []int
}

func newLedger(steps int) ledger {
	return ledger{
		text:  make([]byte, 0, 96*steps),
		steps: make([]Step, 0, steps),
		ends:  make([]int, 0, steps),
	}
}

// step starts the next line; the writers below fill its working.
func (l *ledger) step(what string, source Source) *ledger {
	l.steps = append(l.steps, Step{What: what, Source: source})
	l.ends = append(l.ends, len(l.text))
	return l
}

func (l *ledger) say(s string) *ledger {
	l.text = append(l.text, s...)
	if n := len(l.ends); n > 0 {
		l.ends[n-1] = len(l.text)
	}
	return l
}

func (l *ledger) figure(x float64, decimals int) *ledger {
	l.text = appendFigure(l.text, x, decimals)
	return l.say("")
}

func (l *ledger) grams(g Grams) *ledger { return l.figure(float64(g), gramDecimals(g)).say(" g") }
func (l *ledger) ppm(p PPM) *ledger     { return l.figure(float64(p), 2).say(" ppm") }
func (l *ledger) share(p Percent) *ledger {
	return l.figure(float64(p), 3).say(" %")
}
func (l *ledger) proportion(p Percent) *ledger { return l.figure(p.Proportion(), 6) }

func (l *ledger) trail() Trail {
	all := string(l.text)
	from := 0
	for i, end := range l.ends {
		l.steps[i].Working = all[from:end]
		from = end
	}
	return l.steps
}

func gramDecimals(g Grams) int {
	switch {
	case g < 0:
		return gramDecimals(-g)
	case g < 1:
		return 4
	case g < 100:
		return 3
	default:
		return 2
	}
}

// appendFigure writes x with at most that many decimals (six or fewer) and no
// trailing zeros. Figures of ordinary size are written as a scaled integer,
// which is several times quicker than general formatting.
func appendFigure(b []byte, x float64, decimals int) []byte {
	scale := powersOfTen[decimals]
	scaled := math.Round(x * scale)
	if !(math.Abs(scaled) < 1<<53) {
		return strconv.AppendFloat(b, x, 'f', decimals, 64)
	}
	n := int64(scaled)
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	whole, part := n/int64(scale), n%int64(scale)
	b = strconv.AppendInt(b, whole, 10)
	if part == 0 {
		return b
	}
	b = append(b, '.')
	for d := int64(scale) / 10; part > 0; d /= 10 {
		b = append(b, byte('0'+part/d))
		part %= d
	}
	return b
}

// powersOfTen is a fixed table; an array indexed past its end would panic, so
// no figure here asks for more than six decimals.
var powersOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6}

func figure(x float64, decimals int) string { return string(appendFigure(nil, x, decimals)) }
