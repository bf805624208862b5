package telegramtest

import (
	"encoding/json"
	"time"
)

// queue holds what the bot has not confirmed yet, oldest first.
type queue struct {
	pending []update
	last    int
	allowed map[string]bool // nil is the default set
	poll    *poll           // the getUpdates that waits, if one does
}

type update struct {
	id  int
	raw json.RawMessage
}

type poll struct{ ended chan *refusal }

// firstUpdate: identifiers start from a certain positive number (Bot API, Update).
const firstUpdate = 800_000_000

// longestPoll is where the server caps a poll's timeout.
const longestPoll = 50 * time.Second

// Not in the default set: an empty list asks for all types but these (Bot API,
// getUpdates).
var onRequest = map[string]bool{"chat_member": true, "message_reaction": true, "message_reaction_count": true}

// allow takes allowed_updates as sent; nil or empty means the default set.
func (q *queue) allow(kinds []string) {
	q.allowed = nil
	for _, k := range kinds {
		if q.allowed == nil {
			q.allowed = map[string]bool{}
		}
		q.allowed[k] = true
	}
}

func (q *queue) wants(kind string) bool {
	if q.allowed == nil {
		return !onRequest[kind]
	}
	return q.allowed[kind]
}

// confirm drops the updates an offset says were handled. A negative one keeps that
// many from the end.
func (q *queue) confirm(offset int) {
	if offset < 0 {
		q.pending = q.pending[max(0, len(q.pending)+offset):]
		return
	}
	for len(q.pending) > 0 && q.pending[0].id < offset {
		q.pending = q.pending[1:]
	}
}

// push queues an update, unless the bot did not ask for its kind. The lock is held.
func (s *Server) push(kind string, payload object) {
	if !s.queue.wants(kind) {
		return
	}
	if s.queue.last == 0 {
		s.queue.last = firstUpdate
	}
	s.queue.last++
	raw, err := json.Marshal(object{"update_id": s.queue.last, kind: payload})
	if err != nil {
		s.violate("the fake", "update: %v", err)
		return
	}
	if s.spec != nil {
		s.shape("an update of kind "+kind, s.spec.Value("Update", raw))
	}
	s.queue.pending = append(s.queue.pending, update{s.queue.last, raw})
	s.touch()
}

// takeAllowed reads the parameter allowed_updates. Left out, the previous setting
// stays.
func (s *Server) takeAllowed(c *call) {
	var kinds []string
	if c.has("allowed_updates") && json.Unmarshal([]byte(c.params["allowed_updates"]), &kinds) == nil && kinds != nil {
		s.queue.allow(kinds)
	}
}

var (
	conflictPoll = &refusal{code: 409, text: "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running"}
	conflictHook = &refusal{code: 409, text: "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"}
	conflictSet  = &refusal{code: 409, text: "Conflict: terminated by setWebhook request"}
)

// getUpdates takes the lock itself, since it waits without it.
func (s *Server) getUpdates(c *call) (any, *refusal) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case s.off != "":
		return nil, badRequest("Logged out")
	case s.hook.url != "":
		return nil, conflictHook
	}
	s.takeAllowed(c)
	s.queue.confirm(int(c.integer("offset")))
	s.touch()
	most := 100
	if n := int(c.integer("limit")); n > 0 {
		most = min(n, most)
	}
	wait := min(time.Duration(c.integer("timeout"))*time.Second, longestPoll)
	if len(s.queue.pending) == 0 && wait > 0 {
		if no := s.longPoll(c, wait); no != nil {
			return nil, no
		}
	}
	out := []json.RawMessage{}
	for _, u := range s.queue.pending[:min(most, len(s.queue.pending))] {
		out = append(out, u.raw)
	}
	return out, nil
}

// longPoll waits for an update, the timeout, another poll or the client's leaving.
// The lock is held on entry and on return.
func (s *Server) longPoll(c *call, wait time.Duration) *refusal {
	s.endPoll(conflictPoll)
	p := &poll{ended: make(chan *refusal, 1)}
	s.queue.poll = p
	s.touch()
	timer := time.NewTimer(wait)
	defer timer.Stop()
	for len(s.queue.pending) == 0 {
		changed := s.changed
		s.mu.Unlock()
		var no *refusal
		over := true
		select {
		case <-changed:
			over = false
		case no = <-p.ended:
		case <-timer.C:
		case <-c.ctx.Done():
		case <-s.done:
		}
		s.mu.Lock()
		if no != nil {
			return no
		}
		if over {
			break
		}
	}
	if s.queue.poll == p {
		s.queue.poll = nil
	}
	return nil
}

// endPoll ends a waiting getUpdates with an error.
func (s *Server) endPoll(no *refusal) {
	if s.queue.poll != nil {
		s.queue.poll.ended <- no
		s.queue.poll = nil
	}
}

// Pending is the number of updates the bot has not confirmed.
func (s *Server) Pending() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.queue.pending)
}

// AwaitPolling waits until a getUpdates of the bot waits for updates: the bot is up
// and has nothing left to fetch.
func (s *Server) AwaitPolling() {
	s.t.Helper()
	s.must("a poll", func() bool { return s.queue.poll != nil && len(s.queue.pending) == 0 })
}

// AwaitConfirmed waits until the bot has confirmed every update: by a poll with a
// higher offset, or by a 2xx from its webhook.
func (s *Server) AwaitConfirmed() {
	s.t.Helper()
	s.must("every update confirmed", func() bool { return len(s.queue.pending) == 0 })
}
