package bot

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// maxText is how many characters a message may have; more is nothing a person types,
// and each platform stops far below it.
const maxText = 10_000

// Handle answers one message. It always has an answer: what a person did wrong
// becomes a sentence, what we did wrong is logged and said. A message with an
// Event already handled gets its old answer and changes nothing.
func (b *Bot) Handle(ctx context.Context, m Message) (r reply.Reply) {
	defer func() {
		if p := recover(); p != nil {
			b.Log.ErrorContext(ctx, "a handler panicked", "panic", p, "stack", string(debug.Stack()))
			r = apology()
		}
	}()
	if m.At.IsZero() {
		m.At = b.Clock.Now()
	}
	if !b.flood.allows(m, m.At) {
		return slowDown()
	}
	line, err := clean(m)
	if err != nil {
		r, _ = refusal(err)
		return r
	}
	if m.Fetch != nil && b.wantsFiles(m, line) {
		m.Files = m.Fetch(ctx)
	}
	r, err = b.answer(ctx, m, line)
	if err == nil {
		return r
	}
	if refused, ok := refusal(err); ok {
		return refused
	}
	var broken *store.Broken
	if !errors.As(err, &broken) { // of a file that can't be used the store has told already, once
		b.Log.ErrorContext(ctx, "could not answer", "error", err, slog.String("conversation", string(m.Conversation)))
	}
	return b.withoutStore(ctx, m, line, broken != nil)
}

// wantsFiles says whether a line has a use for the files that came with it.
func (b *Bot) wantsFiles(m Message, line string) bool {
	if _, ok := tableIn(m); ok {
		return true
	}
	cmd, _, found := b.find(line)
	if _, rest, ok, err := parse.Batch(line); !found && ok && err == nil { // "3 note bag was loose"
		cmd, _, found = b.find(rest)
	}
	return found && cmd.Files || line == "" && slices.ContainsFunc(m.Files, isJSON)
}

// clean gives the line a message stands for: what was typed, or what the button
// stands for.
func clean(m Message) (string, error) {
	line := m.Text
	if m.Press != nil {
		line = m.Press.Line
	}
	if n := utf8.RuneCountInString(line); n > maxText {
		return "", &Error{Kind: BadInput, Why: fmt.Sprintf("That is %d characters; I read up to %d.", n, maxText), Example: "5 lb juniper"}
	}
	return strings.TrimSpace(strings.ToValidUTF8(line, "")), nil
}

// answer runs the line in one transaction.
func (b *Bot) answer(ctx context.Context, m Message, line string) (reply.Reply, error) {
	var r reply.Reply
	cmd, args, found := b.understand(m, line)
	if _, ok := tableIn(m); ok {
		cmd, args, found = Command{Run: (*Turn).table}, line, true
	}
	if found && cmd.Reads {
		err := b.Ledger.View(ctx, m.At, func(tx Tx) error {
			t, err := b.turn(ctx, tx, m)
			if err != nil {
				return err
			}
			r, err = t.inUnits(cmd.Run(t, args))
			return err
		})
		if !errors.Is(err, errStranger) {
			return r, err
		}
	}
	if err := b.arrive(ctx, m); err != nil {
		return r, err
	}
	if found && cmd.Ahead != nil {
		var err error
		if m, err = cmd.Ahead(ctx, b, m, args); err != nil {
			return r, err
		}
	}
	err := b.Ledger.Update(ctx, m.At, func(tx Tx) error {
		old, err := b.recall(tx, m)
		if err == nil {
			r = old
			return nil
		}
		if !errors.Is(err, store.ErrNotFound) {
			return err
		}
		t, err := b.meet(ctx, tx, m)
		if err != nil {
			return err
		}
		if cmd.Name != "caution" && cmd.Name != "stock" { // grams of curing mix are grams everywhere
			if err := t.learnUnits(line); err != nil {
				return err
			}
		}
		if found {
			r, err = t.inUnits(cmd.Run(t, args))
		} else {
			r, err = t.inUnits(t.guess(line))
		}
		if err != nil {
			return err
		}
		return remember(tx, m, r)
	})
	return r, err
}

