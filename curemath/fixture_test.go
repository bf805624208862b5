package curemath_test

import (
	"errors"
	"math"
	"testing"

	"larderhand/curemath"
)

func rules(t testing.TB, id string) curemath.RuleSet {
	t.Helper()
	r, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	s, ok := r.ByID(id)
	if !ok {
		t.Fatalf("no rule set %q", id)
	}
	return s
}

func mixOf(t testing.TB, p curemath.Percent) curemath.Mix {
	t.Helper()
	m, err := curemath.MixOf(p)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near[T ~float64](t testing.TB, what string, got, want T, within float64) {
	t.Helper()
	if math.IsNaN(float64(got)) || math.Abs(float64(got-want)) > within {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, within)
	}
}

func refused(t testing.TB, err error, want curemath.RefusalKind) *curemath.Refusal {
	t.Helper()
	var r *curemath.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("got error %v, want a refusal", err)
	}
	if r.Kind != want {
		t.Fatalf("refused with kind %d (%s), want kind %d", r.Kind, r, want)
	}
	return r
}

func warned(w []curemath.Warning, k curemath.WarningKind) bool {
	for _, x := range w {
		if x.Kind == k {
			return true
		}
	}
	return false
}
