package course

import (
	"encoding/json"

	"larderhand/curemath"
)

// The kinds of journal entry that are not steps.
const (
	Opened  = "open"
	Flip    = "flip"
	Thick   = "thick"  // how thick a piece is
	Rub     = "rub"    // the next go of a box cure
	Skip    = "skip"   // a step passed over with a reason
	Soak    = "soak"   // soaked because the test slice was too salty
	Later   = "later"  // pings put off
	Longer  = "longer" // more days in the cure
	Note    = "note"
	Reading = "reading"
	Weigh   = "weigh"
	Close   = "close"   // ended by choice
	Discard = "discard" // thrown away
	Undo    = "undo"    // says that an earlier entry was struck
	Struck  = "struck"  // says which readings were struck, in Extra
	Hand    = "hand"    // offered to someone until a time
	Accept  = "accept"  // taken up by whom it was offered to
	Back    = "back"    // given back, or the offer withdrawn or declined
	Allow   = "allow"   // who may flip
	Pings   = "pings"   // whether anyone still wants to be asked: text "on" or "off"
	AimCore = "target"  // core temperature to smoke to
	AimPit  = "ceiling" // what the pit is kept under
	Cost    = "cost"    // what was paid
	Taste   = "taste"   // scores of a taster in Extra, or a remark
	Keeper  = "keeper"  // given to another keeper for good
)

// Body is what an entry says besides its kind. Each kind uses the fields it
// needs and leaves the others out of the JSON.
type Body struct {
	Text    string               `json:"text,omitempty"`
	Step    Step                 `json:"step,omitempty"`
	Verdict string               `json:"verdict,omitempty"`
	Until   int64                `json:"until,omitempty"` // unix seconds
	Days    int                  `json:"days,omitempty"`
	Weight  curemath.Grams       `json:"weight,omitempty"`
	Pit     *curemath.Fahrenheit `json:"pit,omitempty"`
	Core    *curemath.Fahrenheit `json:"core,omitempty"`
	Thick   curemath.Millimetres `json:"thick,omitempty"`
	Slice   curemath.Millimetres `json:"slice,omitempty"`
	Minutes int                  `json:"minutes,omitempty"`
	Frozen  bool                 `json:"frozen,omitempty"`
	Member  int64                `json:"member,omitempty"` // whom it is handed to
	Extra   map[string]string    `json:"extra,omitempty"`
}

// JSON is how the body is kept.
func (b Body) JSON() string {
	out, err := json.Marshal(b)
	if err != nil { // unreachable: only a non-finite number fails, and parse lets none through
		return "{}"
	}
	return string(out)
}

// ReadBody reads a body back; one that cannot be read says nothing rather than
// making the whole batch unreadable.
func ReadBody(s string) Body {
	var b Body
	if json.Unmarshal([]byte(s), &b) != nil {
		return Body{}
	}
	return b
}

// progress reports whether an entry of this kind changes where a batch stands,
// and so makes older buttons stale.
func progress(kind string) bool {
	switch kind {
	case Note, Taste, Keeper, Reading, Weigh, Later, Undo, Hand, Accept, Back, Allow, AimCore, AimPit, Cost, Pings, Struck:
		return false
	}
	return true
}
