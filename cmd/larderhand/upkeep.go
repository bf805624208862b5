package main

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/fnv"
	"log/slog"
	"time"

	"larderhand/bot"
	"larderhand/scheduler/plan/zone"
	"larderhand/store"
)

// upkeep keeps the store in order: see scheduler.Upkeep.
type upkeep struct {
	db  *store.DB
	bot *bot.Bot
	log *slog.Logger
	// tidy is what the platforms have to forget once a day.
	tidy []func(context.Context) error
}

const (
	// keepAnswers is how long the answer to an event is kept: platforms deliver one
	// again within a day.
	keepAnswers = 7 * 24 * time.Hour
	// zoneRules names the fact that says by which rules of zones all is planned.
	zoneRules = "zone rules"
)

// Daily forgets old answers and what the platforms need no more, and plans everything
// anew if the rules of zones this program knows are others than those it was planned by.
func (u upkeep) Daily(ctx context.Context, now time.Time) error {
	for _, tidy := range u.tidy {
		if err := tidy(ctx); err != nil { // tomorrow is soon enough
			u.log.WarnContext(ctx, "a platform could not forget what is old", "error", err)
		}
	}
	have, was := rulesOfZones(), ""
	u.bot.ForgetZones() // or pings would be planned by rules read long ago
	err := u.db.Update(ctx, now, func(tx *store.Tx) error {
		var err error
		if was, err = tx.Fact(zoneRules); err != nil && !errors.Is(err, store.ErrNotFound) {
			return err
		}
		return tx.Forget(now.Add(-keepAnswers))
	})
	if err != nil || was == have {
		return err
	}
	u.log.InfoContext(ctx, "the rules of time zones are new; planning all pings by them")
	if err := u.bot.ReplanAll(ctx, now); err != nil {
		return err
	}
	return u.db.Update(ctx, now, func(tx *store.Tx) error { return tx.Keep(store.Fact{Name: zoneRules, Value: have}) })
}

// SetBack plans everything anew, so that a ping sent while the clock was ahead
// does not stand for days to come.
func (u upkeep) SetBack(ctx context.Context, now time.Time) error {
	u.log.WarnContext(ctx, "the clock was set back; planning all pings anew", "now", now)
	return u.bot.ReplanAll(ctx, now)
}

// rulesOfZones is a fingerprint of when the clocks change in all zones from 2025 to
// 2045.
func rulesOfZones() string {
	h := fnv.New128a()
	from, to := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2045, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, name := range zone.Names() {
		loc, err := time.LoadLocation(name)
		if err != nil {
			continue
		}
		for at := from; at.Before(to); {
			short, offset := at.In(loc).Zone()
			_, end := at.In(loc).ZoneBounds()
			fmt.Fprintln(h, name, at.Unix(), short, offset)
			if !end.After(at) { // no end, or a year the library ends a day early
				end = at.AddDate(0, 0, 1)
				if _, later := end.In(loc).ZoneBounds(); later.IsZero() {
					break
				}
			}
			at = end
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}
