package bot

import (
	"fmt"
	"strings"
	"time"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// awaySetting is until when a conversation's routine pings wait.
const awaySetting = "away"

func showAway(t *Turn, s store.Settings) string {
	at := time.Unix(s.AwayUntil, 0).In(t.Loc)
	if s.AwayUntil == 0 || !at.After(t.Now) {
		return "no"
	}
	return "until " + at.Format("Mon 2 Jan 15:04")
}

func takeAway(t *Turn, s *store.Settings, text string) error {
	text = strings.ToLower(text)
	for _, word := range []string{"until ", "till ", "til ", "for "} {
		text = strings.TrimSpace(strings.TrimPrefix(text, word))
	}
	if text == "no" || text == "off" || text == "back" {
		if s.AwayUntil > t.Now.Unix() {
			s.AwayUntil = t.Now.Unix() // what was held back is due now, not long ago
		}
		return nil
	}
	at, err := parse.ClockTime(text, t.Now)
	if err != nil {
		if d, derr := parse.Duration(text); derr == nil {
			at, err = t.Now.Add(d), nil
		}
	}
	if err != nil {
		return err
	}
	if !at.After(t.Now) || at.After(t.Now.AddDate(0, 1, 0)) {
		return &Error{Kind: BadInput, Why: "I can hold pings back for up to a month from now.", Understood: at.Format("Mon 2 Jan 2006 15:04"), Example: "set away until Sunday 18:00"}
	}
	s.AwayUntil = at.Unix()
	return nil
}

// sayWhoCouldMeanwhile shows how a running batch of whoever goes away is handed to
// someone else who is here, whose pings come all the same.
func (t *Turn) sayWhoCouldMeanwhile(r *reply.Reply) error {
	until := time.Unix(t.Conv.Settings.AwayUntil, 0)
	if !until.After(t.Now) {
		return nil
	}
	members, err := t.Tx.Members(t.Conv.ID)
	if err != nil {
		return err
	}
	list, err := t.Tx.Batches(t.Conv.ID, false)
	if err != nil {
		return err
	}
	for _, b := range list {
		if b.Keeper != t.Me.ID {
			continue
		}
		s, err := load(t.Tx, b)
		if err != nil {
			return err
		}
		if s.End != "" || s.Helper.At(t.Now) {
			continue
		}
		for _, m := range members {
			if m.ID != t.Me.ID {
				r.Say("Someone else can have its pings meanwhile: ", reply.Type(fmt.Sprintf("hand %d to @%s until %s", b.Number, m.Name, until.In(t.Loc).Format("Mon 2 Jan 15:04"))))
				return nil
			}
		}
	}
	return nil
}
