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

// line puts words and figures together in one buffer.
type line struct{ text []byte }

func newLine() line { return line{make([]byte, 0, 192)} }

func (l *line) say(s string) *line {
	l.text = append(l.text, s...)
	return l
}

func (l *line) figure(x float64, decimals int) *line {
	l.text = appendFigure(l.text, x, decimals)
	return l
}

func (l *line) grams(g Grams) *line   { return l.figure(float64(g), gramDecimals(g)).say(" g") }
func (l *line) ppm(p PPM) *line       { return l.figure(float64(p), 2).say(" ppm") }
func (l *line) share(p Percent) *line { return l.figure(float64(p), 3).say(" %") }

// proportion writes a share the way the handbook works with it, 6.25 % as
// 0.0625.
func (l *line) proportion(p Percent) *line {
	if p > -0.1 && p < 0.1 {
		return l.figure(p.Proportion(), 8)
	}
	return l.figure(p.Proportion(), 6)
}

// term writes a weight that is taken from another to the milligram, however large
// it is, and rest what is left, never finer than that: so a small rest of two
// large weights comes out for who redoes the sum.
func (l *line) term(g Grams) *line { return l.figure(float64(g), 3).say(" g") }

func (l *line) rest(g Grams) *line { return l.figure(float64(g), min(gramDecimals(g), 3)).say(" g") }

// fine writes a share as a proportion to its last place that moves a heavy
// piece's grams.
func (l *line) fine(p Percent) *line { return l.figure(p.Proportion(), 8) }

// ledger writes a trail into one buffer, so that a cure sum with a dozen steps
// costs a handful of allocations rather than a dozen formatted strings.
type ledger struct {
	line
	steps  []Step
	starts []int
}

func newLedger(steps int) ledger {
	return ledger{
		line:   line{make([]byte, 0, 96*steps)},
		steps:  make([]Step, 0, steps),
		starts: make([]int, 0, steps+1),
	}
}

// step starts the next step; what is then written is its working.
func (l *ledger) step(what string, source Source) *line {
	l.steps = append(l.steps, Step{What: what, Source: source})
	l.starts = append(l.starts, len(l.text))
	return &l.line
}

func (l *ledger) trail() Trail {
	all := string(l.text)
	l.starts = append(l.starts, len(all))
	for i := range l.steps {
		l.steps[i].Working = all[l.starts[i]:l.starts[i+1]]
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

// appendFigure writes x with at most that many decimals (eight or fewer) and no
// trailing zeros. Figures of ordinary size are written as a scaled integer,
// which is several times quicker than general formatting.
func appendFigure(b []byte, x float64, decimals int) []byte {
	scale := [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8}[decimals]
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

func figure(x float64, decimals int) string { return string(appendFigure(nil, x, decimals)) }
