// Package safely makes a panic an error, so that one batch or conversation that the
// program can make no sense of takes no other down.
package safely

import (
	"errors"
	"fmt"
	"runtime/debug"
)

// panicked is a panic made an error.
type panicked struct {
	what  string
	value any
	stack []byte
}

func (p *panicked) Error() string {
	return fmt.Sprintf("%s panicked: %v\n%s", p.what, p.value, p.stack)
}

// Panicked says whether an error was a panic.
func Panicked(err error) bool {
	var p *panicked
	return errors.As(err, &p)
}

// Do does something, named by what; its panic is an error that Panicked knows.
func Do(what string, do func() error) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = &panicked{what: what, value: v, stack: debug.Stack()}
		}
	}()
	return do()
}
