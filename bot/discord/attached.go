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

// fetchesAtOnce bounds how many messages' files are in memory on their way in.
const fetchesAtOnce = 4

// handle has the bot answer a message with the files that came with it, fetched if it
// has a use for them. What could not be had is left out, and said.
func (a *Adapter) handle(ctx context.Context, in bot.Message, list []*discordgo.MessageAttachment) reply.Reply {
	var got haul
	if len(list) > 0 {
		in.Files = named(list)
		in.Fetch = func(ctx context.Context) []reply.File {
			got = a.fetch(ctx, list)
			return got.files
		}
	}
	r := a.Bot.Handle(ctx, in)
	if len(got.over) > 0 {
		r.Par(fmt.Sprintf("Left out: %s. I take up to %d files of up to %d MB each.", strings.Join(got.over, ", "), bot.MostFiles, bot.MostFile>>20))
	}
	if len(got.lost) > 0 {
		r.Par(fmt.Sprintf("I could not get %s from Discord and left it out. Please send it again.", strings.Join(got.lost, ", ")))
	}
	return r
}

// named are files as far as they are known before they are fetched.
func named(list []*discordgo.MessageAttachment) []reply.File {
	var out []reply.File
	for _, at := range list {
		if at != nil {
			out = append(out, reply.File{Name: at.Filename, Type: at.ContentType})
		}
	}
	return out
}

// haul is what came of fetching files.
type haul struct {
	files []reply.File
	over  []string // names of those too large or too many
	lost  []string // names of those that could not be fetched
}

func (a *Adapter) fetch(ctx context.Context, list []*discordgo.MessageAttachment) (got haul) {
	select {
	case a.fetching <- struct{}{}:
		defer func() { <-a.fetching }()
	case <-ctx.Done():
	}
	for _, at := range list {
		if at == nil {
			continue
		}
		if len(got.files) == bot.MostFiles || at.Size > bot.MostFile {
			got.over = append(got.over, at.Filename)
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
			got.lost = append(got.lost, at.Filename)
			continue
		}
		got.files = append(got.files, reply.File{Name: at.Filename, Type: at.ContentType, Data: data})
	}
	return got
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
	data, err := io.ReadAll(io.LimitReader(res.Body, bot.MostFile+1))
	if err != nil {
		return nil, tidy(err)
	}
	if len(data) > bot.MostFile {
		return nil, &apiError{status: http.StatusRequestEntityTooLarge, cause: "the file is longer than it said"}
	}
	return data, nil
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
