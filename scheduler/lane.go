package scheduler

import (
	"time"

	"golang.org/x/time/rate"

	"larderhand/scheduler/plan"
	"larderhand/store"
)

// turn is one message to be sent, from when on.
type turn struct {
	chores []store.Chore
	at     time.Time
	chat   *chat
}

// lane is one platform's traffic.
type lane struct {
	name   string
	limits Limits
	bucket *rate.Limiter
	hold   hold
	queue  []turn           // claimed, in the order they will go
	flying int              // on their way
	bulk   bool             // more was due than the last claim took
	chats  map[string]*chat // by room
}

func newLane(name string, l Limits) *lane {
	return &lane{name: name, limits: l, bucket: l.All.bucket(), chats: map[string]*chat{}}
}

func (l *lane) chat(at store.Address) *chat {
	room, r := string(at), Rate{}
	if l.limits.Chat != nil {
		room, r = l.limits.Chat(at)
	}
	k, ok := l.chats[room]
	if !ok {
		k = &chat{bucket: r.bucket()}
		l.chats[room] = k
	}
	return k
}

// forget drops what need not be remembered of rooms.
func (l *lane) forget(now time.Time) {
	for room, c := range l.chats {
		if c.idle(now) {
			delete(l.chats, room)
		}
	}
}

// enqueue gives each message its place in the lane's time and gives back those
// that have to wait for their own conversation, by when they may be tried again.
func (l *lane) enqueue(now time.Time, chores []store.Chore) (later []turn) {
	groups := plan.Merge(chores, func(c store.Chore) string { return c.Message }, byUrgency)
	for _, g := range groups {
		c := l.chat(g.Items[0].Address)
		if at := c.free(now); at.After(now) {
			later = append(later, turn{g.Items, wholeMillis(at), c})
			continue
		}
		c.busy = true
		l.queue = append(l.queue, turn{g.Items, now.Add(l.bucket.ReserveN(now, 1).DelayFrom(now)), c})
	}
	return later
}

func byUrgency(a, b store.Chore) int { return b.Urgency - a.Urgency }

// next takes the first message whose time has come out of the queue.
func (l *lane) next(now time.Time, workers int) (turn, bool) {
	if len(l.queue) == 0 || (workers > 0 && l.flying >= workers) {
		return turn{}, false
	}
	t := l.queue[0]
	// Nothing is ever queued far ahead: if it seems so, the clock was set back.
	if wait := t.at.Sub(now); wait > 0 && wait <= leaseFor {
		return turn{}, false
	}
	l.queue = l.queue[1:]
	l.flying++
	return t, true
}

// landed notes that a message is no longer on its way.
func (l *lane) landed(t turn) {
	l.flying--
	t.chat.busy = false
}
