package discord

import "sync"

// remembered is how many events are remembered as taken in. The bot's own memory
// outlives a restart; this one keeps an answer from being given twice.
const remembered = 4096

// recent knows the last events taken in. After a resume the gateway may say again
// what it has said before.
type recent struct {
	mu   sync.Mutex
	seen map[string]bool
	ring [remembered]string
	next int // where the oldest is, once the ring is full
}

// first reports whether an event is new, and remembers it.
func (r *recent) first(id string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.seen[id] {
		return false
	}
	if r.seen == nil {
		r.seen = make(map[string]bool, remembered)
	}
	if old := r.ring[r.next]; old != "" {
		delete(r.seen, old)
	}
	r.seen[id], r.ring[r.next] = true, id
	r.next = (r.next + 1) % remembered
	return true
}
