package parse

import (
	"errors"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"
)

// noon is a fixed now for tests that need one.
func noon() time.Time { return time.Date(2027, 3, 3, 12, 0, 0, 0, time.UTC) }

func kindOf(err error) Kind {
	var p *Problem
	if errors.As(err, &p) {
		return p.Kind
	}
	return 0
}

// tester is what *testing.T and *rapid.T have in common.
type tester interface {
	Helper()
	Fatalf(format string, args ...any)
}

// checkProblem holds every error to what Problem promises. again reads the
// example with the parser the error came from: an example that does not work is
// worse than none.
func checkProblem(t tester, in string, err error, again func(string) error) {
	t.Helper()
	var p *Problem
	if !errors.As(err, &p) {
		t.Fatalf("%q: error %T is no Problem", in, err)
	}
	if p.Kind <= 0 || p.Kind.String() == "unknown" || p.Why == "" || p.Example == "" {
		t.Fatalf("%q: incomplete problem %+v", in, p)
	}
	for _, s := range []string{p.Said, p.Why, p.Understood} {
		if strings.ContainsFunc(s, unicode.IsControl) || !utf8.ValidString(s) {
			t.Fatalf("%q: unclean text %q", in, s)
		}
	}
	if utf8.RuneCountInString(p.Said) > 60 {
		t.Fatalf("%q: quotes %d characters", in, utf8.RuneCountInString(p.Said))
	}
	if err := again(p.Example); err != nil {
		t.Fatalf("%q: the example %q does not work: %v", in, p.Example, err)
	}
}

// problemRow is a text that must be refused, and what the refusal must say.
type problemRow struct {
	in   string
	kind Kind
	said string
}

// checkProblems runs rows of refusals through one parser.
func checkProblems(t *testing.T, rows []problemRow, read func(string) error) {
	t.Helper()
	for _, r := range rows {
		err := read(r.in)
		if kindOf(err) != r.kind {
			t.Errorf("%q: %v (%v), want %v", r.in, err, kindOf(err), r.kind)
			continue
		}
		checkProblem(t, r.in, err, read)
		var p *Problem
		if errors.As(err, &p); p.Said != r.said {
			t.Errorf("%q: quotes %q, want %q", r.in, p.Said, r.said)
		}
	}
}

// seeds are texts that every fuzz target starts from.
func seeds(f *testing.F, more ...string) {
	for _, s := range append(more, "", " ", "\x00", "\xff\xfe", "½", "1½½", "5²", "1e400", "NaN", "--5", "5-6", "1,2,3.4,5", "1 000 000",
		"∞", "°", "#", "5#", "0/0", "1/0", "999999999999999999999999999", "．５", "٥ kg", "a and a half", "\u202e5 lb", "5\u200blb", "'''", "e9e9", "....", "5..5") {
		f.Add(s)
	}
}
