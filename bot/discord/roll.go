package discord

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"larderhand/store"
)

// What Discord answers of somebody who is not there (topics/opcodes-and-status-codes.mdx).
const (
	codeUnknownMember = 10007
	codeUnknownUser   = 10013
)

var errUnseen = errors.New("discord: the gateway has not shown that channel")

// Inside asks whether a person is a member of a channel's server now and may see the
// channel; see bot.Roll.
func (a *Adapter) Inside(ctx context.Context, group store.Address, person string) (bool, error) {
	c, err := a.channel(ctx, channelOf(group))
	if err != nil {
		return false, err
	}
	var m discordgo.Member
	there, err := a.lookUp(ctx, discordgo.EndpointGuildMember(c.GuildID, person), &m)
	if err != nil || !there {
		return false, err
	}
	at := c.ID
	if c.IsThread() { // it has its parent's rules
		at = c.ParentID
	}
	s := a.sees(at)
	if s == nil {
		return false, errUnseen
	}
	may, err := s.State.MessagePermissions(&discordgo.Message{ChannelID: at, Author: &discordgo.User{ID: person}, Member: &m})
	switch {
	case err != nil:
		return false, err
	case may&discordgo.PermissionViewChannel == 0:
		return false, nil
	case c.Type != discordgo.ChannelTypeGuildPrivateThread || may&discordgo.PermissionManageThreads != 0:
		return true, nil
	}
	return a.lookUp(ctx, discordgo.EndpointThreadMember(c.ID, person), nil)
}

// lookUp reads somebody's membership; there is false if they have none.
func (a *Adapter) lookUp(ctx context.Context, address string, out any) (there bool, err error) {
	raw, err := a.call.do(ctx, http.MethodGet, address, nil, nil)
	if e := status(err); e != nil && e.status == http.StatusNotFound && (e.code == codeUnknownMember || e.code == codeUnknownUser) {
		return false, nil
	}
	if err == nil && out != nil {
		err = json.Unmarshal(raw, out)
	}
	return err == nil, err
}

// channel is a server's channel as the gateway has shown it; a thread that sleeps is
// asked for.
func (a *Adapter) channel(ctx context.Context, id string) (*discordgo.Channel, error) {
	if s := a.sees(id); s != nil {
		if c, err := s.State.Channel(id); err == nil {
			return c, nil
		}
	}
	raw, err := a.call.do(ctx, http.MethodGet, discordgo.EndpointChannel(id), nil, nil)
	if err != nil {
		return nil, err
	}
	var c discordgo.Channel
	if err := json.Unmarshal(raw, &c); err != nil {
		return nil, err
	}
	if c.GuildID == "" {
		return nil, errUnseen
	}
	return &c, nil
}

// sees is the session that has been shown a channel; nil if none has.
func (a *Adapter) sees(channel string) *discordgo.Session {
	var found *discordgo.Session
	a.live.Range(func(_, v any) bool {
		s := v.(*discordgo.Session)
		if _, err := s.State.Channel(channel); err == nil {
			found = s
		}
		return found == nil
	})
	return found
}
