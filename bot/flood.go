package bot

import (
	"sync"
	"time"

	"golang.org/x/time/rate"

	"larderhand/bot/reply"
	"larderhand/store"
)

// What one member of a group may say to the bot: a burst, and then one thing every
// few seconds. Nobody at work comes near it. Our own choice, no source.
const (
	floodBurst = 60
	floodEvery = 2 * time.Second
	mostHeard  = 4096 // members whose count is kept in mind
)

// speaker is a member of a conversation.
type speaker struct {
	at  store.Address
	key string
}

// flood slows members of groups who say more than anyone means. It keeps no time of
// its own.
type flood struct {
	mu    sync.Mutex
	heard map[speaker]*rate.Limiter
}

// allows says whether a message may be worked off.
func (f *flood) allows(m Message, now time.Time) bool {
	if m.Direct || m.Sender.Key == "" {
		return true
	}
	who := speaker{m.Conversation, m.Sender.Key}
	f.mu.Lock()
	defer f.mu.Unlock()
	l, ok := f.heard[who]
	if !ok {
		if f.heard == nil || len(f.heard) >= mostHeard {
			f.forget(now)
		}
		l = rate.NewLimiter(rate.Every(floodEvery), floodBurst)
		f.heard[who] = l
	}
	return l.AllowN(now, 1)
}

// forget drops those who have been quiet long enough to start anew anyway, or
// everyone if nobody has.
func (f *flood) forget(now time.Time) {
	kept := map[speaker]*rate.Limiter{}
	for who, l := range f.heard {
		if l.TokensAt(now) < floodBurst {
			kept[who] = l
		}
	}
	if len(kept) >= mostHeard {
		kept = map[speaker]*rate.Limiter{}
	}
	f.heard = kept
}

func slowDown() reply.Reply {
	var r reply.Reply
	r.Say("That was a lot at once; I left this one out. Give me a few seconds and say it again.")
	r.Private, r.Silent = true, true
	return r
}
