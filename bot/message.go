// Package bot is the conversation: it takes a message from any chat, works out
// what is meant, does it in one transaction and answers with a value that each
// adapter renders in its own way.
package bot

import (
	"context"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Message is something a person said or pressed.
type Message struct {
	Event        string        // the platform's id for it; the same id again is the same event
	Conversation store.Address // where it was said, and where the answer goes
	Direct       bool          // said in private
	Title        string        // what a group or a topic calls itself; empty if that is not known
	Server       string        // what the server or group calls itself that it is in; empty if there is none
	Sender       Person
	Text         string
	Press        *reply.Button // the button pressed, instead of Text
	Files        []reply.File  // what was sent along; of one not fetched yet there is no Data
	// Fetch gets the files, those that can be had. It is called once what was said is
	// known to want them, and not for someone who says too much; nil if Files has them.
	Fetch  func(context.Context) []reply.File
	At     time.Time // zero: now
	Places bool      // the chat can give a batch a place of its own, such as a thread

	here   int            // the batch whose own place it was said in; 0 if none
	inside map[int64]bool // whether the sender is in a conversation, of those that were looked up
}

// MostFile is how many bytes a file sent along may have, and MostFiles how many are
// taken with one message.
const (
	MostFile  = 8 << 20
	MostFiles = 5
)

// Person is who said it.
type Person struct {
	Key   string // the platform's own id
	Name  string
	Admin bool // may manage the group
}
