package bot

import (
	"fmt"
	"testing"
	"time"
)

func TestFloodOfOneMemberIsSlowed(t *testing.T) {
	var f flood
	now := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	tobias := Message{Conversation: "paper:club", Sender: Person{Key: "tobias"}}
	passed := 0
	for range 200 {
		if f.allows(tobias, now) {
			passed++
		}
	}
	if passed != floodBurst {
		t.Errorf("%d messages of one instant passed, want %d", passed, floodBurst)
	}
	ines := tobias
	ines.Sender.Key = "ines"
	if !f.allows(ines, now) {
		t.Error("someone else is slowed with him")
	}
	elsewhere := tobias
	elsewhere.Conversation = "paper:other"
	if !f.allows(elsewhere, now) {
		t.Error("he is slowed elsewhere too")
	}
	private := tobias
	private.Direct = true
	if !f.allows(private, now) {
		t.Error("he is slowed in private")
	}
	if f.allows(tobias, now.Add(floodEvery-time.Millisecond)) || !f.allows(tobias, now.Add(floodEvery)) {
		t.Error("one more is not let through just when it is time")
	}
}

func TestFloodForgets(t *testing.T) {
	var f flood
	now := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	for i := range 3 * mostHeard {
		f.allows(Message{Conversation: "paper:club", Sender: Person{Key: fmt.Sprint(i)}}, now.Add(time.Duration(i)*time.Second))
	}
	if len(f.heard) > mostHeard {
		t.Errorf("%d members are kept in mind", len(f.heard))
	}
}
