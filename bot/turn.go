package bot

import (
	"context"
	"errors"
	"time"

	"larderhand/bot/course"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// Turn is one message being answered: everything a handler may use. Tx is nil
// while the store cannot be used, and then only sums are run.
type Turn struct {
	ctx  context.Context
	bot  *Bot
	Tx   Tx
	Msg  Message
	Conv store.Conversation
	Me   store.Member
	Loc  *time.Location
	Now  time.Time // in the conversation's zone
}

var errStranger = errors.New("not met yet")

// turn sets up a turn that changes nothing; a conversation that is new, or was out
// of reach until now, has to be met first.
func (b *Bot) turn(ctx context.Context, tx Tx, m Message) (*Turn, error) {
	m, err := home(tx, m)
	if err != nil {
		return nil, err
	}
	conv, err := tx.Conversation(m.Conversation)
	if errors.Is(err, store.ErrNotFound) || err == nil && conv.Parked != "" {
		return nil, errStranger
	}
	if err != nil {
		return nil, err
	}
	t := b.at(ctx, tx, m, conv)
	if m.Sender.Key == "" { // nobody asks: the bot looks something up by itself
		return t, nil
	}
	t.Me, err = tx.FindMember(conv.ID, m.Sender.Key)
	if errors.Is(err, store.ErrNotFound) {
		return nil, errStranger
	}
	return t, err
}

// meet sets up a turn that may change things: a new conversation gets the
// defaults, and one that was out of reach is back, since it just spoke.
func (b *Bot) meet(ctx context.Context, tx Tx, m Message) (*Turn, error) {
	m, err := home(tx, m)
	if err != nil {
		return nil, err
	}
	conv, err := tx.Conversation(m.Conversation)
	if errors.Is(err, store.ErrNotFound) {
		conv, err = tx.SaveConversation(b.newConversation(m))
	}
	if err != nil {
		return nil, err
	}
	if conv.Parked != "" {
		if err := tx.Unpark(conv.ID); err != nil {
			return nil, err
		}
		conv.Parked = ""
	}
	t := b.at(ctx, tx, m, conv)
	said := clip(m.Sender.Name, 64)
	if said == "" { // an account that was deleted has no name; one known by name keeps it
		if _, err := tx.FindMember(conv.ID, m.Sender.Key); errors.Is(err, store.ErrNotFound) {
			said = "someone"
		}
	}
	if t.Me, err = tx.Member(conv.ID, m.Sender.Key, said); err != nil {
		return t, err
	}
	return t, t.learnPlace()
}

func (b *Bot) at(ctx context.Context, tx Tx, m Message, conv store.Conversation) *Turn {
	loc := b.location(conv.Settings)
	return &Turn{ctx: ctx, bot: b, Tx: tx, Msg: m, Conv: conv, Loc: loc, Now: m.At.In(loc)}
}

// location is a conversation's zone, or the usual one where it has none this
// program knows.
func (b *Bot) location(s store.Settings) *time.Location {
	if loc, err := b.zones.Location(s.Zone); err == nil {
		return loc
	}
	return b.usualZone()
}

// usualZone is the zone of conversations that have not chosen one, by the rules as
// they are now.
func (b *Bot) usualZone() *time.Location {
	if loc, err := b.zones.Location(b.Zone.String()); err == nil {
		return loc
	}
	return b.Zone
}

// ForgetZones has the rules of zones read anew. They may change while the program
// runs, when the machine gets new ones.
func (b *Bot) ForgetZones() { b.zones.Forget() }

// rhythm is when a conversation wants to hear from us.
func rhythm(s store.Settings, loc *time.Location, now time.Time) course.Rhythm {
	r := course.Rhythm{Loc: loc, Now: now, Hour: plan.HourMinute(s.PingHour),
		Quiet: plan.Quiet{From: plan.HourMinute(s.QuietFrom), To: plan.HourMinute(s.QuietTo)}}
	if s.AwayUntil > 0 {
		r.Away = time.Unix(s.AwayUntil, 0)
	}
	return r
}

// load reads a batch's journal.
func load(tx Tx, b store.Batch) (course.State, error) {
	entries, err := tx.Entries(b.ID)
	if err != nil {
		return course.State{}, err
	}
	return course.Fold(b, entries), nil
}

// record appends an entry to a batch's journal and replans it.
func (t *Turn) record(b store.Batch, piece, kind string, at time.Time, body course.Body) (course.State, error) {
	if err := t.write(b, piece, kind, at, body); err != nil {
		return course.State{}, err
	}
	return replan(t.Tx, t.Conv, t.Loc, b)
}

// write appends an entry without planning anew; whoever writes several replans
// once at the end.
func (t *Turn) write(b store.Batch, piece, kind string, at time.Time, body course.Body) error {
	e, err := t.Tx.Append(store.Entry{Batch: b.ID, Piece: piece, Kind: kind, At: at, Member: t.Me.ID, Body: body.JSON()})
	if err != nil || kind != course.Note && kind != course.Taste {
		return err
	}
	return t.keepPictures(e)
}

// ZoneOf is the zone of a conversation, or of a new one where there is none yet
// or it cannot be read.
func (b *Bot) ZoneOf(ctx context.Context, a store.Address) *time.Location {
	loc := b.usualZone()
	// An unreadable store costs the zone, not the message.
	_ = b.Ledger.View(ctx, b.Clock.Now(), func(tx Tx) error {
		conv, err := tx.Conversation(a)
		if err == nil {
			loc = b.location(conv.Settings)
		}
		return err
	})
	return loc
}
