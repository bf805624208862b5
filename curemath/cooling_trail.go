package curemath

// missed says by what a window counts as missed, and no more than the readings show.
func (w WindowCheck) missed(l *ledger) {
	switch {
	case w.Spells > 0:
		l.say("with the time it was warm again counted as ").timeUp(w.Took).say(": missed")
	case !w.End.IsZero() && w.Took <= w.Window.Within:
		l.say("took at most ").timeUp(w.Took).say(", and was back over it after: missed")
	case w.End.IsZero():
		l.say("not there after ").timeUp(w.Took).say(w.countedFrom()).say(": missed")
	case w.Sure:
		l.say("took at most ").timeUp(w.Took).say(" and, however it fell between the readings, more than ").time(w.Window.Within).say(": missed")
	case w.ByLine:
		l.say("took at most ").timeUp(w.Took).say("; even the straight line between the readings is too slow, and no reading shows that it came earlier: counted as missed")
	default:
		l.say("took at most ").timeUp(w.Took).say(", and was read over it too late").say(w.countedFrom()).say(": counted as missed")
	}
}

// countedFrom says what the time of a window counts from.
func (w WindowCheck) countedFrom() string {
	if w.StartUnread {
		return ", counted from the first reading, which came too late"
	}
	if w.Sure {
		return ""
	}
	return ", counted from the last reading over its start because none shows that it came there later"
}

func (c Cooling) trail() Trail {
	l := newLedger(len(c.Windows) + 2)
	for _, w := range c.Windows {
		l.step("Core from "+figure(float64(w.Window.From), 0)+" to "+figure(float64(w.Window.To), 0)+" °F", c.Rule.Source)
		l.say("at most ").time(w.Window.Within).say("; ")
		if w.StartUnread && w.State != WindowFailed {
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
			w.missed(&l)
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
