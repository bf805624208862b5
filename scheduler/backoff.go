package scheduler

import (
	"time"

	"github.com/cenkalti/backoff/v5"

	"larderhand/store"
)

// wait is how long to leave a chore after a failure: what the platform named, to
// the moment, or else ever longer with jitter.
func wait(f *store.Failure, attempts int) time.Duration {
	if f.Kind == store.Wait && f.After > 0 {
		return f.After
	}
	b := &backoff.ExponentialBackOff{InitialInterval: 5 * time.Second, Multiplier: 2, RandomizationFactor: 0.3, MaxInterval: time.Hour}
	b.Reset()
	d := b.NextBackOff()
	for range min(attempts, 20) - 1 {
		d = b.NextBackOff()
	}
	return d
}
