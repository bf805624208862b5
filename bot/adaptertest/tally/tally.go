// Package tally has what a run of tests checked told where it is seen (tests only).
package tally

import (
	"fmt"
	"os"
)

// Variable names a file to which a test run adds what it checked: of a package
// that passes, go test shows nothing that it prints.
const Variable = "LARDERHAND_TALLY"

// Tell prints what a run of tests checked, and adds it to the file named by
// Variable if one is.
func Tell(line string) {
	fmt.Println(line)
	name := os.Getenv(Variable)
	if name == "" {
		return
	}
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err == nil {
		_, err = fmt.Fprintln(f, line)
		if e := f.Close(); err == nil {
			err = e
		}
	}
	if err != nil {
		fmt.Println("the tally could not be added to:", err)
	}
}
