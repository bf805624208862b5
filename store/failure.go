package store

import (
	"fmt"
	"time"
)

// FailureKind says what a failed delivery means for what is still to be said.
type FailureKind int

// The kinds of failure.
const (
	Unknown FailureKind = iota // may or may not have arrived; try again, later each time
	Wait                       // the platform named a time to wait
	Moved                      // the conversation has a new address; go on there
	Gone                       // nothing can be delivered there until it speaks again
	Refused                    // this one message will never be taken
)

// String names the kind in one word.
func (k FailureKind) String() string {
	switch k {
	case Unknown:
		return "unknown"
	case Wait:
		return "wait"
	case Moved:
		return "moved"
	case Gone:
		return "gone"
	case Refused:
		return "refused"
	}
	return fmt.Sprintf("kind %d", int(k))
}

// Failure is why a delivery failed. An adapter's sender returns it and never
// retries by itself.
type Failure struct {
	Kind  FailureKind
	After time.Duration // Wait: how long
	Wide  bool          // Wait: the whole platform waits, not this conversation alone
	To    Address       // Moved: where to
	Cause error
}

func (f *Failure) Error() string {
	if f.Kind == Wait {
		return fmt.Sprintf("asked to wait: %v", f.Cause)
	}
	return fmt.Sprintf("delivery %s: %v", f.Kind, f.Cause)
}

func (f *Failure) Unwrap() error { return f.Cause }
