package adaptertest

import (
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Open starts an adapter with a bot behind it, and stops it when the test ends.
type Open func(t testing.TB, b *Bot) Fixture

// Fixture is a running adapter as the suite sees it.
type Fixture struct {
	Sender bot.Sender
	Editor bot.Editor // nil where a message once sent cannot be changed

	Here   store.Address // the conversation the person is in
	There  store.Address // another one, which nobody writes in
	Person string        // the person's member key

	// Say has the person say something in a way the bot is meant to hear.
	Say func(text string)
	// Press presses the newest button with a label.
	Press func(label string)
	// Answer fills in the form, or the questions, that pressing a button with Ask
	// brought up.
	Answer func(answers ...string)
	// Shown is what was shown in a conversation so far, oldest first.
	Shown func(at store.Address) []Shown

	// Fail makes the next delivery meet what the platform does when this is the
	// matter: a time to wait (of After), a new address (Moved), a door closed, a
	// message it will never take, no answer at all. Kinds the platform does not
	// have are left out.
	Fail  map[store.FailureKind]func()
	After time.Duration
	Moved store.Address

	// Secret is the token; it must not be in any error. "" if there is none.
	Secret string
	Has    Abilities
}

// Abilities are what a platform can do beyond plain text.
type Abilities struct {
	Marks    bool // bold, and a style for what is to be typed
	Instants bool // a time shown in each reader's own zone
	Pings    bool // a member named so that they are notified
	Buttons  bool // buttons to press; without them the label and the line are text
	Pictures bool // pictures shown; without that a line names the file
	Files    bool // documents to download
	Silent   bool // delivery without a sound
	Alone    bool // a short answer to a press that only the presser sees
	Change   bool // a message changed in place
}

// Shown is one message as a person reads it.
type Shown struct {
	Text    string // no markup in it; a table's rows on lines of their own
	Bold    []string
	Code    []string
	At      []int64  // the instants shown in the reader's zone, unix seconds
	Pings   []string // keys of the members it notifies
	Buttons [][]string
	Files   []reply.File // Name, Data, and Type where the platform keeps it
	Silent  bool
	Private bool // only the person who asked sees it
	Edited  bool // it was changed after it was first shown
}
