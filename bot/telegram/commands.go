package telegram

import (
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/cenkalti/backoff/v5"
	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/store"
)

// Bounds of a menu (Bot API, setMyCommands and BotCommand).
const (
	menuMost        = 100
	descriptionMost = 256
)

var menuName = regexp.MustCompile(`^[a-z0-9_]{1,32}$`)

// translated holds the menus' words in other languages: language, command,
// description, apart by tabs.
//
//go:embed menu.tsv
var translated string

// menu is one list of commands: who sees it and in which language.
type menu struct {
	Scope    string // Bot API, BotCommandScope
	Language string // "" for everyone without a list of their own
	Commands []tgbotapi.BotCommand
}

// menus makes the lists: everything in private and for a group's administrators,
// and for others in a group what they can use there.
func menus(table []bot.Command) []menu {
	words := map[string]map[string]string{"": {}}
	for _, l := range strings.Split(translated, "\n") {
		f := strings.Split(strings.TrimSpace(l), "\t")
		if len(f) != 3 || strings.HasPrefix(l, "#") {
			continue
		}
		if words[f[0]] == nil {
			words[f[0]] = map[string]string{}
		}
		words[f[0]][f[1]] = f[2]
	}
	var languages []string
	for l := range words {
		languages = append(languages, l)
	}
	slices.Sort(languages)
	var out []menu
	for _, scope := range []string{"all_private_chats", "all_chat_administrators", "all_group_chats"} {
		for _, l := range languages {
			m := menu{Scope: scope, Language: l}
			for _, c := range table {
				if scope == "all_group_chats" && c.Settles() || !menuName.MatchString(c.Name) || len(m.Commands) == menuMost {
					continue
				}
				text := words[l][c.Name]
				if text == "" {
					text = c.Help
				}
				m.Commands = append(m.Commands, tgbotapi.BotCommand{Command: c.Name, Description: clip(plain(text), descriptionMost)})
			}
			out = append(out, m)
		}
	}
	return out
}

// About is what the bot's profile and its empty chat show (Bot API,
// setMyDescription and setMyShortDescription).
const (
	aboutShort = "Curing and smoking bacon: does the sums, keeps your batches straight, pings you for every flip."
	about      = "I help you cure pork bellies and smoke them into bacon. Tell me a weight and I work out salt, sugar and curing mix; open a batch and I ping you every day until it is packed, and watch the smoke with you. I say plainly when something is unsafe, but the food law where you live comes first."
)

// introduce sets the menus and the texts about the bot, if they are not what was set
// last. A server that does not know a method costs only that.
func (a *Adapter) introduce(ctx context.Context) {
	steps, err := a.introductions()
	if err != nil {
		a.Log.ErrorContext(ctx, "the menus cannot be written", "error", err)
		return
	}
	body, err := json.Marshal(steps)
	if err != nil {
		a.Log.ErrorContext(ctx, "the menus cannot be written", "error", err)
		return
	}
	sum := sha256.Sum256(body)
	name, want := a.fact("menus", ""), hex.EncodeToString(sum[:])
	if had, err := a.Keep.Get(ctx, name); err == nil && had == want {
		return
	}
	whole := true
	unknown := map[string]bool{}
	for _, s := range steps {
		if unknown[s.Method] {
			continue
		}
		err := a.optional(ctx, s.Method, s.Params)
		switch {
		case ctx.Err() != nil:
			return
		case err == nil:
			continue
		case notNow(err):
			whole = false // the next start tries again
		}
		unknown[s.Method] = true
		a.Log.WarnContext(ctx, "the server does not take an optional call; going on without", "method", s.Method, "error", err)
	}
	if !whole {
		return
	}
	// The menus are set: that is noted even if the program is told to end just now.
	if err := a.Keep.Put(context.WithoutCancel(ctx), store.Fact{Name: name, Value: want}); err != nil {
		a.Log.WarnContext(ctx, "could not note that the menus are set", "error", err)
	}
}

// step is one optional call.
type step struct {
	Method string
	Params map[string]string
}

func (a *Adapter) introductions() ([]step, error) {
	var steps []step
	for _, m := range menus(a.Bot.Commands()) {
		list, err := json.Marshal(m.Commands)
		if err != nil {
			return nil, err
		}
		params := map[string]string{"commands": string(list), "scope": fmt.Sprintf(`{"type":%q}`, m.Scope)}
		if m.Language != "" {
			params["language_code"] = m.Language
		}
		steps = append(steps, step{"setMyCommands", params})
	}
	return append(steps, step{"setMyDescription", map[string]string{"description": about}},
		step{"setMyShortDescription", map[string]string{"short_description": aboutShort}}), nil
}

// notNow tells trouble that passes from a method the server does not have or will
// not take.
func notNow(err error) bool {
	k := failure(err).Kind
	return k == store.Wait || k == store.Unknown && !badToken(err)
}

// optional makes a call nothing depends on, with a few tries.
func (a *Adapter) optional(ctx context.Context, method string, params map[string]string) error {
	_, err := backoff.Retry(ctx, func() (struct{}, error) {
		err := a.api.call(ctx, method, params, nil)
		if err != nil && !notNow(err) {
			return struct{}{}, backoff.Permanent(err)
		}
		return struct{}{}, again(err)
	}, backoff.WithBackOff(patience()), backoff.WithMaxTries(4), backoff.WithMaxElapsedTime(2*time.Minute))
	return err
}
