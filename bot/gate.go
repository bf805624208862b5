package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
)

var early = regexp.MustCompile(`(?i)^early\b[\s,:;-]*`)

// gate refuses what is plainly dangerous to record, for each piece it would be
// recorded of, with what has to come first. A step can still be done early or
// passed over with a reason; these are the ones that keep people from being hurt.
func (t *Turn) gate(step course.Step, s course.State, letter string, at time.Time, text string) error {
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter {
			continue
		}
		if err := t.gatePiece(step, s, p, fmt.Sprintf("%d%s", s.Number, letter), at, text); err != nil {
			return err
		}
	}
	return nil
}

func (t *Turn) gatePiece(step course.Step, s course.State, p course.PieceState, of string, at time.Time, text string) error {
	n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, p.Letter))
	who := t.pieceName(s, p.Letter)
	switch {
	case step == course.Smoking && !curemath.Cured(p.Ingoing) && !p.Has(course.Smoking):
		return t.gateWeak(s, p, n)
	case step == course.Firm:
		return t.gateFirm(s, p, at, early.ReplaceAllString(text, ""), early.MatchString(text), "firm "+of+" early, thin end piece")
	case !p.Has(course.Firm):
		why := who + " has no cure check yet, so nobody knows that the middle is cured."
		if step == course.Smoking {
			why = who + " has no cure check yet. " + warmUncured
		}
		if t.gateFirm(s, p, at, "", false, "") != nil { // nor is there to be one yet
			return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s It is on %s; its cure check is on %s.", why, dayOf(s, p.Letter, at, t.Loc), dateText(s.CheckDateOf(p.Letter, t.Loc))), Example: fmt.Sprintf("batch %d", s.Number)}
		}
		return &Error{Kind: Dangerous, Why: why, Example: "firm " + n}
	case p.Past(step):
		return &Error{Kind: NotNow, Why: fmt.Sprintf("%s is past that: %s. If that was a mistake, take it back first.", who, t.standing(s)), Example: fmt.Sprintf("undo %d", s.Number)}
	}
	switch step {
	case course.Smoked:
		if !p.Has(course.Smoking) {
			return &Error{Kind: NotNow, Why: who + " never went into the smoke.", Example: "smoke " + n}
		}
	case course.Cooled, course.Chilled, course.Sliced, course.Packed:
		return t.gateCold(step, s, p, at, n, who)
	}
	return nil
}

// gateFirm holds the end of a piece's cure to its own days: before its check date it
// takes the word early and a reason, and in the first half of what its rule asks for it
// is refused.
func (t *Turn) gateFirm(s course.State, p course.PieceState, at time.Time, reason string, saidEarly bool, example string) error {
	if s.RubsDone < len(s.Plan.Rubs) {
		return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s has had %d of its %s, so part of the cure is still in the jar.", name(s), s.RubsDone, count(len(s.Plan.Rubs), "rub")), Example: fmt.Sprintf("rub %d", s.Number)}
	}
	left := s.CheckDateOf(p.Letter, t.Loc).DaysSince(plan.DateOf(at, t.Loc))
	who, on := t.pieceName(s, p.Letter), dayOf(s, p.Letter, at, t.Loc)
	switch {
	case left <= 0:
		return nil
	case (s.DaysOf(p.Letter)-left)*2 < s.RuleDays(p):
		return &Error{Kind: Dangerous, Why: fmt.Sprintf("%s is only on %s. No cure is through in so short a time; the middle would be raw, uncured meat.", who, on), Example: fmt.Sprintf("batch %d", s.Number)}
	case !saidEarly || strings.TrimSpace(reason) == "":
		return &Error{Kind: NotNow,
			Why:     fmt.Sprintf("%s is on %s: %s short of %s. Cure that has not reached the middle leaves raw, uncured meat there. If it is firm all through and you mean it, say early and why.", who, on, count(left, "day"), askedOf(s, p)),
			Example: example}
	}
	return nil
}

// askedOf says by what a piece has the days it has: the day rule, its keeper's wish, or
// either with days added by hand.
func askedOf(s course.State, p course.PieceState) string {
	rule, added := s.RuleDays(p), s.DaysOf(p.Letter)-s.RuleDays(p)
	by := "by the day rule"
	if s.Plan.Wanted > 0 && rule == s.Plan.Wanted {
		by = "asked for"
	}
	switch {
	case added > 0:
		return fmt.Sprintf("its %s (%d %s, %d added)", count(rule+added, "day"), rule, by, added)
	case by == "asked for":
		return fmt.Sprintf("the %s asked for", count(rule, "day"))
	}
	return "what the day rule asks for"
}

// gateCore holds the core told with a step to the readings before it. It is asked
// about as a reading would be, so it has to be told as one first.
func (t *Turn) gateCore(step course.Step, s course.State, letters []string, core curemath.Fahrenheit, at time.Time) error {
	for _, letter := range letters {
		r := parse.Reading{Piece: letter, Core: &core, At: at}
		if step == course.Smoked && !t.farFromLast(s, r) {
			continue
		}
		if why := t.oddCore(s, r); why != "" {
			n := fmt.Sprintf("%d%s", s.Number, letterOnly(s, letter))
			return &Error{Kind: NotNow, Why: why + " Nothing was noted; tell me the core by itself first.", Example: "core " + n + " " + t.plainTemp(core)}
		}
	}
	return nil
}

