package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// sayCooling says how the cooling of a piece stands: the last reading, each
// window, and the verdict with the rule's name.
func (t *Turn) sayCooling(r *reply.Reply, s course.State, letter string) {
	cores := s.Cores(letter)
	if len(cores) == 0 {
		return
	}
	u := t.units()
	last := cores[len(cores)-1]
	r.Say(reply.B(t.pieceName(s, letter)), ": core ", u.temp(last.Temp), " at ", last.At.In(t.Loc).Format("15:04"), ", cooling.")
	p, _ := s.Find(letter)
	if l, ok := t.lossOfCure(s, p); ok { // however it cools
		r.Say(l.said, ".")
		return
	}
	c, ok := s.CoolingOf(letter, t.Now)
	if !ok {
		return
	}
	for _, w := range c.Windows {
		if line := t.windowLine(w); line != "" {
			r.Say(line)
		}
		if w.State == curemath.WindowOverdue { // the next can only be later
			break
		}
	}
	r.Say(verdictText(c), " [", c.Rule.Source.String(), "].")
	if c.Verdict == curemath.CoolingWarmAgain {
		r.Say(coolNow)
	}
	if c.Verdict == curemath.CoolingFailed {
		r.Say("No reading told later undoes that. Was one wrong? Strike it out by its time, such as ", reply.Type(fmt.Sprintf("strike %d%s %s", s.Number, letterOnly(s, letter), last.At.In(t.Loc).Format("15:04"))), ".")
	}
}

// coolNow is what to do about a core that is warm again.
const coolNow = "Cool it at once: fridge, a fan, or ice round a sealed bag, and read it again. Does nobody know how long it was warm? Throw it away."

// sayCoolings says it for several pieces, a line each.
func (t *Turn) sayCoolings(r *reply.Reply, s course.State, letters []string) {
	var rules []string
	var lines [][]any
	warm := false
	for _, letter := range letters {
		cores := s.Cores(letter)
		c, ok := s.CoolingOf(letter, t.Now)
		if len(cores) == 0 || !ok {
			continue
		}
		p, _ := s.Find(letter)
		if l, ok := t.lossOfCure(s, p); ok {
			r.Say(reply.B(t.pieceName(s, letter)), ": ", l.said, ".")
			continue
		}
		warm = warm || c.Verdict == curemath.CoolingWarmAgain
		last := cores[len(cores)-1]
		line := []any{reply.B(t.pieceName(s, letter)), ": core ", t.units().temp(last.Temp), " at ", last.At.In(t.Loc).Format("15:04"), "; "}
		i, w, deadline, open := s.OpenWindow(letter)
		open = open && deadline.After(t.Now)
		if c.Verdict != curemath.CoolingRunning || !open {
			line = append(line, lowerFirst(verdictShort(c)), ".")
		}
		if open && (c.Verdict == curemath.CoolingRunning || c.Verdict == curemath.CoolingUnproven || c.Verdict == curemath.CoolingWarmAgain) {
			if c.Verdict != curemath.CoolingRunning {
				line = append(line, " ")
			}
			line = append(line, fmt.Sprintf("%s to come under %s, until ", howLong(deadline.Sub(t.Now)), t.units().temp(w.To)), t.clock(deadline), ".")
			if c.Windows[i].Start.IsZero() {
				line[len(line)-1] = " at the earliest."
			}
		}
		lines = append(lines, line)
		if rule := "“" + c.Rule.Name + "” [" + c.Rule.Source.String() + "]"; !slices.Contains(rules, rule) {
			rules = append(rules, rule)
		}
	}
	sayPieces(r, lines)
	if len(rules) > 0 {
		r.Say("By the rule ", strings.Join(rules, " and "), ".")
	}
	if warm {
		r.Say(coolNow)
	}
}

// windowLine says how one window stands, and from when it is counted.
func (t *Turn) windowLine(w curemath.WindowCheck) string {
	u := t.units()
	hour := func(at time.Time) string { return at.In(t.Loc).Format("Mon 15:04") }
	span := fmt.Sprintf("%s to %s within %s", u.temp(w.Window.From), u.temp(w.Window.To), howLong(w.Window.Within))
	counted := ", counted from " + w.Start.In(t.Loc).Format("15:04")
	switch {
	case w.State == curemath.WindowWarmAgain && w.Left > 0:
		return fmt.Sprintf("Over %s again since %s; last read cold at %s. %s left of its time, until %s.", u.temp(w.Window.To), hour(w.Warm), hour(w.Start), howLong(w.Left), hour(w.Deadline))
	case w.State == curemath.WindowWarmAgain:
		return fmt.Sprintf("Over %s again since %s; last read cold at %s, and none of its time is left.", u.temp(w.Window.To), hour(w.Warm), hour(w.Start))
	case !w.End.IsZero() && w.Took == 0:
		return span + ": it was under that at the first reading."
	case !w.End.IsZero() && w.State == curemath.WindowFailed && w.Took <= w.Window.Within:
		return span + ": took at most " + howLong(w.Took) + ", and was back over it after."
	case !w.End.IsZero() && w.State != curemath.WindowMet:
		return span + ": first read under it after " + howLong(w.Took) + counted + "."
	case !w.End.IsZero():
		return span + ": took at most " + howLong(w.Took) + "."
	case !w.Start.IsZero() && w.Left > 0:
		return span + ": " + howLong(w.Left) + " left, until " + hour(w.Deadline) + counted + "."
	case !w.Start.IsZero():
		return span + ": time is up since " + hour(w.Deadline) + counted + "."
	case w.State == curemath.WindowOverdue:
		return span + ": the time may be up since " + hour(w.Deadline) + "; it was last read above that."
	}
	return ""
}

func verdictText(c curemath.Cooling) string { return verdictBy(c, "the rule “"+c.Rule.Name+"”") }

// verdictShort leaves the rule's name to the line below.
func verdictShort(c curemath.Cooling) string { return verdictBy(c, "its rule") }

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func verdictBy(c curemath.Cooling, rule string) string {
	var notes []string
	for _, m := range c.Remarks {
		switch m {
		case curemath.CoolingBetweenReadings:
			if slices.ContainsFunc(c.Windows, func(w curemath.WindowCheck) bool { return w.ByLine && !w.Sure }) {
				notes = append(notes, "even the straight line between its readings is too slow, and none shows that it came down earlier")
				break
			}
			notes = append(notes, "counted from the last reading above its start; none shows that it came later")
		case curemath.CoolingReadLate:
			notes = append(notes, "no reading in time")
		case curemath.CoolingRewarmed:
			notes = append(notes, "the core rose again meanwhile")
		case curemath.CoolingStartUnread:
			notes = append(notes, "the first reading came when it was already in a window")
		case curemath.CoolingKeepOn:
			notes = append(notes, "keep cooling")
		case curemath.CoolingBackOver:
			notes = append(notes, "back over a temperature it had come under")
		}
	}
	more := ""
	if len(notes) > 0 {
		more = " (" + strings.Join(notes, "; ") + ")"
	}
	switch c.Verdict {
	case curemath.CoolingPassed:
		return "Cooling met " + rule + more
	case curemath.CoolingFailed:
		return "Cooling FAILED " + rule + more + ": spores may have grown, and cooking again does not undo their poison. Throw it away"
	case curemath.CoolingWarmAgain:
		return "Warm again: it had come through " + rule + ", which holds only while it stays cold"
	case curemath.CoolingOverdue:
		return "A window's time is up and no reading says how it went: read the core now, by " + rule + more
	case curemath.CoolingUnproven:
		return "Not shown to have met " + rule + more
	}
	return "On time so far by " + rule + more
}
