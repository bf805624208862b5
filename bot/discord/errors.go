package discord

import (
	"errors"
	"net/http"

	"larderhand/store"
)

// Codes of topics/opcodes-and-status-codes.mdx that mean something of their own.
const (
	codeUnknownMessage = 10008
	codeAcknowledged   = 40060
	codeThreadArchived = 50083
)

// failure says what a request that came to nothing means for what is still to be
// said. A channel that is gone, closed to us or a person who takes no messages is
// parked until it speaks again; going on would only bring the day on which the
// platform blocks the address, after 10,000 refusals in ten minutes.
func failure(err error) *store.Failure {
	var e *apiError
	if !errors.As(err, &e) {
		return &store.Failure{Kind: store.Unknown, Cause: err}
	}
	f := &store.Failure{Kind: store.Unknown, Cause: err}
	switch {
	case e.status == http.StatusTooManyRequests:
		f.Kind, f.After, f.Wide = store.Wait, e.after, e.wide
	case e.code == codeUnknownMessage:
		f.Kind = store.Refused
	case e.status == http.StatusForbidden, e.status == http.StatusNotFound, e.code == codeThreadArchived:
		f.Kind = store.Gone
	case e.status == http.StatusBadRequest, e.status == http.StatusRequestEntityTooLarge:
		f.Kind = store.Refused
	}
	return f
}
