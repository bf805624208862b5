package tally

import (
	"flag"
	"fmt"
)

// Verdict is the exit code of a run that ended with code and held so many things
// against a platform's description. A whole run that passed and checked nothing has
// shown nothing, so it fails: the fakes no longer check, or nobody calls them.
func Verdict(code, checked int, whole bool) int {
	if code != 0 || checked > 0 || !whole {
		return code
	}
	fmt.Println("FAIL: the platform's description is there and nothing was checked against it")
	return 1
}

// Whole reports whether all tests of the package were asked for.
func Whole() bool {
	for _, name := range []string{"test.run", "test.skip", "test.list", "test.fuzz"} {
		if f := flag.Lookup(name); f != nil && f.Value.String() != "" {
			return false
		}
	}
	return true
}
