package telegram_test

import (
	"bytes"
	"context"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"strings"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/bot/telegram/telegramtest"
)

// Attach sends a file with what was typed below it; in a group it names the bot. Only
// what can be shown is sent as a picture, which has no name then.
func (c *club) Attach(_ context.Context, who bot.Person, f reply.File, text string) (string, error) {
	u := c.who(who)
	if !c.private() {
		text = "@" + c.tg.Username() + " " + text
	}
	_, _, err := image.DecodeConfig(bytes.NewReader(f.Data))
	c.room.Attach(u, telegramtest.Attachment{Name: f.Name, MIME: f.Type, Data: f.Data, Caption: strings.TrimSpace(text), Photo: f.Picture() && err == nil})
	c.rig.settle()
	return strings.Join(c.read(), "\n\n"), nil
}
