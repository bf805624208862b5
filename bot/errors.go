package bot

import (
	"errors"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// Kind says what sort of thing went wrong, for logs and tests; a person reads
// the sentence.
type Kind string

// The kinds of error a handler gives.
const (
	BadInput  Kind = "bad input"
	NoSuch    Kind = "no such thing"
	NotNow    Kind = "not now"
	NotYours  Kind = "not yours"
	Dangerous Kind = "dangerous"
)

// Error is a refusal a person can act on: what was wrong, what was understood,
// and one line that works. Nothing was changed.
type Error struct {
	Kind       Kind
	Why        string // a whole sentence
	Understood string
	Example    string
	Buttons    []reply.Button
}

func (e *Error) Error() string { return string(e.Kind) + ": " + e.Why }

// refusal turns an error a person can act on into a reply; ok is false for one
// that is not the person's doing.
func refusal(err error) (reply.Reply, bool) {
	var (
		r reply.Reply
		e *Error
		p *parse.Problem
	)
	switch {
	case errors.As(err, &e):
	case errors.As(err, &p):
		e = fromProblem(p)
	default:
		if e = fromRefusal(err); e == nil {
			return r, false
		}
	}
	r.Say(e.Why)
	if e.Understood != "" {
		r.Say("I understood ", e.Understood, ".")
	}
	if e.Example != "" {
		r.Say("This works: ", reply.Type(e.Example))
	}
	r.Private = true
	r.Press(e.Buttons...)
	return r, true
}

func fromProblem(p *parse.Problem) *Error {
	e := &Error{Kind: BadInput, Why: sentence(p.Why), Understood: p.Understood, Example: p.Example}
	if p.Said != "" {
		e.Why = "“" + clip(p.Said, 60) + "”: " + sentence(p.Why)
	}
	return e
}
