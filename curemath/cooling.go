package curemath

import "time"

// CoolingVerdict is what a rule says of the readings.
type CoolingVerdict int

const (
	// CoolingRunning: nothing missed, not done yet.
	CoolingRunning CoolingVerdict = iota + 1
	// CoolingPassed: every window met.
	CoolingPassed
	// CoolingFailed: a window was missed. The product is not safe by this rule.
	CoolingFailed
	// CoolingOverdue: a window's time is up and no reading says how it went; read
	// the core now.
	CoolingOverdue
	// CoolingUnproven: the readings began too late, none came in time, or the start
	// of chilling was not noted, so the rule cannot be shown to be met.
	CoolingUnproven
	// CoolingWarmAgain: it had come through the last window and is over its end
	// again; cool it at once.
	CoolingWarmAgain
)

// ChillStart is how the start of chilling stands, where a rule asks for one.
type ChillStart int

const (
	// ChillNotAsked: the rule sets no time for it.
	ChillNotAsked ChillStart = iota
	// ChillUnknown: when the heat ended was not noted.
	ChillUnknown
	// ChillDue: not begun yet, still in time.
	ChillDue
	// ChillMet: begun in time.
	ChillMet
	// ChillLate: begun too late, or not begun and too late now.
	ChillLate
)

// CoolingRemark is something a reader of the verdict has to know.
type CoolingRemark int

const (
	// CoolingStartUnread: the first reading was already inside or below a window.
	CoolingStartUnread CoolingRemark = iota + 1
	// CoolingRewarmed: the core rose by more than 3 °F while it should have cooled.
	CoolingRewarmed
	// CoolingBetweenReadings: a window was missed as it is counted, from the last
	// reading at or above its start, but hangs on what the core did between two
	// readings; more of them would have settled it.
	CoolingBetweenReadings
	// CoolingReadLate: the core came to the end of a window, but the first reading
	// there came when the time was up.
	CoolingReadLate
	// CoolingKeepOn: the windows are met, but the core is not yet as cold as the
	// rule wants it in the end.
	CoolingKeepOn
	// CoolingBackOver: it failed because the core was back over the end of a window
	// before the last, which it had come through.
	CoolingBackOver
)

const rewarming Fahrenheit = 3 // more than a thermometer wanders (common practice, no source)

// CoolingRun is one piece cooling.
type CoolingRun struct {
	// Readings are in order of time, each time once; those of the smoke before it
	// may be among them and help to place the start.
	Readings []CoreReading
	// HeatOff is when the heat ended. If it is zero, cooling is counted from the
	// warmest reading.
	HeatOff time.Time
	// ChillStarted is when the piece went into the cold; zero while it has not.
	ChillStarted time.Time
	// Now is the time the answer is for. Readings after it are not looked at.
	Now time.Time
}

// Cooling is a run held to one rule.
type Cooling struct {
	Rule      CoolingRule
	Verdict   CoolingVerdict
	Windows   []WindowCheck
	Chill     ChillStart
	ChillLeft time.Duration // with ChillDue, from now
	Remarks   []CoolingRemark
	Trail     Trail
	back      bool // failed by being back over the end of a window
}

// CheckCooling holds a run to a rule, on the cautious side (our own choice, common
// practice, no source): a window's time counts from the last reading at or above its
// start, or from the end of the heat if that was later, never from where a line
// drawn between two readings would put it; and it is met only by a reading at or
// under its end in that time. A reading still above the end after it is a failure,
// also where only such counting makes it one. A first reading under the end that
// comes too late leaves the rule unproven, or failed if even the straight line from a
// reading in the window is too slow. With HeatOff set, a failure is not undone by any
// later reading.
//
// Warm again (our own choice, common practice, no source; the rules say nothing of
// it): a core read more than 3 °F over the end of a window it had come down through is
// back in the danger zone and fails the rule, unless that was the last window. Over
// the end of the last one it is CoolingWarmAgain until it is read at or under it, and
// the window's time goes on being spent: if what it took and the time between warm
// readings come to all of it, the rule is missed; if they could only by what nobody
// read, the rule is not shown to be met.
//
// Errors are ReadingError values. The rule carries its source.
func CheckCooling(rule CoolingRule, run CoolingRun) (Cooling, error) {
	if err := checkCore(run.Readings); err != nil {
		return Cooling{}, err
	}
	seen := coreUntil(run.Readings, run.Now)
	if len(seen) == 0 {
		return Cooling{}, ReadingError{Kind: ReadingsNone}
	}
	first := coolingFrom(seen, run.HeatOff)
	risen := first > 0 && seen[first-1].Temp < seen[first].Temp
	cooled := seen[first:]

	c := Cooling{Rule: rule}
	for _, w := range rule.Windows {
		c.Windows = append(c.Windows, checkWindow(w, cooled, run.HeatOff, run.Now, risen))
	}
	c.holdCold(cooled, run.Now)
	c.Chill, c.ChillLeft = checkChill(rule, run)
	c.Verdict = c.verdict()
	c.Remarks = c.remarks(cooled)
	c.Trail = c.trail()
	return c, nil
}

