package bot

import (
	"fmt"
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

func (t *Turn) windowLine(w curemath.WindowCheck) string {
	u := t.units()
	span := fmt.Sprintf("%s to %s within %s", u.temp(w.Window.From), u.temp(w.Window.To), howLong(w.Window.Within))
	switch {
	case !w.End.IsZero():
		return span + ": took " + howLong(w.Took) + "."
	case !w.Start.IsZero() && w.Left > 0:
		return span + ": " + howLong(w.Left) + " left, until " + w.Deadline.In(t.Loc).Format("Mon 15:04") + "."
	case !w.Start.IsZero():
		return span + ": time is up since " + w.Deadline.In(t.Loc).Format("Mon 15:04") + "."
	}
	return ""
}

func verdictText(c curemath.Cooling) string {
	rule := "the rule “" + c.Rule.Name + "”"
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
