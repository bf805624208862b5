package terminal

import (
	"context"
	"fmt"
	"strings"
	"time"

	"larderhand/bot/parse"
)

// longestWait bounds a simulated wait, so that a slip of the finger is not an
// hour of pings.
const longestWait = 400 * 24 * time.Hour

// Mover moves a simulated clock; see scheduler.Advance.
type Mover func(ctx context.Context, to time.Time) error

// Simulated is a Waiter over a clock that is moved by hand.
type Simulated struct {
	Now  func() time.Time
	Zone func(context.Context) *time.Location
	Move Mover
}

// Wait reads "1d", "36h", "until 08:00" or "until 2027-03-04 08:00" and moves the
// clock there.
func (s Simulated) Wait(ctx context.Context, how string) (time.Time, error) {
	now := s.Now().In(s.Zone(ctx))
	to, err := until(how, now)
	if err != nil {
		return now, err
	}
	if to.Sub(now) > longestWait {
		return now, saidf("I can wait up to 400 days at a time. This works: `wait 1d`")
	}
	if err := s.Move(ctx, to); err != nil {
		return now, err
	}
	return s.Now(), nil
}

// said is an error a person reads as it is.
type said string

func (s said) Error() string { return string(s) }

func saidf(format string, args ...any) error { return said(fmt.Sprintf(format, args...)) }

func until(how string, now time.Time) (time.Time, error) {
	if clock, ok := strings.CutPrefix(strings.ToLower(how), "until "); ok {
		at, err := parse.ClockTime(strings.TrimSpace(clock), now)
		if err != nil {
			return now, saidf("I can't read “%s” as a time to wait until. This works: `wait until 08:00`", clock)
		}
		if !at.After(now) && at.After(now.AddDate(0, 0, -1)) {
			at = at.AddDate(0, 0, 1)
		}
		if !at.After(now) {
			return now, saidf("%s is past; the clock does not go back. This works: `wait until 08:00`", at.Format("Mon 2 Jan 2006 15:04"))
		}
		return at, nil
	}
	d, err := parse.Duration(how)
	if err != nil || d <= 0 {
		return now, saidf("I can't read “%s” as a time to wait. This works: `wait 1d` or `wait until 08:00`", how)
	}
	return now.Add(d), nil
}
