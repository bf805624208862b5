package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"fmt"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Send posts a reply in a channel, a thread or a direct message; see bot.Sender. A
// long one takes several messages, each under a key of its own, so that one sent
// again after half of it arrived is completed and not repeated. The ref is the last
// message's.
func (a *Adapter) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	ref, err := a.post(ctx, channelOf(to), key, r)
	if err != nil {
		return "", failure(err)
	}
	return ref, nil
}

func (a *Adapter) post(ctx context.Context, channel, key string, r reply.Reply) (ref string, err error) {
	return a.postAll(ctx, channel, key, plain(r))
}

func (a *Adapter) postAll(ctx context.Context, channel, key string, list []body) (ref string, err error) {
	for n, b := range list {
		b.Nonce, b.Enforce = nonce(key, n), true
		raw, err := a.create(ctx, channel, b)
		if err != nil {
			return "", err
		}
		var m discordgo.Message
		if err := json.Unmarshal(raw, &m); err != nil {
			return "", &apiError{cause: "the answer could not be used"}
		}
		ref = m.ID
	}
	return ref, nil
}

// create posts one message. A thread that sleeps is woken first where posting does
// not do that by itself.
func (a *Adapter) create(ctx context.Context, channel string, b body) ([]byte, error) {
	address := discordgo.EndpointChannelMessages(channel)
	raw, err := a.call.do(ctx, http.MethodPost, address, b, uploads(b.files))
	if e := status(err); e == nil || e.code != codeThreadArchived {
		return raw, err
	}
	wake := map[string]bool{"archived": false}
	if _, werr := a.call.do(ctx, http.MethodPatch, discordgo.EndpointChannel(channel), wake, nil); werr != nil {
		return nil, werr
	}
	return a.call.do(ctx, http.MethodPost, address, b, uploads(b.files))
}

// nonce makes part n of what is sent under a key known to Discord, which takes a
// repeat within minutes for what it is. It holds 25 characters at most.
func nonce(key string, n int) string {
	sum := sha256.Sum256([]byte(key))
	return fmt.Sprintf("%s%02d", base32.StdEncoding.EncodeToString(sum[:])[:22], n%100)
}

// Edit changes a message sent before; see bot.Editor. What is too long for one
// message is cut.
func (a *Adapter) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	list := plain(r)
	if len(list) == 0 {
		return nil
	}
	b := list[0]
	b.Components, b.Flags = list[len(list)-1].Components, 0
	_, err := a.call.do(ctx, http.MethodPatch, discordgo.EndpointChannelMessage(channelOf(to), ref), b, uploads(b.files))
	if err == nil {
		return nil
	}
	return failure(err)
}

// Remove takes a message down that was sent before. One that is gone already is no
// failure.
func (a *Adapter) Remove(ctx context.Context, to store.Address, ref string) error {
	_, err := a.call.do(ctx, http.MethodDelete, discordgo.EndpointChannelMessage(channelOf(to), ref), nil, nil)
	if err == nil {
		return nil
	}
	if f := failure(err); f.Kind != store.Refused {
		return f
	}
	return nil
}
