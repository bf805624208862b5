package plan

import "time"

// SmokeInterval gives how long to wait before asking for the next smoke reading,
// given the estimated time until the core reaches its target. It shortens as
// the target nears, and is always shorter than what is left until the last
// quarter of an hour. known is false when there is no estimate (too few
// readings, or a core that stands still): then it is an hour. The steps are our
// own choice: common practice, no source.
func SmokeInterval(left time.Duration, known bool) time.Duration {
	switch {
	case !known:
		return time.Hour
	case left > 6*time.Hour:
		return 2 * time.Hour
	case left > 3*time.Hour:
		return time.Hour
	case left > time.Hour:
		return 30 * time.Minute
	default:
		return 15 * time.Minute
	}
}

// patience is how many pings about one chore may go unanswered before they slow
// down.
const patience = 3

// Reping gives how many days to wait before pinging about a chore again when n
// pings about it have gone unanswered: one day up to the third, then three.
func Reping(n int) (days int) {
	if n < patience {
		return 1
	}
	return 3
}

// AskToStop says whether a ping that follows n unanswered ones should ask if the
// person still wants them.
func AskToStop(n int) bool { return n >= patience }
