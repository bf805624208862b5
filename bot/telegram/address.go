package telegram

import (
	"errors"
	"strconv"
	"strings"

	"larderhand/store"
)

// scheme begins the address of every conversation on Telegram.
const scheme = "telegram:"

// errAddress says that an address was not made here.
var errAddress = errors.New("not an address on Telegram")

// place is where a message stands: a chat, and in a forum one of its topics. The
// General topic and chats without topics have topic 0.
type place struct {
	chat  int64
	topic int
}

// Chat gives the chat an address is in, all topics of it together, and whether
// several people may be there.
func Chat(a store.Address) (chat store.Address, group bool) {
	p, err := parseAddress(a)
	if err != nil {
		return a, false
	}
	return p.whole().address(), p.group()
}

// address is "telegram:CHAT" or "telegram:CHAT/TOPIC".
func (p place) address() store.Address {
	a := scheme + strconv.FormatInt(p.chat, 10)
	if p.topic != 0 {
		a += "/" + strconv.Itoa(p.topic)
	}
	return store.Address(a)
}

// parseAddress reads an address back.
func parseAddress(a store.Address) (place, error) {
	rest, ok := strings.CutPrefix(string(a), scheme)
	chat, topic, inTopic := strings.Cut(rest, "/")
	var p place
	var err error
	if p.chat, err = strconv.ParseInt(chat, 10, 64); err != nil || !ok || p.chat == 0 {
		return place{}, errAddress
	}
	if inTopic {
		if p.topic, err = strconv.Atoi(topic); err != nil || p.topic <= 0 {
			return place{}, errAddress
		}
	}
	return p, nil
}

// whole is the chat without the topic.
func (p place) whole() place { return place{chat: p.chat} }

// group reports whether several people may be there: private chats have the
// positive number of the person.
func (p place) group() bool { return p.chat < 0 }

// params names the place in a call.
func (p place) params() map[string]string {
	m := map[string]string{"chat_id": strconv.FormatInt(p.chat, 10)}
	if p.topic != 0 {
		m["message_thread_id"] = strconv.Itoa(p.topic)
	}
	return m
}
