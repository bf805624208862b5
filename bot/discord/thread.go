package discord

import (
	"context"
	"encoding/json"
	"net/http"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Placer keeps the places batches have of their own; see bot.Bot.
type Placer interface {
	PlaceOf(ctx context.Context, at store.Address, number int) (store.Address, error)
	SetPlace(ctx context.Context, at store.Address, number int, place store.Address) error
}

// typeThread is a public thread, and idleFor how many minutes it stays in the list
// without a word: a week, the most there is.
const (
	typeThread = 11
	idleFor    = 10080
)

// opened is a thread as far as it matters.
type opened struct {
	ID string `json:"id"`
}

// settle opens the thread a reply asks for and tells the bot where it is. The
// reply comes back with the thread to show, or as a word on why there is none.
func (a *Adapter) settle(ctx context.Context, in bot.Message, r reply.Reply) (reply.Reply, string) {
	keeper, ok := a.Bot.(Placer)
	if r.Place == nil || !ok {
		return r, ""
	}
	if r.Place.Is != "" {
		return r, channelOf(store.Address(r.Place.Is))
	}
	home := store.Address(r.Place.In)
	if had, err := keeper.PlaceOf(ctx, home, r.Place.Batch); err == nil {
		return r, channelOf(had) // this was done before, for the same event
	}
	t, err := a.openThread(ctx, channelOf(home), r.Place.Name)
	if err == nil {
		if err = keeper.SetPlace(ctx, home, r.Place.Batch, Address(t.ID)); err == nil {
			a.welcome(ctx, in, t.ID)
			return r, t.ID
		}
	}
	a.Log.WarnContext(ctx, "a thread could not be opened", "conversation", r.Place.In, "error", err)
	if e := status(err); e != nil && e.lasting() {
		return private("I may not open a thread here. It takes a channel of a server, and the permissions Create Public Threads and Send Messages in Threads for me."), ""
	}
	return private("The thread could not be opened just now; nothing was changed. Try again in a minute."), ""
}

func (a *Adapter) openThread(ctx context.Context, channel, name string) (opened, error) {
	var t opened
	raw, err := a.call.do(ctx, http.MethodPost, discordgo.EndpointChannelThreads(channel),
		map[string]any{"name": name, "type": typeThread, "auto_archive_duration": idleFor}, nil)
	if err == nil {
		err = json.Unmarshal(raw, &t)
	}
	return t, err
}

// welcome begins a thread with how its batch stands, and takes in who asked for
// it. The thread is there all the same if that fails.
func (a *Adapter) welcome(ctx context.Context, in bot.Message, thread string) {
	if _, err := a.call.do(ctx, http.MethodPut, discordgo.EndpointThreadMember(thread, in.Sender.Key), nil, nil); err != nil {
		a.Log.InfoContext(ctx, "nobody was taken into a new thread", "error", err)
	}
	again, ok := a.Bot.(Repeater)
	if !ok {
		return
	}
	look := bot.Message{Conversation: Address(thread), Sender: in.Sender, Text: "batch", At: in.At}
	if r, ok := again.Again(ctx, look); ok {
		if _, err := a.post(ctx, thread, "welcome:"+thread, r); err != nil {
			a.Log.InfoContext(ctx, "a new thread begins empty", "error", err)
		}
	}
}

// pointing adds where a thread is to a message's last text.
func (b *body) pointing(thread string) {
	if thread == "" {
		return
	}
	at := "<#" + thread + ">"
	if n := len(b.Embeds); n > 0 {
		b.Embeds[n-1].Description = strings.TrimSpace(b.Embeds[n-1].Description + "\n" + at)
		return
	}
	b.Content = strings.TrimSpace(b.Content + "\n" + at)
}
