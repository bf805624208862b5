package discord

import (
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/store"
)

// scheme begins the addresses of conversations on Discord: a channel, a thread or
// a direct message by its id.
const scheme = "discord:"

// Address is where a channel's conversation takes place.
func Address(channel string) store.Address { return store.Address(scheme + channel) }

// channelOf is the channel of an address.
func channelOf(at store.Address) string { return strings.TrimPrefix(string(at), scheme) }

// manages are the permissions that let a member manage a channel.
const manages = discordgo.PermissionManageChannels | discordgo.PermissionAdministrator

// presser is who used a command or a button. In a server that is a member, with
// what they may do in this very channel; in private it is a user, whose own the
// conversation is.
func presser(i *discordgo.Interaction) (bot.Person, bool) {
	switch {
	case i.Member != nil && i.Member.User != nil:
		return bot.Person{Key: i.Member.User.ID, Name: i.Member.DisplayName(), Admin: i.Member.Permissions&manages != 0}, true
	case i.User != nil:
		return bot.Person{Key: i.User.ID, Name: i.User.DisplayName(), Admin: i.GuildID == ""}, true
	}
	return bot.Person{}, false
}

// writer is who wrote a message. What they may do is worked out from the roles
// that come with it and from what is known of the channel; a thread has its
// parent's rules.
func writer(s *discordgo.Session, m *discordgo.Message) bot.Person {
	p := bot.Person{Key: m.Author.ID, Name: m.Author.DisplayName()}
	if m.GuildID == "" {
		p.Admin = true
		return p
	}
	if m.Member == nil {
		return p
	}
	if m.Member.Nick != "" {
		p.Name = m.Member.Nick
	}
	at := *m
	if c, err := s.State.Channel(m.ChannelID); err == nil && c.IsThread() {
		at.ChannelID = c.ParentID
	}
	may, err := s.State.MessagePermissions(&at)
	p.Admin = err == nil && may&manages != 0
	return p
}

// titleOf is what a server's channel is called, and the server, as far as is known.
func titleOf(s *discordgo.Session, channel string) (title, server string) {
	if s == nil || s.State == nil {
		return "", ""
	}
	c, err := s.State.Channel(channel)
	if err != nil {
		return "", ""
	}
	if g, err := s.State.Guild(c.GuildID); err == nil {
		server = g.Name
	}
	return c.Name, server
}
