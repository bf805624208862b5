package discord

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/store"
)

// everywhere is the scope of commands that work in all servers.
const everywhere = "everywhere"

// ready takes up what a new connection says about us: the first one that works
// out registers the commands.
func (a *Adapter) ready(ctx context.Context, r *discordgo.Ready) {
	app := ""
	if r.Application != nil {
		app = r.Application.ID
	}
	if app == "" && r.User != nil {
		app = r.User.ID
	}
	a.work.Add(1)
	go func() {
		defer a.work.Done()
		a.register.Lock()
		defer a.register.Unlock()
		if a.known {
			return
		}
		if err := a.registerCommands(ctx, app); err != nil {
			if ctx.Err() != nil {
				return // the next start sees to it
			}
			a.Log.ErrorContext(ctx, "the slash commands could not be registered; they stay as they are", "error", err)
			return
		}
		a.known = true
		a.finished("commands")
	}()
}

// registerCommands makes the commands on Discord's side exactly the bot's own: with
// one overwrite, only where they changed since the last time. Where they were
// registered before and no longer belong, in a development server or everywhere,
// they are taken away, since both would show.
func (a *Adapter) registerCommands(ctx context.Context, app string) error {
	fact := "discord:" + app + ":commands"
	had, err := a.registered(ctx, fact)
	if err != nil {
		return err
	}
	scope := everywhere
	if a.cfg.DevGuild != "" {
		scope = a.cfg.DevGuild
	}
	list := definitions(a.Bot.Commands(), a.words, scope != everywhere)
	raw, err := json.Marshal(list)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(raw)
	want := map[string]string{scope: hex.EncodeToString(sum[:])}
	for old := range had {
		if old == scope {
			continue
		}
		if err := a.overwrite(ctx, app, old, []*discordgo.ApplicationCommand{}); err != nil && !lasting(err) {
			return err
		}
	}
	if had[scope] != want[scope] {
		if err := a.overwrite(ctx, app, scope, list); err != nil {
			return err
		}
	}
	value, err := json.Marshal(want)
	if err != nil || maps.Equal(had, want) {
		return err
	}
	return a.Keep.Put(context.WithoutCancel(ctx), store.Fact{Name: fact, Value: string(value)})
}

func (a *Adapter) registered(ctx context.Context, fact string) (map[string]string, error) {
	had := map[string]string{}
	if a.Keep == nil {
		return had, errors.New("nowhere to note what is registered")
	}
	value, err := a.Keep.Get(ctx, fact)
	if errors.Is(err, store.ErrNotFound) {
		return had, nil
	}
	if err == nil {
		err = json.Unmarshal([]byte(value), &had)
	}
	if err != nil {
		return nil, fmt.Errorf("what is registered is not known: %w", err)
	}
	return had, nil
}

func (a *Adapter) overwrite(ctx context.Context, app, scope string, list []*discordgo.ApplicationCommand) error {
	address := discordgo.EndpointApplicationGlobalCommands(app)
	if scope != everywhere {
		address = discordgo.EndpointApplicationGuildCommands(app, scope)
	}
	return a.retry(ctx, time.Minute, func() error {
		_, err := a.call.do(ctx, "PUT", address, list, nil)
		return err
	})
}
