package bot

import (
	"fmt"
	"slices"
	"strings"

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
	c, ok := s.CoolingOf(letter, t.Now)
	if !ok {
		return
	}
	for _, w := range c.Windows {
		if line := t.windowLine(w); line != "" {
			r.Say(line)
		}
	}
	r.Say(verdictText(c), " [", c.Rule.Source.String(), "].")
}

// coolingFailed says whether the readings show that a piece, or any of them, cooled
// too slowly.
func (t *Turn) coolingFailed(s course.State, letter string) bool {
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter {
			continue
		}
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok && c.Verdict == curemath.CoolingFailed {
			return true
		}
	}
	return false
}

// sayCoolings says it for several pieces, a line each.
func (t *Turn) sayCoolings(r *reply.Reply, s course.State, letters []string) {
	var rules []string
	for _, letter := range letters {
		cores := s.Cores(letter)
		c, ok := s.CoolingOf(letter, t.Now)
		if len(cores) == 0 || !ok {
			continue
		}
		last := cores[len(cores)-1]
		line := []any{reply.B(t.pieceName(s, letter)), ": core ", t.units().temp(last.Temp), " at ", last.At.In(t.Loc).Format("15:04"), "; "}
		if i, w, deadline, open := s.OpenWindow(letter); open && c.Verdict == curemath.CoolingRunning {
			line = append(line, fmt.Sprintf("%s to come under %s, until ", howLong(deadline.Sub(t.Now)), t.units().temp(w.To)), t.clock(deadline), ".")
			if i == 0 && c.Windows[0].Start.IsZero() {
				line[len(line)-1] = " at the earliest."
			}
		} else {
			line = append(line, lowerFirst(verdictShort(c)), ".")
		}
		r.Say(line...)
		if rule := "“" + c.Rule.Name + "” [" + c.Rule.Source.String() + "]"; !slices.Contains(rules, rule) {
			rules = append(rules, rule)
		}
	}
	if len(rules) > 0 {
		r.Say("By the rule ", strings.Join(rules, " and "), ".")
	}
}

func (t *Turn) windowLine(w curemath.WindowCheck) string {
	u := t.units()
	span := fmt.Sprintf("%s to %s within %s", u.temp(w.Window.From), u.temp(w.Window.To), howLong(w.Window.Within))
	switch {
	case !w.End.IsZero() && w.Took == 0:
		return span + ": it was under that at the first reading."
	case !w.End.IsZero():
		return span + ": took " + howLong(w.Took) + "."
	case !w.Start.IsZero() && w.Left > 0:
		return span + ": " + howLong(w.Left) + " left, until " + w.Deadline.In(t.Loc).Format("Mon 15:04") + "."
	case !w.Start.IsZero():
		return span + ": time is up since " + w.Deadline.In(t.Loc).Format("Mon 15:04") + "."
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
			notes = append(notes, "it hangs on what the core did between two readings")
		case curemath.CoolingRewarmed:
			notes = append(notes, "the core rose again meanwhile")
		case curemath.CoolingStartUnread:
			notes = append(notes, "the first reading came when it was already in a window")
		case curemath.CoolingKeepOn:
			notes = append(notes, "keep cooling")
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
	case curemath.CoolingOverdue:
		return "A window's time is up and no reading says how it went: read the core now, by " + rule + more
	case curemath.CoolingUnproven:
		return "These readings can't show that " + rule + " was met" + more
	}
	return "On time so far by " + rule + more
}
