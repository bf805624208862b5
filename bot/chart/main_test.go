package chart

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

// A property here draws a whole picture each time, so fewer draws are tried than
// the library's hundred unless the flag says otherwise.
func TestMain(m *testing.M) {
	checks := "40"
	if raceOn {
		checks = "4"
	}
	if err := flag.Set("rapid.checks", checks); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	flag.Parse()
	os.Exit(m.Run())
}
