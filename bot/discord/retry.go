package discord

import (
	"context"
	"errors"
	"time"

	"github.com/cenkalti/backoff/v5"
)

// retry does what answers somebody who waits until it works, it cannot work, or
// most is over. Pings are never tried again here: the scheduler does that.
func (a *Adapter) retry(ctx context.Context, most time.Duration, do func() error) error {
	b := backoff.NewExponentialBackOff()
	b.InitialInterval = 100 * time.Millisecond
	_, err := backoff.Retry(ctx, func() (struct{}, error) {
		err := do()
		var e *apiError
		switch {
		case err == nil || !errors.As(err, &e):
			return struct{}{}, err
		case e.lasting():
			return struct{}{}, backoff.Permanent(err)
		case e.after > 0:
			return struct{}{}, errors.Join(err, &backoff.RetryAfterError{Duration: e.after})
		}
		return struct{}{}, err
	}, backoff.WithBackOff(b), backoff.WithMaxElapsedTime(most))
	return err
}

// status is the error's own account of itself; nil if it is none of Discord's.
func status(err error) *apiError {
	var e *apiError
	if errors.As(err, &e) {
		return e
	}
	return nil
}

// lasting reports whether Discord refused for good.
func lasting(err error) bool {
	e := status(err)
	return e != nil && e.lasting()
}
