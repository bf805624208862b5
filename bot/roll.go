package bot

import (
	"context"
	"sync"
	"time"

	"larderhand/store"
)

// How long an answer is kept: our own choice, no source.
const (
	insideKept  = 5 * time.Minute  // how long somebody is taken to be in a group still
	outsideKept = 30 * time.Second // and how long to be out of it: they may just have joined
	mostOnRoll  = 4096             // answers kept in mind; past that all are asked for anew
)

// rollCache asks a roll no more often than needed. What could not be found out is not
// kept.
type rollCache struct {
	of  Roll
	now func() time.Time

	mu   sync.Mutex
	kept map[speaker]present
}

type present struct {
	in    bool
	until time.Time
}

// Inside is the roll's answer, or its last one of a moment ago.
func (c *rollCache) Inside(ctx context.Context, group store.Address, key string) (bool, error) {
	who := speaker{group, key}
	c.mu.Lock()
	p, ok := c.kept[who]
	c.mu.Unlock()
	if ok && c.now().Before(p.until) {
		return p.in, nil
	}
	in, err := c.of.Inside(ctx, group, key)
	if err != nil {
		return false, err
	}
	long := outsideKept
	if in {
		long = insideKept
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.kept == nil || len(c.kept) >= mostOnRoll {
		c.kept = map[speaker]present{}
	}
	c.kept[who] = present{in, c.now().Add(long)}
	return in, nil
}
