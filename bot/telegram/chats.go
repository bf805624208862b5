package telegram

import (
	"context"
	"fmt"
	"strconv"
	"sync"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/store"
)

// resolve follows a group to the supergroup it became.
func (a *Adapter) resolve(p place) place {
	if to, ok := a.moved.Load(p.chat); ok {
		p.chat = to.(int64)
	}
	return p
}

// move follows a group that became a supergroup. Several paths lead here for one
// move, and doing it again changes nothing.
func (a *Adapter) move(ctx context.Context, from, to int64) {
	if from == to || from == 0 || to == 0 {
		return
	}
	ctx = context.WithoutCancel(ctx) // half a move would leave pings behind
	a.moved.Store(from, to)
	a.admins.forget(from)
	err := a.Keep.Put(ctx, store.Fact{Name: a.fact("moved", strconv.FormatInt(from, 10)), Value: strconv.FormatInt(to, 10)})
	if err == nil {
		err = a.Places.MoveChat(ctx, a.Now(), place{chat: from}.address(), place{chat: to}.address())
	}
	if err != nil {
		a.Log.ErrorContext(ctx, "a group became a supergroup and could not be followed yet", "from", from, "to", to, "error", err)
		return
	}
	a.Log.InfoContext(ctx, "a group became a supergroup", "from", from, "to", to)
}

// recallMoves reads the moves of earlier runs.
func (a *Adapter) recallMoves(ctx context.Context) error {
	prefix := a.fact("moved", "")
	facts, err := a.Keep.List(ctx, prefix)
	for _, f := range facts {
		from, err1 := strconv.ParseInt(f.Name[len(prefix):], 10, 64)
		to, err2 := strconv.ParseInt(f.Value, 10, 64)
		if err1 == nil && err2 == nil {
			a.moved.Store(from, to)
		}
	}
	return err
}

// park holds back what is due in a chat that cannot be written to.
func (a *Adapter) park(ctx context.Context, chat store.Address, why string) {
	if err := a.Places.ParkChat(ctx, a.Now(), chat, why); err != nil {
		a.Log.ErrorContext(ctx, "a chat out of reach could not be parked", "chat", chat, "error", err)
	}
}

func (a *Adapter) unpark(ctx context.Context, chat store.Address) {
	if err := a.Places.UnparkChat(ctx, a.Now(), chat); err != nil {
		a.Log.ErrorContext(ctx, "a chat back in reach could not be taken up", "chat", chat, "error", err)
	}
}

// standing takes up what became of the bot itself in a chat: removed, restricted or
// blocked parks the chat, the opposite takes it up again, and a group that let us in
// is told what we are.
func (a *Adapter) standing(ctx context.Context, event string, u *tgbotapi.ChatMemberUpdated) error {
	p := a.resolve(place{chat: u.Chat.ID})
	if u.Chat.IsChannel() {
		return nil // nothing is ever said in a channel
	}
	a.admins.forget(p.chat)
	now := u.NewChatMember
	if !mayWrite(now) {
		a.park(ctx, p.address(), "the bot is "+now.Status+" there")
		return nil
	}
	a.unpark(ctx, p.address())
	if !p.group() || inside(u.OldChatMember) {
		return nil
	}
	r := a.Bot.Handle(ctx, bot.Message{Event: event, Conversation: p.address(), Sender: a.person(ctx, p, &u.From), Text: welcomeLine})
	return a.insist(ctx, p, event, r, 0)
}

func inside(m tgbotapi.ChatMember) bool { return m.Status != "left" && m.Status != "kicked" }

func mayWrite(m tgbotapi.ChatMember) bool {
	return inside(m) && (m.Status != "restricted" || m.CanSendMessages)
}

// rests remembers the closed topics that were told so.
type rests struct {
	mu   sync.Mutex
	told map[place]bool
}

func (r *rests) set(p place, told bool) (before bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	before = r.told[p]
	if r.told == nil || len(r.told) > 1000 {
		r.told = map[place]bool{}
	}
	r.told[p] = told
	return before
}

// topicTrouble takes up that a topic cannot be written to. The group hears of it in
// its General topic: a topic that is gone goes on there, a closed one rests until
// it is opened again. Every other error is handed on.
func (a *Adapter) topicTrouble(ctx context.Context, p place, err error) error {
	if p.topic == 0 {
		return err
	}
	switch {
	case saying(err, "message thread not found", "TOPIC_DELETED"):
		if nerr := a.notice(ctx, p, "The topic I was writing in is gone, so what belongs there goes on here."); nerr != nil {
			return nerr
		}
		return &store.Failure{Kind: store.Moved, To: p.whole().address(), Cause: err}
	case saying(err, "TOPIC_CLOSED"):
		if !a.rests.set(p, true) {
			if nerr := a.notice(ctx, p, "A topic I ping in was closed, so its pings rest until it is opened again or someone writes to me there."); nerr != nil {
				a.rests.set(p, false)
				return nerr
			}
		}
		return &store.Failure{Kind: store.Gone, Cause: err}
	}
	return err
}

func (a *Adapter) notice(ctx context.Context, p place, text string) error {
	params := p.whole().params()
	params["text"] = text
	if err := a.api.call(ctx, "sendMessage", params, nil); err != nil {
		return fmt.Errorf("tell the group about its topic: %w", err)
	}
	return nil
}

// topicOpened takes up that the platform says a topic was opened again.
func (a *Adapter) topicOpened(ctx context.Context, p place) {
	a.rests.set(p, false)
	a.unpark(ctx, p.address())
}
