package bot_test

import "testing"

// longTable leaves a long walk of one goroutine out of short runs, such as the one
// under the race detector: it finds no race.
func longTable(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("a long walk of one goroutine; the run without -short does it")
	}
}
