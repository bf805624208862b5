package zone

import (
	"fmt"
	"strings"
)

// Kind says why a text names no zone.
type Kind int

const (
	Empty     Kind = iota + 1 // nothing was said
	Local                     // "Local": the machine's zone, which is not the speaker's
	Loose                     // an abbreviation or a loose name, "CST", "Eastern time"
	Offset                    // "UTC+2": does not know when clocks change
	Ambiguous                 // more than one zone, whose clocks differ
	Unknown                   // no zone, city or country by that name
	Missing                   // the zone exists, this machine has no data for it
)

// Error is a text that could not be taken for one zone.
type Error struct {
	Kind        Kind
	Said        string
	Suggestions []string // IANA names, best first; may be empty
	cause       error
}

func (e *Error) Unwrap() error { return e.cause }

// Error is one sentence a person can act on.
func (e *Error) Error() string {
	switch e.Kind {
	case Empty:
		return "no time zone given: say a city" + e.example()
	case Local:
		return fmt.Sprintf("%q would be this machine's time zone: say a city%s", e.Said, e.example())
	case Loose:
		return fmt.Sprintf("%q can be taken more than one way: say a city%s", e.Said, e.example())
	case Offset:
		return fmt.Sprintf("%q says nothing about when clocks change: say a city%s", e.Said, e.example())
	case Ambiguous:
		return fmt.Sprintf("%q has more than one time zone: say a city%s", e.Said, e.example())
	case Missing:
		return fmt.Sprintf("no data for the time zone %q on this machine", e.Said)
	}
	unknown := fmt.Sprintf("no time zone, city or country called %q", e.Said)
	if len(e.Suggestions) > 0 {
		return unknown + ": did you mean " + e.choices() + "?"
	}
	return unknown + ": say a big city with the same clock, or a country"
}

func (e *Error) example() string {
	if len(e.Suggestions) == 0 {
		return ""
	}
	return ", for example " + e.choices()
}

func (e *Error) choices() string {
	last := len(e.Suggestions) - 1
	if last == 0 {
		return e.Suggestions[0]
	}
	return strings.Join(e.Suggestions[:last], ", ") + " or " + e.Suggestions[last]
}
