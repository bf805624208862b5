package discordtest

import "slices"

// Use is one use of a command, button, menu or form, and what came of it.
type Use struct{ i *interaction }

// ID is the interaction's id.
func (u *Use) ID() string { return u.i.id }

// Ack is the type of the bot's first answer, as in
// interactions/receiving-and-responding.mdx: 4 a reply, 5 a deferred one, 6 a
// deferred update, 7 an update, 8 suggestions, 9 a form; 0 while there is none.
func (u *Use) Ack() int {
	u.i.s.mu.Lock()
	defer u.i.s.mu.Unlock()
	return u.i.ack
}

// WaitAck waits for the first answer and gives its type.
func (u *Use) WaitAck() int {
	u.i.s.t.Helper()
	u.i.s.wait("an answer to "+u.i.id, func() bool { return u.i.ack != 0 })
	return u.Ack()
}

// WaitReply waits for the finished answer: the reply, with its content if it
// was deferred, or the message as it was updated.
func (u *Use) WaitReply() Message {
	u.i.s.t.Helper()
	var out Message
	u.i.s.wait("the reply to "+u.i.id, func() bool {
		m := u.i.original
		if m == nil || m.deleted || m.loading() || u.i.ack == updateLater && u.i.updated == 0 {
			return false
		}
		out = m.view()
		return true
	})
	return out
}

// WaitFollowUp waits for the n-th follow-up, from 1.
func (u *Use) WaitFollowUp(n int) Message {
	u.i.s.t.Helper()
	var out Message
	u.i.s.wait("follow-up "+itoa(n)+" to "+u.i.id, func() bool {
		if len(u.i.followUps) < n {
			return false
		}
		out = u.i.followUps[n-1].view()
		return true
	})
	return out
}

// FollowUps is how many follow-ups there are.
func (u *Use) FollowUps() int {
	u.i.s.mu.Lock()
	defer u.i.s.mu.Unlock()
	return len(u.i.followUps)
}

// WaitForm waits for a modal to open.
func (u *Use) WaitForm() *Form {
	u.i.s.t.Helper()
	u.i.s.wait("a form in answer to "+u.i.id, func() bool { return u.i.modal != nil })
	return u.i.modal
}

// Refused lists the codes of answers that were refused: 40060 for a second
// first answer, 10062 for one that came too late.
func (u *Use) Refused() []int {
	u.i.s.mu.Lock()
	defer u.i.s.mu.Unlock()
	return slices.Clone(u.i.refused)
}

// WaitRefused waits until an answer was refused with the code.
func (u *Use) WaitRefused(code int) {
	u.i.s.t.Helper()
	u.i.s.wait("a refusal with "+itoa(code), func() bool { return slices.Contains(u.i.refused, code) })
}

// Failed says whether the person sees "The application did not respond".
func (u *Use) Failed() bool {
	u.i.s.mu.Lock()
	defer u.i.s.mu.Unlock()
	return u.i.expired()
}

// Redeliver sends the same event again, with the same id and a new sequence
// number: events may come up to N times (reference.mdx, "Consistency").
func (u *Use) Redeliver() {
	u.i.s.locked(func() {
		u.i.s.note("interaction %s is delivered again", u.i.id)
		u.i.send()
	})
}

// Unanswered lists the uses the bot has given no answer so far, such as
// "/cure by Ines": for the end of a test, when there should be none.
func (s *Server) Unanswered() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []string
	for _, i := range s.interactions {
		if i.ack == 0 {
			out = append(out, i.what()+" by "+i.person.Name)
		}
	}
	slices.Sort(out)
	return out
}

// what names the use as a person would.
func (i *interaction) what() string {
	if i.name != "" {
		return "/" + i.name
	}
	return text(object(i.payload["data"])["custom_id"])
}
