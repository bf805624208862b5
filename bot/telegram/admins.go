package telegram

import (
	"context"
	"strconv"
	"sync"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// adminsKept is how long a list of administrators is trusted. Someone who was made
// one, or is one no longer, is known as such after that at the latest.
const (
	adminsKept  = 5 * time.Minute
	adminsAgain = 30 * time.Second // after a look-up that failed
)

// admins remembers who administers which chat.
type admins struct {
	mu sync.Mutex
	of map[int64]adminList
}

type adminList struct {
	ids   map[int64]bool
	until time.Time
}

func (c *admins) get(chat int64) (adminList, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	l, ok := c.of[chat]
	return l, ok
}

func (c *admins) put(chat int64, l adminList) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.of == nil {
		c.of = map[int64]adminList{}
	}
	c.of[chat] = l
}

func (c *admins) forget(chat int64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.of, chat)
}

// isAdmin looks up whether a person administers a group. When that cannot be looked
// up the last answer stands, and no answer is no.
func (a *Adapter) isAdmin(ctx context.Context, p place, user int64) bool {
	l, ok := a.admins.get(p.chat)
	if ok && a.Now().Before(l.until) {
		return l.ids[user]
	}
	var list []tgbotapi.ChatMember
	err := a.api.call(ctx, "getChatAdministrators", p.whole().params(), &list)
	if err != nil {
		a.Log.WarnContext(ctx, "could not look up who administers a group", "chat", p.chat, "error", err)
		l.until = a.Now().Add(adminsAgain)
		a.admins.put(p.chat, l)
		return l.ids[user]
	}
	l = adminList{ids: map[int64]bool{}, until: a.Now().Add(adminsKept)}
	for _, m := range list {
		if m.User != nil {
			l.ids[m.User.ID] = true
		}
	}
	a.admins.put(p.chat, l)
	return l.ids[user]
}

func key(id int64) string { return strconv.FormatInt(id, 10) }
