package discord

import (
	"strconv"
	"testing"
)

// The newest events are known, each once, and older ones are let go.
func TestRecent(t *testing.T) {
	var r recent
	for i := range 3 * remembered {
		id := strconv.Itoa(i)
		if !r.first(id) || r.first(id) {
			t.Fatalf("event %d is not new once", i)
		}
		if i >= remembered && r.first(strconv.Itoa(i-remembered+1)) {
			t.Fatalf("after event %d, the %dth before it is forgotten", i, remembered-1)
		}
		if len(r.seen) > remembered {
			t.Fatalf("%d events are remembered", len(r.seen))
		}
	}
	if !r.first("0") {
		t.Error("an event long past is still remembered")
	}
}

func BenchmarkRecent(b *testing.B) {
	var r recent
	for i := 0; b.Loop(); i++ {
		r.first(strconv.Itoa(i))
	}
}
