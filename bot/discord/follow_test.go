package discord_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// Those who follow a card, and nobody else, are pinged by what tells them it is done;
// the one asked is pinged by the question, and the one offered a batch by the offer.
func TestFollowersArePinged(t *testing.T) {
	l := newLive(t)
	here := l.ines.At(l.curing)
	l.told(l.tobias.At(l.curing), "hello")
	l.told(l.marit.At(l.curing), "hello")
	l.open(here, "5 lb juniper 1.5 in")
	l.told(here, "share 1")
	l.pass(2 * time.Minute)
	l.told(l.tobias.At(l.curing), "follow card 1")
	l.told(l.marit.At(l.curing), "follow card 1")
	pinged := func(text string, want ...string) {
		t.Helper()
		m := here.WaitText(text)
		got := slices.Clone(m.Pings)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%q pings %v, want %v", m.Text, got, want)
		}
		var users []string
		list, _ := m.AllowedMentions["users"].([]any)
		for _, u := range list {
			users = append(users, fmt.Sprint(u))
		}
		var ids []string
		for _, p := range (&talk{club: l.club}).people() {
			if slices.Contains(want, p.Name) {
				ids = append(ids, p.ID)
			}
		}
		slices.Sort(users)
		slices.Sort(ids)
		if !slices.Equal(users, ids) || len(m.AllowedMentions["parse"].([]any)) != 0 {
			t.Errorf("%q allows %v, want the users %v", m.Text, m.AllowedMentions, ids)
		}
	}
	l.told(l.marit.At(l.curing), "ask 1 which wood?")
	pinged("which wood?", "Ines")
	l.told(here, "hand 1 to @Tobias until 20:00")
	pinged("will you look after", "Tobias")
	l.told(here, "close 1 eaten")
	l.pass(2 * time.Minute)
	pinged("You asked to be told", "Marit", "Tobias")
	n := 0
	for _, m := range here.Messages() {
		if strings.Contains(m.Text, "You asked to be told") {
			n++
		}
	}
	if n != 1 {
		t.Errorf("told %d times", n)
	}
}
