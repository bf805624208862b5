package scheduler

import (
	"time"

	"golang.org/x/time/rate"

	"larderhand/store"
)

// Rate is how often something may be done: Limit a second in the long run, Burst
// at once. In any second there are at most Limit + Burst. The zero Rate is no
// limit.
type Rate struct {
	Limit rate.Limit
	Burst int
}

// Limits is how fast a lane's platform takes messages.
type Limits struct {
	All Rate // all conversations together
	// Chat is what one conversation takes, and the name of the room whose other
	// conversations (topics of one chat) count with it; nil is no limit.
	Chat func(store.Address) (room string, r Rate)
}

func (r Rate) bucket() *rate.Limiter {
	if r.Limit == 0 {
		return rate.NewLimiter(rate.Inf, 1)
	}
	return rate.NewLimiter(r.Limit, max(1, r.Burst))
}

// ahead is how many messages of a lane are claimed at once: two seconds' worth, so
// that the cost of a transaction is shared and something urgent waits two seconds
// at the most.
func (r Rate) ahead() int {
	if r.Limit == 0 || r.Limit == rate.Inf {
		return batchSize
	}
	return max(1, min(batchSize, int(2*r.Limit)))
}

// hold is a span in which nothing is to be sent. Its beginning counts too: on a
// clock that was set back the span is over.
type hold struct{ from, until time.Time }

func (h hold) at(now time.Time) bool { return !now.Before(h.from) && now.Before(h.until) }

// chat is what is known of one room while anything is known.
type chat struct {
	bucket *rate.Limiter
	hold   hold
	busy   bool // a message is queued or on its way
}

// idle says that forgetting the room changes nothing.
func (c *chat) idle(now time.Time) bool {
	return !c.busy && !c.hold.at(now) && c.bucket.TokensAt(now) >= float64(c.bucket.Burst())
}

// free gives when the room may be sent something, and takes the token for
// it if that is now.
func (c *chat) free(now time.Time) time.Time {
	switch {
	case c.busy:
		return now.Add(busyAgain)
	case c.hold.at(now):
		return c.hold.until
	}
	r := c.bucket.ReserveN(now, 1)
	if wait := r.DelayFrom(now); wait > 0 {
		r.CancelAt(now)
		return now.Add(roundUp(wait))
	}
	return now
}

// wholeMillis is an instant or the first after it that the store can keep. What was
// put back for an instant rounded down would be taken up before it, put back and
// taken up again without end.
func wholeMillis(t time.Time) time.Time {
	if down := t.Truncate(time.Millisecond); down.Before(t) {
		return down.Add(time.Millisecond)
	}
	return t
}

// roundUp rounds to the milliseconds the store keeps, upwards, so that a token is
// there when the time has come.
func roundUp(d time.Duration) time.Duration {
	return (d + time.Millisecond - 1).Truncate(time.Millisecond) + time.Millisecond
}
