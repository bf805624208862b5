// Package zone finds the time zone a person means: an IANA name in any case
// ("europe/berlin"), its city ("Berlin", "new york"), or a country whose clocks
// all agree ("Germany").
//
// It needs zone data at run time: a program imports time/tzdata once, so that
// it does not depend on the machine's.
package zone

import (
	"regexp"
	"strings"
	"time"
)

// longest is how many bytes a name may have; the longest real one has 32.
const longest = 64

// offset is "UTC+2", "gmt -05:30" or "+0200": a difference, not a zone.
var offset = regexp.MustCompile(`^(?:utc|gmt)? ?([+-]|\x{2212}) ?(\d{1,2})(?::?(\d\d))?$`)

// Find gives the zone a person means and its name in the IANA database, which is
// what to store: Find of that name gives the same again. Anything else is an
// *Error with suggestions. Abbreviations are refused even where the database
// has one (EST and CET are in it, and a person in New York who says EST does not
// mean a clock that never changes).
func Find(said string) (*time.Location, string, error) {
	e, err := load().find(said)
	if err != nil {
		return nil, "", err
	}
	loc, cause := time.LoadLocation(e.name)
	if cause != nil {
		return nil, "", &Error{Kind: Missing, Said: e.name, cause: cause}
	}
	return loc, e.name, nil
}

// Names gives every name of the IANA database that the table holds, sorted.
// Find refuses a few of them.
func Names() []string {
	var names []string
	for _, e := range load().zones {
		names = append(names, e.name)
	}
	return names
}

func (t *table) find(said string) (*entry, *Error) {
	said = strings.TrimSpace(said)
	if len(said) > longest {
		return nil, &Error{Kind: Unknown, Said: strings.ToValidUTF8(said[:longest], "") + "…"}
	}
	folded := fold(said)
	refuse := func(k Kind, candidates []*entry) (*entry, *Error) {
		return nil, &Error{Kind: k, Said: said, Suggestions: suggested(candidates)}
	}
	switch folded {
	case "":
		return refuse(Empty, t.named([]string{"Europe/Berlin", "America/New_York"}))
	case "local", "localtime", "local time":
		return refuse(Local, t.named([]string{"Europe/Berlin", "America/New_York"}))
	}
	if candidates := t.loose[folded]; candidates != nil {
		return refuse(Loose, candidates)
	}
	if m := offset.FindStringSubmatch(strings.ToLower(said)); m != nil {
		return refuse(Offset, t.ahead(m[1], m[2], m[3]))
	}
	if e := t.byName[said]; e != nil {
		return e, nil
	}
	if e := t.byFolded[folded]; e != nil {
		return e, nil
	}
	candidates := append(t.current(t.bySegment[folded]), t.byCountry[folded]...)
	if e := agreed(candidates); e != nil {
		return e, nil
	}
	if len(candidates) == 0 {
		candidates = t.byArea[folded]
	}
	if len(candidates) > 0 {
		return refuse(Ambiguous, clocks(candidates))
	}
	return refuse(Unknown, t.nearest(folded))
}
