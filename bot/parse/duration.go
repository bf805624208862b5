package parse

import (
	"math"
	"time"
)

const durationExample = "1 h 30"

// longestSpan is the most a duration may be.
const longestSpan = 10 * 366 * 24 * time.Hour

// Duration reads a text that is one length of time, above 0, at most ten years.
// A day is 24 hours here; ClockTime counts days by the calendar. Errors are
// *Problem.
func Duration(s string) (time.Duration, error) {
	l, p := open(s, durationExample)
	if p != nil {
		return 0, p
	}
	sp, next, p := l.spanAt(0)
	if p == nil && next < len(l.toks) {
		p = l.leftover(next, sp.total().String(), durationExample)
	}
	if p != nil {
		return 0, p
	}
	return sp.total(), nil
}

// lapse is a length of time in whole days and the rest.
type lapse struct {
	days int
	rest time.Duration
}

func (s lapse) total() time.Duration { return time.Duration(s.days)*24*time.Hour + s.rest }

// spanAt reads weeks, days, hours and so on, in falling order, from token i.
func (l line) spanAt(i int) (lapse, int, *Problem) {
	var s lapse
	last, end := 0.0, i
	for {
		k := end
		if last != 0 && (l.at(k).is("and") || l.at(k).is(",")) {
			k++
		}
		q, ok := l.quantityAt(k)
		if ok && q.unit.dim == noDimension && last == time.Hour.Seconds() && k == end && q.num.whole && !q.negative && q.num.value < 60 {
			q.unit = unit{span, time.Minute.Seconds(), "min"} // 1 h 30
		}
		if !ok || q.unit.dim != span || last != 0 && q.unit.factor >= last {
			if last == 0 {
				return lapse{}, i, l.notDuration(i, q, ok)
			}
			break
		}
		if p := l.spanProblem(q); p != nil {
			return lapse{}, q.to, p
		}
		s = s.plus(q)
		last, end = q.unit.factor, q.to
	}
	if s.total() == 0 {
		return s, end, &Problem{Kind: Zero, Said: l.said(i, end), Why: "that is no time at all", Example: durationExample}
	}
	return s, end, nil
}

// plus adds a quantity that spanProblem has passed.
func (s lapse) plus(q quantity) lapse {
	const day = 24 * 60 * 60
	sec := q.amount()
	if q.unit.factor >= day && math.Mod(sec, day) == 0 {
		s.days += int(sec / day)
		return s
	}
	s.rest += time.Duration(math.Round(sec*1000)) * time.Millisecond
	return s
}

func (l line) spanProblem(q quantity) *Problem {
	p := &Problem{Said: l.said(q.from, q.to), Example: durationExample}
	if bad := l.doubt(q, durationExample); bad != nil {
		return bad
	}
	switch {
	case q.negative:
		p.Kind, p.Why = Negative, "a length of time can't be below zero"
	case q.amount() > longestSpan.Seconds()/6: // so that six units in a row stay below it
		p.Kind, p.Why = TooBig, "that is longer than I plan ahead"
	default:
		return nil
	}
	return p
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
		p.Kind, p.Why, p.Example = NoUnit, "is that hours, minutes or days?", suggest(q.num.value, "h", 1000, durationExample)
	case q.unit.dim == noDimension && l.at(q.to).kind == word:
		p.Kind, p.Why = UnknownUnit, "I know min, h, d and weeks"
	}
	return p
}
