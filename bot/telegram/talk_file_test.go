package telegram_test

import (
	"context"
	"strings"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/bot/telegram/telegramtest"
)

// Attach sends a file with what was typed below it; in a group it names the bot.
func (c *club) Attach(_ context.Context, who bot.Person, f reply.File, text string) (string, error) {
	if c.kind != "private" {
		text = "@" + c.tg.Username() + " " + text
	}
	c.room.Attach(c.who(who), telegramtest.Attachment{Name: f.Name, MIME: f.Type, Data: f.Data, Caption: strings.TrimSpace(text), Photo: f.Picture()})
	c.rig.settle()
	return strings.Join(c.read(), "\n\n"), nil
}
