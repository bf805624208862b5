package bot

import (
	"errors"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
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
	if p.Kind == parse.NoCure {
		e.Kind = Dangerous
	}
	if p.Said != "" {
		e.Why = "“" + clip(p.Said, 60) + "”: " + sentence(p.Why)
	}
	return e
}

// fromRefusal turns a sum that was not done into an error a person can act on.
func fromRefusal(err error) *Error {
	var r *curemath.Refusal
	if !errors.As(err, &r) {
		return nil
	}
	e := &Error{Kind: BadInput, Why: r.Error(), Example: "5 lb juniper 1.5 in"}
	switch r.Kind {
	case curemath.OverLimit, curemath.UnderFloor, curemath.NitrateInBacon, curemath.MixUnknown, curemath.MixHoldsNone:
		e.Kind = Dangerous
	}
	switch r.Kind {
	case curemath.OverLimit, curemath.UnderFloor:
		e.Example = "5 lb nitrite 120 ppm"
	case curemath.NitrateInBacon, curemath.MixUnknown, curemath.MixHoldsNone:
		e.Example = "5 lb mix 6.25%"
	case curemath.NoMeat, curemath.NothingToCheck:
		e.Example = "check 80 g salt, 40 g brown sugar, 4 g curing mix for 2.4 kg belly"
	case curemath.SaltOutOfRange:
		e.Example = "5 lb salt 2.5%"
	case curemath.SugarOutOfRange:
		e.Example = "5 lb sugar 1%"
	}
	return e
}
