package discord_test

import (
	"slices"
	"strings"

	"larderhand/bot/discord/discordtest"
	"larderhand/store"
)

// Places is as many channels as are named, and everyone's direct messages.
func (c *talk) Places() int { return 2 }

// In goes to a channel of that name, or to everyone's direct messages.
func (c *talk) In(place string) error {
	c.moves = c.moves || c.place != "" && c.place != place
	c.place = place
	if place == "private" {
		return nil
	}
	if c.rooms[place] == nil {
		c.rooms[place] = c.club.guild.AddChannel(place)
		c.manage(c.rooms[place])
	}
	c.here = c.rooms[place]
	return nil
}

// manage lets those manage a channel whom the talk says.
func (c *talk) manage(ch *discordtest.Channel) {
	for _, p := range c.people() {
		if len(c.chiefs) > 0 && slices.Contains(strings.Fields(c.chiefs[1]), p.Name) {
			ch.Allow(p, discordtest.ManageChannels)
		}
	}
}

func (c *talk) people() []*discordtest.Person {
	return []*discordtest.Person{c.club.ines, c.club.tobias, c.club.marit}
}

// room is where an address is, a seat for someone who can read it, and its name if the
// talk goes from place to place.
func (c *talk) room(a store.Address) (*discordtest.Seat, string) {
	for name, ch := range c.rooms {
		if at(ch) != a {
			continue
		}
		for _, p := range c.people() {
			if first, private := strings.CutPrefix(name, "@"); !private || first == strings.ToLower(p.Name) {
				if c.moves {
					return p.At(ch), " " + name
				}
				return p.At(ch), ""
			}
		}
	}
	return c.reader.At(c.here), ""
}

// saw keeps what was seen of a ping.
func (c *talk) saw(where, text string) {
	c.pings = append(c.pings, "["+c.now().In(c.zone).Format("Mon 2 Jan 15:04 MST")+where+"]\n"+text)
}
