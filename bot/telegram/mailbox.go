package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"time"

	"larderhand/store"
)

// mailbox takes updates in. Each is written down, with the offset that confirms it,
// before the platform is told so; it is struck out once all is done about it. What
// is still there at the start is done then.
type mailbox struct {
	a    *Adapter
	mu   sync.Mutex
	next int       // one past the last update taken
	last time.Time // when that was

	floods map[place]bool // conversations whose queue was full when they last wrote
}

// numbersRestart: when nothing has come for a week the platform may go on with any
// number (Bot API, Update), so that the old one says nothing any more. A day less is
// on the safe side.
const numbersRestart = 6 * 24 * time.Hour

func event(id int) string { return scheme + strconv.Itoa(id) }

// recall reads how far an earlier run came and does what it left undone.
func (b *mailbox) recall(ctx context.Context) error {
	text, err := b.a.Keep.Get(ctx, b.a.fact("offset", ""))
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return err
	}
	var sec int64
	if _, err := fmt.Sscan(text, &b.next, &sec); err != nil {
		b.next = 0
	}
	b.last = time.Unix(sec, 0)
	left, err := b.a.Keep.List(ctx, b.a.fact("update", ""))
	if err != nil {
		return err
	}
	for _, f := range left {
		b.dispatch(ctx, f.Name, []byte(f.Value))
	}
	return nil
}

// offset is what to ask updates from; 0 is whatever is there.
func (b *mailbox) offset() int {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.a.Now().Sub(b.last) > numbersRestart {
		return 0
	}
	return b.next
}

// take takes updates in, in their order. Those taken before are passed over.
func (b *mailbox) take(ctx context.Context, raws []json.RawMessage) {
	from := b.offset()
	b.mu.Lock()
	defer b.mu.Unlock()
	var facts []store.Fact
	for _, raw := range raws {
		var u struct {
			ID int `json:"update_id"`
		}
		if err := json.Unmarshal(raw, &u); err != nil || u.ID < from {
			continue
		}
		b.next, b.last = u.ID+1, b.a.Now()
		facts = append(facts, store.Fact{Name: b.a.fact("update", fmt.Sprintf("%020d", u.ID)), Value: string(raw)})
	}
	if len(facts) == 0 {
		return
	}
	offset := store.Fact{Name: b.a.fact("offset", ""), Value: fmt.Sprint(b.next, b.last.Unix())}
	if err := b.a.Keep.Put(ctx, append(facts[:len(facts):len(facts)], offset)...); err != nil {
		// Answered all the same: a sum needs no store.
		b.a.Log.ErrorContext(ctx, "updates could not be written down; a crash now would lose them", "updates", len(facts), "error", err)
	}
	for _, f := range facts {
		b.dispatch(ctx, f.Name, []byte(f.Value))
	}
}

// putTime is how long a conversation whose queue is full is waited for. After that
// it is a flood: while it lasts, what finds no place at once is dropped rather than
// hold up everyone else.
const (
	putTime   = time.Second
	floodTime = 5 * time.Millisecond
)

// dispatch queues an update with its conversation.
func (b *mailbox) dispatch(ctx context.Context, name string, raw []byte) {
	a := b.a
	u, err := decodeUpdate(raw)
	if err != nil {
		a.Log.ErrorContext(ctx, "an update cannot be read", "error", err)
		b.done(name, "")
		return
	}
	of, do := a.route(ctx, u)
	if do == nil {
		b.done(name, event(u.UpdateID))
		return
	}
	patience := putTime
	if b.floods[of] {
		patience = floodTime
	}
	pctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	err = a.inbox.Put(pctx, of.address(), func(ctx context.Context) {
		err := b.run(ctx, u, do)
		if err != nil && ctx.Err() != nil {
			return // cut short: done again at the next start
		}
		if err != nil {
			a.Log.ErrorContext(ctx, "an update could not be handled", "event", event(u.UpdateID), "error", err)
		}
		b.done(name, event(u.UpdateID))
	})
	if err == nil {
		delete(b.floods, of)
		return
	}
	if ctx.Err() == nil && pctx.Err() != nil {
		if b.floods == nil {
			b.floods = map[place]bool{}
		}
		b.floods[of] = true
		a.Log.WarnContext(ctx, "a conversation sends more than can be answered; an update was dropped", "conversation", of.address(), "event", event(u.UpdateID))
		b.done(name, event(u.UpdateID))
	}
}

// run handles an update. One that makes us panic is not tried again.
func (b *mailbox) run(ctx context.Context, u update, do func(context.Context) error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	return do(ctx)
}

func (b *mailbox) done(name, event string) {
	if err := b.a.Keep.Drop(context.Background(), name); err != nil {
		b.a.Log.Error("an update that was handled could not be struck out; it will be answered again after a restart", "error", err)
	}
	if b.a.Handled != nil && strings.HasPrefix(event, scheme) {
		b.a.Handled(event)
	}
}
