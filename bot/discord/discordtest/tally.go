package discordtest

import (
	"fmt"
	"io"
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
	opened.Lock()
	defer opened.Unlock()
	if len(opened.specs) == 0 {
		fmt.Fprintln(w, "discord: LARDERHAND_SPECS is not set: nothing checked against the OpenAPI description")
		return
	}
	var requests, others int64
	for _, sp := range opened.specs {
		requests += sp.total.requests.Load()
		others += sp.total.others.Load()
	}
	fmt.Fprintf(w, "discord: %d requests, %d responses and events checked against the OpenAPI description\n", requests, others)
}

// Main runs a package's tests and reports afterwards; for TestMain:
//
//	func TestMain(m *testing.M) { os.Exit(discordtest.Main(m)) }
func Main(m *testing.M) int {
	code := m.Run()
	var said strings.Builder
	Report(&said)
	tally.Tell(strings.TrimSpace(said.String()))
	return code
}
