package main

import (
	"context"
	"log/slog"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// alarm tells whoever runs the program, once, that the database can't be used, and
// once that it can be again: in the log and, if it has an address, in their chat.
type alarm struct {
	log    *slog.Logger
	to     store.Address // empty: the log only
	sender bot.Sender
	turns  chan error
}

func newAlarm(log *slog.Logger, to string, sender bot.Sender) *alarm {
	return &alarm{log: log, to: store.Address(to), sender: sender, turns: make(chan error, 16)}
}

// turn takes up that the database broke, or with nil that it works again. It
// returns at once.
func (a *alarm) turn(err error) {
	if err == nil {
		a.log.Warn("the database can be written again")
	} else {
		a.log.Error("batches can't be read or written; sums still work", "error", err)
	}
	select {
	case a.turns <- err:
	default: // whoever has been told so often knows
	}
}

// Run sends what there is to tell until ctx ends.
func (a *alarm) Run(ctx context.Context) error {
	for {
		select {
		case <-ctx.Done():
			return nil
		case err := <-a.turns:
			a.tell(ctx, err)
		}
	}
}

func (a *alarm) tell(ctx context.Context, broken error) {
	if a.to == "" {
		return
	}
	var r reply.Reply
	if broken == nil {
		r.Say("The database can be written again. What came due meanwhile is on its way.")
	} else {
		r.Say("I can't use my database: ", broken.Error(), ".")
		r.Say("Until then I answer sums, but open and change no batch and send no pings. Nothing already stored is lost.")
	}
	ctx, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	if _, err := a.sender.Send(ctx, a.to, "", r); err != nil {
		a.log.ErrorContext(ctx, "the operator could not be told", "error", err)
	}
}
