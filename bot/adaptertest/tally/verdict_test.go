package tally_test

import (
	"flag"
	"testing"

	"larderhand/bot/adaptertest/tally"
)

func TestAWholeRunThatCheckedNothingFails(t *testing.T) {
	for _, c := range []struct {
		code, checked int
		whole         bool
		want          int
	}{
		{0, 0, true, 1},
		{0, 1, true, 0},
		{0, 0, false, 0}, // somebody asked for one test that calls nobody
		{1, 0, true, 1},
		{2, 9, true, 2},
		{1, 9, false, 1},
	} {
		if got := tally.Verdict(c.code, c.checked, c.whole); got != c.want {
			t.Errorf("%+v: %d", c, got)
		}
	}
}

func TestWhole(t *testing.T) {
	run := flag.Lookup("test.run")
	was := run.Value.String()
	defer func() { _ = run.Value.Set(was) }()
	for value, want := range map[string]bool{"": flag.Lookup("test.skip").Value.String() == "", "TestWhole": false} {
		if err := run.Value.Set(value); err != nil {
			t.Fatal(err)
		}
		if got := tally.Whole(); got != want {
			t.Errorf("with -run %q: %v", value, got)
		}
	}
}
