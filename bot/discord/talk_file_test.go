package discord_test

import (
	"context"

	"larderhand/bot"
	"larderhand/bot/discord/discordtest"
	"larderhand/bot/reply"
)

// Attach types a line with a file.
func (c *talk) Attach(_ context.Context, who bot.Person, f reply.File, text string) (string, error) {
	c.tick(c.now())
	seat := c.seat(who)
	before := len(seat.Messages())
	m := seat.Tell(text, discordtest.File{Name: f.Name, Type: f.Type, Data: f.Data})
	c.run.until(c.tb, m.ID)
	return c.plain(seat.Messages()[before+1:]), nil
}
