package telegramtest

import (
	"fmt"
	"os"
	"sync"
	"testing"

	"larderhand/bot/adaptertest/tally"
	"larderhand/bot/telegram/telegramtest/internal/describe"
)

// Tally counts checked calls over several servers, for one line at the end of a
// test run. The zero value is ready:
//
//	var tally telegramtest.Tally
//
//	func TestMain(m *testing.M) { os.Exit(tally.Run(m)) }
type Tally struct {
	mu     sync.Mutex
	spec   *describe.Description // read by the first server
	from   string                // the folder it is from
	calls  int                   // against the description
	shapes int                   // answers and updates against the description
	limits int                   // against the published limits alone
}

// Run runs the tests, prints the summary and returns the exit code. A whole run that
// checked no call against the description there is fails.
func (c *Tally) Run(m *testing.M) int {
	code := m.Run()
	tally.Tell("telegram: " + c.String())
	if os.Getenv(SpecsVariable) == "" {
		return code
	}
	return tally.Verdict(code, c.Checked(), tally.Whole())
}

// Checked is the number of calls compared with the description so far.
func (c *Tally) Checked() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.calls
}

// String is the summary in words.
func (c *Tally) String() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.spec == nil {
		return fmt.Sprintf("0 calls checked against the Bot API description (%s is not set), %d against the published limits", SpecsVariable, c.limits)
	}
	return fmt.Sprintf("%d calls checked against the Bot API description (%s), with %d answers and updates of the fake", c.calls, c.spec.Version(), c.shapes)
}

// describe reads the description in a folder, once.
func (c *Tally) describe(dir string) (*describe.Description, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.spec == nil || c.from != dir {
		spec, err := describe.Load(dir)
		if err != nil {
			return nil, err
		}
		c.spec, c.from = spec, dir
	}
	return c.spec, nil
}

func (c *Tally) count(calls, shapes, limits int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.calls += calls
	c.shapes += shapes
	c.limits += limits
}

// RequireDescription skips a test, by its name, when the machine-readable
// description is not at hand.
func RequireDescription(t testing.TB) {
	t.Helper()
	if os.Getenv(SpecsVariable) == "" {
		t.Skipf("%s names no folder with the Bot API description", SpecsVariable)
	}
}
