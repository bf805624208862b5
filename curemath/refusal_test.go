package curemath_test

import (
	"strings"
	"testing"

	"larderhand/curemath"
)

// Every refusal is one sentence a person can read: no verb of a format string,
// no bare Go value, a full stop.
func TestEveryRefusalIsASentence(t *testing.T) {
	for kind := curemath.NotANumber; kind <= curemath.RecipeTooLong; kind++ {
		r := &curemath.Refusal{
			Kind: kind, Field: "salt target", Said: "40 %", Share: 40, Low: 0, High: 15, Count: 9,
			Mix: curemath.Mix{Name: "Some mix"}, Limit: rules(t, "us").BaconLimit(curemath.DryRub, false),
		}
		s := r.Error()
		if strings.Contains(s, "%!") || strings.Contains(s, "{") || s == (&curemath.Refusal{}).Error() || !strings.HasSuffix(s, ".") {
			t.Errorf("kind %d: %q", kind, s)
		}
		r.Hint = "Did you mean 4 %?"
		if !strings.HasSuffix(r.Error(), r.Hint) {
			t.Errorf("kind %d: hint lost: %q", kind, r.Error())
		}
	}
}

func TestRefusalsNameFiguresAndSources(t *testing.T) {
	d := curemath.DryTargets{Green: 1000, Nitrite: 500, Salt: 2.5, Mix: curemath.StandardMix(), Rules: rules(t, "us")}
	_, err := curemath.SolveDry(d)
	for _, want := range []string{"500 ppm", "200 ppm", "9 CFR 424.22(b)", "second-hand, not checked against the text"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	d.Nitrite = 60
	_, err = curemath.SolveDry(d)
	for _, want := range []string{"60 ppm", "100 ppm", "second-hand"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	// A mix so weak that its own salt passes anything one can eat.
	d.Nitrite, d.Mix = 200, curemath.Mix{Name: "weak", Nitrite: 0.2, Sugar: 0}
	d.Salt = 15
	d.Rules = rules(t, "us")
	c, err := curemath.SolveDry(d)
	if err != nil || c.TotalSalt < 9.9 {
		t.Errorf("%v, %v", c.TotalSalt, err)
	}
}
