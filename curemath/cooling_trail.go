package curemath

func (c Cooling) trail() Trail {
	l := newLedger(len(c.Windows) + 2)
	for _, w := range c.Windows {
		l.step("Core from "+figure(float64(w.Window.From), 0)+" to "+figure(float64(w.Window.To), 0)+" °F", c.Rule.Source)
		l.say("at most ").time(w.Window.Within).say("; ")
		if w.StartUnread {
			l.say("begun unread, at least ")
		}
		switch w.State {
		case WindowAhead:
			l.say("not begun")
		case WindowMet:
			l.say("took at most ").timeUp(w.Took).say(": met")
		case WindowUnshown:
			l.say("read after ").timeUp(w.Took).say(": not shown in time")
		case WindowWarmAgain:
			l.say("met, and warm again since")
		case WindowFailed:
			l.say("took ").timeUp(w.Took).say(" or more: missed")
		case WindowOverdue:
			l.timeUp(w.Took).say(" at the last reading, time is up: not known")
		default:
			l.timeUp(w.Took).say(" at the last reading, ").time(w.Left).say(" left")
		}
	}
	if c.Chill != ChillNotAsked {
		l.step("Chilling begun after the heat", c.Rule.Source).say("at most ").time(c.Rule.StartWithin).say("; ")
		switch c.Chill {
		case ChillMet:
			l.say("met")
		case ChillLate:
			l.say("missed")
		case ChillDue:
			l.time(c.ChillLeft).say(" left")
		default:
			l.say("when the heat ended is not noted")
		}
	}
	if c.Rule.NeedsIngoing > 0 {
		l.step("Counts as cured from", c.Rule.NeedsSource).ppm(c.Rule.NeedsIngoing).say(" ingoing")
	}
	return l.trail()
}
