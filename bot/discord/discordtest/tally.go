package discordtest

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync/atomic"
	"testing"

	"larderhand/bot/adaptertest/tally"
)

// checkCount counts what was held against the OpenAPI description.
type checkCount struct {
	requests atomic.Int64
	others   atomic.Int64 // responses and events
}

func (c *checkCount) sum() int { return int(c.requests.Load() + c.others.Load()) }

// Checked is how many requests, responses and events of this server were held
// against the OpenAPI description; 0 when there is none to hold them against.
func (s *Server) Checked() int { return s.checks.sum() }

func (s *Server) countRequest() {
	s.checks.requests.Add(1)
	s.spec.total.requests.Add(1)
}

func (s *Server) countOther() {
	s.checks.others.Add(1)
	s.spec.total.others.Add(1)
}

// Skip says by name that the OpenAPI part did not run, for a test that is about
// nothing else.
func (s *Server) Skip() {
	if s.spec == nil {
		s.t.Skip("LARDERHAND_SPECS is not set: nothing is checked against the OpenAPI description")
	}
}

// Report writes how much was checked over all servers of the process.
func Report(w io.Writer) {
	requests, others := checkedInAll()
	if requests+others == 0 && os.Getenv("LARDERHAND_SPECS") == "" {
		fmt.Fprintln(w, "discord: LARDERHAND_SPECS is not set: nothing checked against the OpenAPI description")
		return
	}
	fmt.Fprintf(w, "discord: %d requests, %d responses and events checked against the OpenAPI description\n", requests, others)
}

// checkedInAll is how many requests, and responses and events, were held against the
// description over all servers of the process.
func checkedInAll() (requests, others int64) {
	opened.Lock()
	defer opened.Unlock()
	for _, sp := range opened.specs {
		requests += sp.total.requests.Load()
		others += sp.total.others.Load()
	}
	return requests, others
}

// Main runs a package's tests and reports afterwards. A whole run that checked no
// request against the description there is fails. For TestMain:
//
//	func TestMain(m *testing.M) { os.Exit(discordtest.Main(m)) }
func Main(m *testing.M) int {
	code := m.Run()
	var said strings.Builder
	Report(&said)
	tally.Tell(strings.TrimSpace(said.String()))
	if os.Getenv("LARDERHAND_SPECS") == "" {
		return code
	}
	requests, _ := checkedInAll()
	return tally.Verdict(code, int(requests), tally.Whole())
}
