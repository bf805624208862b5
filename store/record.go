// Package store keeps conversations, batches, their journals and what is due in
// one SQLite file. It owns the records, which are plain structs, and composes
// every change and the chores it causes into one transaction.
package store

import (
	"strings"
	"time"

	"larderhand/curemath"
)

// Address says where a conversation takes place. The adapter that made it alone
// can read it; to everyone else it is opaque.
//
// It begins with the name of the platform and a colon, which is all that anyone
// else may read of it.
type Address string

// Lane is the platform's name: what comes before the first colon. What is said in
// one lane never waits for another.
func (a Address) Lane() string {
	lane, _, _ := strings.Cut(string(a), ":")
	return lane
}

// Conversation is one chat: a direct message, a group, a thread or a topic.
type Conversation struct {
	ID       int64
	Address  Address
	Settings Settings
	Parked   string // why nothing can be delivered there; empty when all is well
	Created  time.Time
}

// Settings are what a conversation has chosen. The zero value of a number means
// the default of the trade, see bot.
type Settings struct {
	Zone      string            `json:"zone,omitempty"` // IANA name
	PingHour  int               `json:"ping_hour"`      // minutes after local midnight
	QuietFrom int               `json:"quiet_from,omitempty"`
	QuietTo   int               `json:"quiet_to,omitempty"`
	Units     string            `json:"units,omitempty"` // "us" or "metric"
	Rules     string            `json:"rules,omitempty"` // rule set id
	Salt      curemath.Percent  `json:"salt,omitempty"`
	Sugar     *curemath.Percent `json:"sugar,omitempty"` // 0 % is a choice, so unset is nil
	Nitrite   curemath.PPM      `json:"nitrite,omitempty"`
	Mix       curemath.Percent  `json:"mix,omitempty"`
	Fridge    *curemath.Celsius `json:"fridge,omitempty"`
	AwayUntil int64             `json:"away_until,omitempty"` // unix seconds
	Named     map[string]string `json:"named,omitempty"`      // what a later version adds without a migration
}

// Member is a person in a conversation.
type Member struct {
	ID           int64
	Conversation int64
	Key          string // the platform's own id for the person
	Name         string
	Confirmed    time.Time // when they said they weigh the mix on a 0.1 g scale; zero if never
}

// Batch is what one person cures together.
type Batch struct {
	ID           int64
	Conversation int64
	Number       int // small, within the conversation
	Keeper       int64
	Opened       time.Time // when the meat went into the cure
	Plan         Plan
	Stage        string
	Version      int
	Pieces       []Piece
}

// Plan is how a batch was meant to be cured when it was opened.
type Plan struct {
	Method    string           `json:"method"`
	Nitrite   curemath.PPM     `json:"nitrite"`
	Salt      curemath.Percent `json:"salt"`
	Sugar     curemath.Percent `json:"sugar"`
	Ascorbate curemath.PPM     `json:"ascorbate,omitempty"`
	Mix       curemath.Percent `json:"mix"` // sodium nitrite in the curing mix
	Rules     string           `json:"rules"`
	Days      int              `json:"days"` // until the cure check, by the longest piece
	DaysMax   int              `json:"days_max"`
	Wanted    int              `json:"wanted,omitempty"` // days the person asked for, if longer than the rule
	Recipe    string           `json:"recipe,omitempty"`
	Asked     string           `json:"asked,omitempty"` // a wet or box cure as it was asked for
	Rubs      []Rub            `json:"rubs,omitempty"`  // of a box cure; the first is put on when the batch is opened
}

// Rub is one go of a box cure.
type Rub struct {
	Day   int            `json:"day"` // 0 is the day the batch was opened
	Mix   curemath.Grams `json:"mix"`
	Salt  curemath.Grams `json:"salt"`
	Sugar curemath.Grams `json:"sugar"`
}

// Piece is one slab of a batch.
type Piece struct {
	Letter     string               `json:"letter"`
	Weight     curemath.Grams       `json:"weight"` // green
	Thickness  curemath.Millimetres `json:"thickness,omitempty"`
	RindOn     bool                 `json:"rind_on,omitempty"`
	Flavouring string               `json:"flavouring,omitempty"`
	MixWeight  curemath.Grams       `json:"mix_weight"` // as weighed out
	SaltWeight curemath.Grams       `json:"salt_weight"`
	Sugar      curemath.Grams       `json:"sugar_weight"`
	Ingoing    curemath.PPM         `json:"ingoing"`
	Days       int                  `json:"days"`
}

// Entry is one line of a batch's journal.
type Entry struct {
	ID       int64
	Batch    int64
	Piece    string // empty: the whole batch
	Kind     string
	At       time.Time // when it happened
	Recorded time.Time // when it was told
	Member   int64
	Body     string    // JSON whose shape the kind decides
	Struck   time.Time // zero unless struck out
}

// Chore is something to be said unasked.
type Chore struct {
	ID           int64
	Conversation int64
	Batch        int64 // 0: the conversation as a whole
	Piece        string
	Kind         string
	Slot         string // the intended local date or occasion; unique with batch, piece and kind
	Due          time.Time
	Planted      time.Time // since when it is planned for Due
	Urgency      int
	Body         string
	Attempts     int
	State        string
	Cause        string    // why it was given up; set by whoever gives it up
	Sent         time.Time // when it was said, given up or dropped
	Lease        string
	Message      string    // key of the message it is said in; the same when that is sent again
	MessageAt    time.Time // since when it has that key
	Address      Address   // where to say it; set by Claim alone
}

// Late is how late a chore is at an instant. One that was planned only after it
// would have been due is late from then on.
func (c Chore) Late(now time.Time) time.Duration {
	since := c.Due
	if c.Planted.After(since) {
		since = c.Planted
	}
	return max(0, now.Sub(since))
}

// The states of a chore.
const (
	StateDue     = "due"
	StateClaimed = "claimed"
	StateRetry   = "retry"
	StateParked  = "parked" // its conversation cannot be reached for now
	StateSent    = "sent"
	StateDropped = "dropped"
	StateGivenUp = "given up"
)

// Want is a chore a batch ought to have now; see Tx.Reconcile.
type Want struct {
	Piece   string
	Kind    string
	Slot    string
	Due     time.Time
	Urgency int
}