// arrive notes that someone spoke, in a transaction of its own: who they are, and that
// a chat out of reach is back. What they asked may then be refused without any of
// that being lost.
func (b *Bot) arrive(ctx context.Context, m Message) error {
	known := errors.New("known")
	err := b.Ledger.View(ctx, m.At, func(tx Tx) error {
		if _, err := b.turn(ctx, tx, m); err != nil {
			return err
		}
		return known
	})
	switch {
	case errors.Is(err, known):
		return nil
	case !errors.Is(err, errStranger):
		return err
	}
	return b.Ledger.Update(ctx, m.At, func(tx Tx) error {
		_, err := b.meet(ctx, tx, m)
		return err
	})
}

func (b *Bot) recall(tx Tx, m Message) (reply.Reply, error) {
	var r reply.Reply
	if m.Event == "" {
		return r, store.ErrNotFound
	}
	body, err := tx.Recall(m.Event)
	if err != nil {
		return r, err
	}
	return r, json.Unmarshal([]byte(body), &r)
}

func remember(tx Tx, m Message, r reply.Reply) error {
	if m.Event == "" {
		return nil
	}
	body, err := json.Marshal(r)
	if err != nil {
		return err
	}
	return tx.Remember(m.Event, string(body))
}

// withoutStore answers a sum while nothing can be stored or read. broken says that
// this will stay so for a while.
func (b *Bot) withoutStore(ctx context.Context, m Message, line string, broken bool) reply.Reply {
	cmd, args, found := b.understand(m, line)
	conv, known := b.settingsOf(ctx, m)
	loc := b.location(conv.Settings)
	t := &Turn{ctx: ctx, bot: b, Msg: m, Conv: conv, Loc: loc, Now: m.At.In(loc)}
	var (
		r   reply.Reply
		err error
	)
	switch {
	case found && cmd.Sums:
		r, err = cmd.Run(t, args)
	case !found:
		r, err = t.guess(line)
	case broken:
		r.Say("My notebook can't be read or written just now, so I can do sums and nothing else. Nothing already noted is lost; whoever runs me has been told.")
		r.Private = true
		return r
	default:
		return apology()
	}
	if err != nil {
		if refused, ok := refusal(err); ok {
			return refused
		}
		return apology()
	}
	r.Par("My notebook can't be written just now, so I can't open or change a batch. Nothing already noted is lost.")
	if !known {
		r.Say("I can't read your settings either: this is counted for a 6.25 % mix and held to the strictest limits I know. Is your packet another? Say it: ", reply.Type("5 lb mix 0.6%"))
	}
	return r
}

// settingsOf reads a conversation's settings while nothing can be written; if they
// cannot be read either, the strictest rules stand in for them.
func (b *Bot) settingsOf(ctx context.Context, m Message) (conv store.Conversation, known bool) {
	err := b.Ledger.View(ctx, m.At, func(tx Tx) error {
		at, err := home(tx, m)
		if err != nil {
			return err
		}
		conv, err = tx.Conversation(at.Conversation)
		return err
	})
	if err == nil {
		return conv, true
	}
	conv = b.newConversation(m)
	if !errors.Is(err, store.ErrNotFound) {
		conv.Settings.Rules = "strictest"
	}
	return conv, errors.Is(err, store.ErrNotFound)
}

func apology() reply.Reply {
	var r reply.Reply
	r.Say("That went wrong on my side. Nothing was changed; please try again in a minute.")
	r.Private = true
	return r
}

func (b *Bot) newConversation(m Message) store.Conversation {
	return store.Conversation{Address: m.Conversation, Settings: defaults(b.Zone)}
}

// Now is the bot's idea of the time.
func (b *Bot) Now() time.Time { return b.Clock.Now() }
