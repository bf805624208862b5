package parse

import (
	"time"
)

const durationExample = "2h, 45 min or 1d"

// longestSpan is the most a duration may be.
const longestSpan = 10 * 366 * 24 * time.Hour

// Duration reads a text that is one length of time, above 0. A day is 24 hours
// here; ClockTime counts days by the calendar. Errors are *Problem.
func Duration(s string) (time.Duration, error) {
	l, p := open(s, durationExample)
	if p != nil {
		return 0, p
	}
	d, next, p := l.durationAt(0)
	if p == nil && next < len(l.toks) {
		p = l.leftover(next, d.String(), durationExample)
	}
	if p != nil {
		return 0, p
	}
	return d, nil
}

// durationAt reads hours, minutes and so on in falling order from token i.
func (l line) durationAt(i int) (time.Duration, int, *Problem) {
	total, last := 0.0, 0.0
	end := i
	for {
		k := end
		if last != 0 && (l.at(k).is("and") || l.at(k).is(",")) {
			k++
		}
		q, ok := l.quantityAt(k)
		if ok && q.unit.dim == noDimension && last == 3600 && q.num.whole && !q.negative && q.num.value < 60 {
			q.unit = unit{span, 60, "min"} // 1 h 30
		}
		if !ok || q.unit.dim != span || last != 0 && q.unit.factor >= last {
			if last == 0 {
				return 0, i, l.notDuration(i, q, ok)
			}
			break
		}
		if p := l.spanProblem(q); p != nil {
			return 0, q.to, p
		}
		total += q.amount()
		last, end = q.unit.factor, q.to
	}
	switch {
	case total == 0:
		return 0, end, &Problem{Kind: Zero, Said: l.said(i, end), Why: "that is no time at all", Example: durationExample}
	case total > longestSpan.Seconds():
		return 0, end, &Problem{Kind: TooBig, Said: l.said(i, end), Why: "that is longer than ten years", Example: durationExample}
	}
	d := time.Duration(total * float64(time.Second)).Round(time.Millisecond)
	return max(d, time.Millisecond), end, nil
}

func (l line) spanProblem(q quantity) *Problem {
	if p := l.doubt(q, durationExample); p != nil {
		return p
	}
	if q.negative {
		return &Problem{Kind: Negative, Said: l.said(q.from, q.to), Why: "a length of time can't be below zero", Example: durationExample}
	}
	return nil
}

func (l line) notDuration(i int, q quantity, number bool) *Problem {
	p := &Problem{Kind: NotADuration, Said: l.said(i, len(l.toks)), Why: "I see no length of time there", Example: durationExample}
	switch {
	case !number:
		if l.at(i).is("-") {
			p.Kind, p.Why = Negative, "a length of time can't be below zero"
		}
	case q.num.fault != "":
		p.Kind, p.Why = NotANumber, q.num.fault
	case q.unit.dim == noDimension && q.to >= len(l.toks):
		n := plain(q.num.value)
		p.Kind, p.Why, p.Example = NoUnit, "is that hours, minutes or days?", n+"h, "+n+" min or "+n+"d"
	case q.unit.dim == noDimension && l.at(q.to).kind == word:
		p.Kind, p.Why = UnknownUnit, "I know min, h, d and weeks"
	}
	return p
}
