package plan

import "time"

// onTime is how late a ping may be before it is worth a word: the scheduler
// wakes once a minute and a platform's limits can hold a message for a few more.
const onTime = 5 * time.Minute

// Lateness is a delay in parts a sentence can name. Days are spans of 24 hours.
type Lateness struct {
	Days, Hours, Minutes int
}

// Late gives how long after due it is at now, cut to whole minutes; zero when
// now is not after due.
func Late(due, now time.Time) Lateness {
	// Sub saturates, so even absurd instants stay in range.
	d := max(now.Sub(due), 0)
	return Lateness{
		Days:    int(d / (24 * time.Hour)),
		Hours:   int(d / time.Hour % 24),
		Minutes: int(d / time.Minute % 60),
	}
}

// Worth says whether the delay is worth telling: five minutes or more.
func (l Lateness) Worth() bool { return l.Duration() >= onTime }

// Duration gives the delay as one number.
func (l Lateness) Duration() time.Duration {
	return time.Duration(l.Days)*24*time.Hour +
		time.Duration(l.Hours)*time.Hour +
		time.Duration(l.Minutes)*time.Minute
}
