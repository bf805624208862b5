package store

import "fmt"

// Option is a choice made on opening a store.
type Option func(*options)

type options struct {
	pages   int
	noWrite bool
	begun   func(Kind) (ended func())
	turn    func(error)
}

// ReadOnly has every change fail as on a file that can't be written.
func ReadOnly() Option { return func(o *options) { o.noWrite = true } }

// Kind is what a transaction does.
type Kind string

// The kinds of transaction.
const (
	Read  Kind = "read"
	Write Kind = "write"
)

// MaxPages bounds the file to so many pages (of 4,096 bytes unless it was made
// with others); beyond it every change fails as on a full disk.
func MaxPages(n int) Option { return func(o *options) { o.pages = n } }

// OnTransaction has fn called at the beginning of each transaction, and what it
// gives back at its end.
func OnTransaction(fn func(Kind) (ended func())) Option { return func(o *options) { o.begun = fn } }

// OnBroken has fn told once with a *Broken when the file can no longer be used,
// and once with nil when it can be again.
func OnBroken(fn func(error)) Option { return func(o *options) { o.turn = fn } }

func (o options) limit() string {
	var s string
	if o.pages > 0 {
		s = fmt.Sprintf("&_pragma=max_page_count(%d)", o.pages)
	}
	if o.noWrite {
		s += "&_pragma=query_only(1)"
	}
	return s
}
