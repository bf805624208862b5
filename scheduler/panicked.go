package scheduler

import (
	"errors"
	"fmt"
	"runtime/debug"
)

// panicked is a panic made an error: one conversation must not take the others down.
type panicked struct {
	what  string
	value any
	stack []byte
}

func (p *panicked) Error() string {
	return fmt.Sprintf("%s panicked: %v\n%s", p.what, p.value, p.stack)
}

func hasPanicked(err error) bool {
	var p *panicked
	return errors.As(err, &p)
}

// safely does something; its panic is a *panicked.
func safely(what string, do func() error) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = &panicked{what: what, value: v, stack: debug.Stack()}
		}
	}()
	return do()
}
