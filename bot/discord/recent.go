package discord

import "sync"

// remembered is how many events are remembered as taken in. The bot's own memory
// outlives a restart; this one keeps an answer from being given twice.
const remembered = 4096

// recent knows the last events taken in. After a resume the gateway may say again
// what it has said before.
type recent struct {
	mu    sync.Mutex
	seen  map[string]bool
	order []string
}

// first reports whether an event is new, and remembers it.
func (r *recent) first(id string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.seen[id] {
		return false
	}
	if r.seen == nil {
		r.seen = map[string]bool{}
	}
	r.seen[id] = true
	r.order = append(r.order, id)
	if len(r.order) > remembered {
		delete(r.seen, r.order[0])
		r.order = append([]string(nil), r.order[1:]...)
	}
	return true
}
