package bot

import (
	"context"
	"errors"
	"sync"

	"larderhand/store"
)

// ErrClosed says that the inbox takes no more messages.
var ErrClosed = errors.New("the inbox is closed")

// mostWaiting is how many messages of one conversation may wait; more than that
// is a flood, and who puts it in waits.
const mostWaiting = 64

// Inbox works messages off: those of one conversation one after the other in
// their order, those of different conversations side by side by a bounded number
// of workers. A slow conversation delays no other.
type Inbox struct {
	slots chan struct{} // one for each worker
	mu    sync.Mutex
	lines map[store.Address]*waitingLine
	done  bool
	work  sync.WaitGroup
	ctx   context.Context
	stop  context.CancelFunc
}

// waitingLine is one conversation's queue. It lives while anything is in it or
// anyone waits for a place in it.
type waitingLine struct {
	queue   chan func(context.Context)
	waiting int // guarded by Inbox.mu
}

// NewInbox makes an inbox with so many workers.
func NewInbox(workers int) *Inbox {
	ctx, stop := context.WithCancel(context.Background())
	return &Inbox{slots: make(chan struct{}, workers), lines: map[store.Address]*waitingLine{}, ctx: ctx, stop: stop}
}

// Put queues a piece of work for a conversation. It waits while the
// conversation's queue is full, until ctx ends.
func (in *Inbox) Put(ctx context.Context, of store.Address, do func(context.Context)) error {
	in.mu.Lock()
	if in.done {
		in.mu.Unlock()
		return ErrClosed
	}
	l, ok := in.lines[of]
	if !ok {
		l = &waitingLine{queue: make(chan func(context.Context), mostWaiting)}
		in.lines[of] = l
		in.work.Add(1)
		go in.drain(of, l)
	}
	l.waiting++
	in.mu.Unlock()
	defer func() {
		in.mu.Lock()
		l.waiting--
		in.mu.Unlock()
	}()
	select {
	case l.queue <- do:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// drain works one conversation's queue off and goes when it is empty.
func (in *Inbox) drain(of store.Address, l *waitingLine) {
	defer in.work.Done()
	for {
		in.slots <- struct{}{}
		select {
		case do := <-l.queue:
			do(in.ctx)
		default:
		}
		<-in.slots
		in.mu.Lock()
		if len(l.queue) == 0 && l.waiting == 0 {
			delete(in.lines, of)
			in.mu.Unlock()
			return
		}
		in.mu.Unlock()
	}
}

// Stop takes no more messages and waits for those taken to be worked off; when
// ctx ends first, their contexts end and it still waits for their return.
func (in *Inbox) Stop(ctx context.Context) {
	in.mu.Lock()
	in.done = true
	in.mu.Unlock()
	idle := make(chan struct{})
	go func() { in.work.Wait(); close(idle) }()
	select {
	case <-idle:
	case <-ctx.Done():
		in.stop()
		<-idle
	}
	in.stop()
}