// holdCold holds a core that has been cold to staying so.
func (c *Cooling) holdCold(cooled []CoreReading, now time.Time) {
	last := len(c.Windows) - 1
	for i := range c.Windows[:last] {
		if w := &c.Windows[i]; backOver(cooled, w.Window.To) {
			w.State, w.Sure, w.Left = WindowFailed, true, 0
			c.back = true
		}
	}
	c.Windows[last].warmAgain(cooled, now)
}

// coolingFrom is the reading from which the core can have cooled: the last one
// at or before the end of the heat, or the last of the warmest if that is not
// known.
func coolingFrom(rs []CoreReading, heatOff time.Time) int {
	best := 0
	for i, r := range rs {
		if heatOff.IsZero() {
			if r.Temp >= rs[best].Temp {
				best = i
			}
		} else if !r.At.After(heatOff) {
			best = i
		}
	}
	return best
}

func checkChill(rule CoolingRule, run CoolingRun) (ChillStart, time.Duration) {
	if rule.StartWithin == 0 {
		return ChillNotAsked, 0
	}
	if run.HeatOff.IsZero() {
		return ChillUnknown, 0
	}
	due := run.HeatOff.Add(rule.StartWithin)
	started := run.ChillStarted
	switch {
	case started.IsZero() && run.Now.After(due), started.After(due):
		return ChillLate, 0
	case started.IsZero():
		return ChillDue, due.Sub(run.Now)
	default:
		return ChillMet, 0
	}
}

func (c Cooling) verdict() CoolingVerdict {
	met, unread, overdue, unshown, warm := true, false, false, false, false
	for _, w := range c.Windows {
		switch w.State {
		case WindowFailed:
			return CoolingFailed
		case WindowOverdue:
			overdue = true
		case WindowUnshown:
			unshown = true
		case WindowWarmAgain:
			warm = true
		}
		met = met && w.State == WindowMet
		unread = unread || w.StartUnread
	}
	switch {
	case c.Chill == ChillLate:
		return CoolingFailed
	case warm:
		return CoolingWarmAgain
	case overdue:
		return CoolingOverdue
	case unshown, met && (unread || c.Chill == ChillUnknown):
		return CoolingUnproven
	case met && c.Chill != ChillDue:
		return CoolingPassed
	default:
		return CoolingRunning
	}
}

func (c Cooling) remarks(rs []CoreReading) []CoolingRemark {
	var out []CoolingRemark
	unread, unsure, late := false, false, false
	for _, w := range c.Windows {
		unread = unread || w.StartUnread
		unsure = unsure || w.State == WindowFailed && !w.Sure && !w.StartUnread
		late = late || w.State == WindowUnshown
	}
	if unread {
		out = append(out, CoolingStartUnread)
	}
	coldest := rs[0].Temp
	for _, r := range rs {
		if r.Temp > coldest+rewarming && coldest < rs[0].Temp {
			out = append(out, CoolingRewarmed)
			break
		}
		coldest = min(coldest, r.Temp)
	}
	if c.back {
		out = append(out, CoolingBackOver)
	}
	if unsure {
		out = append(out, CoolingBetweenReadings)
	}
	if late {
		out = append(out, CoolingReadLate)
	}
	if c.Rule.CoolOnTo > 0 && c.Verdict == CoolingPassed && rs[len(rs)-1].Temp > c.Rule.CoolOnTo {
		out = append(out, CoolingKeepOn)
	}
	return out
}
