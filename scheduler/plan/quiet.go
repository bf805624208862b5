package plan

import "time"

// Quiet is the part of every day in which nobody wants a ping that can wait:
// from From, included, to To, not included. It may pass midnight (22:00 to
// 07:00). From equal to To means there is none.
type Quiet struct{ From, To HourMinute }

// Contains says whether a wall clock in loc shows a quiet time at t.
func (q Quiet) Contains(t time.Time, loc *time.Location) bool {
	return q.Holds(HourMinuteOf(t, loc))
}

// Holds says whether a time of day is quiet.
func (q Quiet) Holds(at HourMinute) bool {
	from, to := q.From.clamped(), q.To.clamped()
	if from <= to {
		return from <= at && at < to
	}
	return from <= at || at < to
}

// PushOut gives t itself when t is not quiet, otherwise the first instant after
// t that is not, by what the wall clock in loc shows on the way: a night on
// which clocks go forward is an hour shorter.
func (q Quiet) PushOut(t time.Time, loc *time.Location) time.Time {
	loc = orUTC(loc)
	if !q.Contains(t, loc) {
		return t
	}
	// Minutes are whole seconds, so the fraction of t plays no part below.
	at := t.Unix()
	for range daysTried {
		s := stretchAt(at, loc)
		wait := floorMod(q.To.seconds()-(at+s.offset), secondsPerDay)
		if at+wait < s.to {
			return time.Unix(at+wait, 0).In(loc)
		}
		at = s.to
		if next := time.Unix(at, 0).In(loc); !q.Contains(next, loc) {
			return next
		}
	}
	return t
}
