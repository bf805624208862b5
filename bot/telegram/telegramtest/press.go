package telegramtest

import (
	"strconv"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// query is a press of a button on its way to an answer.
type query struct {
	id       string
	user     *User
	answered bool
	expired  bool
	answer   Answer
}

// Answer is what a press shows the person.
type Answer struct {
	Text  string // "" stops the spinner and shows nothing
	Alert bool   // a box to close instead of a passing line
	URL   string
}

// pressAnswerMost is the longest answer to a press (Bot API, answerCallbackQuery).
const pressAnswerMost = 200

func limitPressAnswer(s *Server, c *call) *refusal {
	if n := markup.Len(c.params["text"]); n > pressAnswerMost {
		s.violate(c.rec.Method, "an answer of %d characters, at most %d are allowed", n, pressAnswerMost)
		return badRequest("MESSAGE_TOO_LONG")
	}
	if n := c.integer("cache_time"); n < 0 {
		s.violate(c.rec.Method, "a negative cache_time")
	}
	return nil
}

func (s *Server) answerCallbackQuery(c *call) (any, *refusal) {
	id := c.params["callback_query_id"]
	for _, q := range s.presses {
		if q.id != id {
			continue
		}
		if q.answered || q.expired {
			return nil, badRequest("query is too old and response timeout expired or query ID is invalid")
		}
		q.answered = true
		q.answer = Answer{Text: c.params["text"], Alert: c.flag("show_alert"), URL: c.params["url"]}
		return true, nil
	}
	s.violate(c.rec.Method, "there never was a callback query %q", id)
	return nil, badRequest("query is too old and response timeout expired or query ID is invalid")
}

// Press is one press of a button.
type Press struct {
	ID string // of the callback query
	s  *Server
	q  *query
}

// press sends the bot a callback query. A message deleted meanwhile comes as one
// the bot cannot reach. The lock is held.
func (s *Server) press(u *User, m *message, data string) *Press {
	q := &query{id: strconv.FormatInt(4_000_000_000_000_000+int64(len(s.presses)+1), 10), user: u}
	s.presses = append(s.presses, q)
	about := s.wireMessage(m, true)
	if m.deleted {
		about = object{"chat": wireChat(m.chat), "message_id": m.id, "date": 0}
	}
	s.push("callback_query", object{"id": q.id, "from": wireUser(u), "message": about,
		"chat_instance": strconv.FormatInt(m.chat.id*7919, 10), "data": data})
	return &Press{ID: q.id, s: s, q: q}
}

// Await waits for the bot's answer.
func (p *Press) Await() Answer {
	p.s.t.Helper()
	p.s.must("an answer to the press", func() bool { return p.q.answered })
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	return p.q.answer
}

// Answered tells whether the bot has answered.
func (p *Press) Answered() bool {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	return p.q.answered
}

// Expire makes the press too old to be answered.
func (p *Press) Expire() {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	p.q.expired = true
}

// Unanswered counts presses whose button still spins.
func (s *Server) Unanswered() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := 0
	for _, q := range s.presses {
		if !q.answered && !q.expired {
			n++
		}
	}
	return n
}
