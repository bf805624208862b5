package discord

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// Bounds for what people send along.
const (
	maxAttached  = 5
	maxAttachedB = 8 << 20
)

// handle has the bot answer a message with the files that came with it. What could
// not be had is left out, and said.
func (a *Adapter) handle(ctx context.Context, in bot.Message, list []*discordgo.MessageAttachment) reply.Reply {
	var left []string
	in.Files, left = a.fetch(ctx, list)
	r := a.Bot.Handle(ctx, in)
	if len(left) > 0 {
		r.Par(fmt.Sprintf("Left out: %s. I take up to %d files of up to %d MB, and could not get it.", strings.Join(left, ", "), maxAttached, maxAttachedB>>20))
	}
	return r
}

// fetch gets files, and the names of those it could not get.
func (a *Adapter) fetch(ctx context.Context, list []*discordgo.MessageAttachment) (files []reply.File, left []string) {
	for _, at := range list {
		if at == nil {
			continue
		}
		if len(files) == maxAttached || at.Size > maxAttachedB {
			left = append(left, at.Filename)
			continue
		}
		var data []byte
		err := a.retry(ctx, lastWords, func() error {
			var err error
			data, err = a.get(ctx, at.URL)
			return err
		})
		if err != nil {
			a.Log.WarnContext(ctx, "an attachment could not be had", "name", at.Filename, "error", err)
			left = append(left, at.Filename)
			continue
		}
		files = append(files, reply.File{Name: at.Filename, Type: at.ContentType, Data: data})
	}
	return files, left
}

func (a *Adapter) get(ctx context.Context, address string) ([]byte, error) {
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return nil, err
	}
	res, err := a.client.Do(req)
	if err != nil {
		return nil, tidy(err)
	}
	defer func() { _ = res.Body.Close() }()
	if res.StatusCode != http.StatusOK {
		return nil, &apiError{status: res.StatusCode, cause: http.StatusText(res.StatusCode)}
	}
	return io.ReadAll(io.LimitReader(res.Body, maxAttachedB))
}

// attachedTo are the files of a slash command's options.
func attachedTo(data discordgo.ApplicationCommandInteractionData) []*discordgo.MessageAttachment {
	var out []*discordgo.MessageAttachment
	for _, o := range data.Options {
		id, ok := o.Value.(string)
		if o.Type == discordgo.ApplicationCommandOptionAttachment && ok && data.Resolved != nil {
			out = append(out, data.Resolved.Attachments[id])
		}
	}
	return out
}