// gateSkip refuses to pass over what keeps people from being hurt before its time:
// the cure check in the first half of the cure, and the cooling before the smoke.
func (t *Turn) gateSkip(step course.Step, s course.State, letter, why string) error {
	switch step {
	case course.Firm:
		for _, p := range s.Pieces {
			if letter != "" && letter != p.Letter || p.Has(course.Firm) {
				continue
			}
			if err := t.gateFirm(s, p, t.Now, why, true, ""); err != nil {
				return err
			}
		}
	case course.Cooled:
		for _, p := range s.Pieces {
			if (letter == "" || letter == p.Letter) && !p.Has(course.Smoked) {
				return &Error{Kind: NotNow, Why: t.pieceName(s, p.Letter) + " is not out of the smoke, so its cooling can't be passed over yet.", Example: fmt.Sprintf("batch %d", s.Number)}
			}
		}
	}
	return nil
}

// soonestCooled is how soon after the smoke nobody's slab is cold: our own choice,
// common practice, no source.
const soonestCooled = 45 * time.Minute

// coldEnough is the core a piece is packed under: the cold end of the last cooling
// window and a little over it for the thermometer (our own choice, no source).
const coldEnough curemath.Fahrenheit = 50

// gateCold holds the steps after the smoke to what the readings say of it.
func (t *Turn) gateCold(step course.Step, s course.State, p course.PieceState, at time.Time, n, who string) error {
	if !p.Has(course.Smoking) {
		return &Error{Kind: NotNow, Why: who + " was not smoked. If it is to stay unsmoked, say so first; smoking can be passed over with a reason.", Example: "skip " + n + " smoke, unsmoked on purpose"}
	}
	smoked, in := p.Marks[course.Smoking], p.Marks[course.Smoked]
	if smoked.Skipped {
		return nil
	}
	if !p.Has(course.Smoked) {
		return &Error{Kind: NotNow, Why: who + " is still in the smoke.", Example: "smoked " + n + " core " + t.plainTemp(s.Target())}
	}
	if l, ok := t.lossOf(s, p); ok {
		return lostError(who, n, l)
	}
	c, read := s.CoolingOf(p.Letter, t.Now) // a step told of an earlier time knows what was read since
	if read && c.Verdict == curemath.CoolingWarmAgain {
		return t.warmAgain(s, p, c, n)
	}
	if err := t.gateWaiting(s, p, n); err != nil {
		return err
	}
	if step == course.Cooled {
		if cores := course.Since(s.Cores(p.Letter), in.At.Add(time.Second)); len(cores) == 0 && at.Sub(in.At) < soonestCooled {
			return &Error{Kind: NotNow, Why: fmt.Sprintf("%s came out of the smoke less than an hour ago; a slab takes hours to cool. What does the core read?", who), Example: fmt.Sprintf("core %s %s", n, t.plainTemp(118))}
		}
		return nil
	}
	if cores := course.Since(s.Cores(p.Letter), in.At.Add(time.Second)); step == course.Packed && read && c.Verdict != curemath.CoolingPassed && len(cores) > 0 && cores[len(cores)-1].Temp > coldEnough && !coldSince(p, cores[len(cores)-1].At) {
		return &Error{Kind: Dangerous, Why: fmt.Sprintf("The last core reading of %s is %s. Pack it cold; and one reading in the cold shows whether it cooled in time.", who, t.units().temp(cores[len(cores)-1].Temp)), Example: fmt.Sprintf("core %s %s", n, t.plainTemp(41))}
	}
	if !p.Has(course.Cooled) {
		return &Error{Kind: NotNow, Why: who + " is not noted as cooled, and slow cooling is where spores wake up.", Example: "cooled " + n}
	}
	return nil
}

// coldSince says whether the word that a piece is cold was taken of a time after a core
// that was not: without a probe there is nothing else to go on, and the label says so.
func coldSince(p course.PieceState, core time.Time) bool {
	m, ok := p.Marks[course.Cooled]
	return ok && !m.Skipped && m.Body.Text == coldInTime && m.At.After(core)
}

// sayCooled says whether the readings show that the cooling met its rule.
func (t *Turn) sayCooled(r *reply.Reply, s course.State, letter string) {
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter || p.Marks[course.Smoking].Skipped {
			continue
		}
		c, read := s.CoolingOf(p.Letter, t.Now)
		switch {
		case !read:
		case c.Verdict == curemath.CoolingRunning:
			r.Say(letterFor(s, p.Letter), "Your readings end before the last window did, so they can't show that it cooled in time. One more, cold, would.")
		case c.Verdict != curemath.CoolingPassed:
			r.Say(letterFor(s, p.Letter), verdictText(c), " [", c.Rule.Source.String(), "].")
		}
	}
	t.sayUnshown(r, s, []string{letter})
}

func letterFor(s course.State, letter string) string {
	if len(s.Pieces) == 1 {
		return ""
	}
	return letter + ": "
}
