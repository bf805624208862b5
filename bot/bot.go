package bot

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"larderhand/curemath"
	"larderhand/scheduler/plan/zone"
)

// Config is what a Bot is made of.
type Config struct {
	Ledger Ledger
	Clock  Clock
	Zone   *time.Location // of conversations that have not chosen one
	Log    *slog.Logger
	Rules  curemath.Rules
	// Code makes a code that nobody can guess, of letters and digits; without it what
	// is shared can be seen only where it was put up.
	Code func() string
	// Roll knows who is in a group; without it nothing is shared from elsewhere.
	Roll Roll
	// Rehearse opens empty books for a batch that is only shown; without it there is
	// no tour.
	Rehearse func(context.Context) (Rehearsal, error)
}

// Bot answers messages and composes pings. It is safe for use by several
// goroutines; messages of one conversation should come one after the other.
type Bot struct {
	Config
	table  []Command
	byWord map[string]Command
	flood  flood
	zones  zone.Cache
	cries  []worry                         // their patterns are read once: every line is held against them
	plain  []saying                        // likewise
	pantry func() (curemath.Pantry, error) // read when a recipe is first checked
}

// New makes a bot.
func New(c Config) *Bot {
	if c.Code == nil {
		c.Code = func() string { return "" }
	}
	if c.Roll != nil {
		c.Roll = &rollCache{of: c.Roll, now: c.Clock.Now}
	}
	b := &Bot{Config: c, table: commands(), byWord: map[string]Command{}, cries: worries(), plain: sayings(), pantry: sync.OnceValues(curemath.LoadPantry)}
	for _, cmd := range b.table {
		b.byWord[cmd.Name] = cmd
		for _, w := range cmd.Also {
			b.byWord[w] = cmd
		}
	}
	return b
}

// Commands lists what the bot can be asked for, in the order of its help.
func (b *Bot) Commands() []Command { return b.table }
