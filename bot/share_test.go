package bot_test

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/ledger"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler"
	"larderhand/store"
)

// roll knows who left which group, and counts how often it is asked.
type roll struct {
	left  map[string]bool
	mute  error
	asked int
}

func (r *roll) Inside(_ context.Context, group store.Address, key string) (bool, error) {
	r.asked++
	return !r.left[string(group)+"/"+key], r.mute
}

// commons is a bot in several places.
type commons struct {
	t     *testing.T
	db    *store.DB
	bot   *bot.Bot
	clock *scheduler.HandClock
	roll  *roll
	n     int
}

func newCommons(t *testing.T) *commons {
	t.Helper()
	rules, err := curemath.LoadRules()
	if err != nil {
		t.Fatal(err)
	}
	db, err := store.Open(context.Background(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	c := &commons{t: t, db: db, clock: &scheduler.HandClock{At: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}, roll: &roll{left: map[string]bool{}}}
	codes := 0
	c.bot = bot.New(bot.Config{Ledger: ledger.Ledger{DB: db}, Clock: c.clock, Zone: time.UTC, Rules: rules, Roll: c.roll,
		Log: slog.New(slog.NewTextHandler(loud{t}, &slog.HandlerOptions{Level: slog.LevelError})), Code: func() string { codes++; return fmt.Sprintf("code%d", codes) }})
	return c
}

// say says something at "lane:group" or, with no group, in private.
func (c *commons) say(who, group, text string) reply.Reply {
	c.n++
	lane, group, ok := strings.Cut(group, ":")
	if !ok {
		lane, group = "lane", lane
	}
	m := bot.Message{Event: fmt.Sprint(c.n), Sender: bot.Person{Key: strings.ToLower(who), Name: who}, Text: text}
	if group == "" {
		m.Conversation, m.Direct = store.Address(lane+":@"+strings.ToLower(who)), true
	} else {
		title, server, _ := strings.Cut(group, "@")
		m.Conversation, m.Title, m.Server = store.Address(lane+":"+group), title, server
		m.Sender.Admin = who == "Marit"
	}
	return c.bot.Handle(context.Background(), m)
}

// reads says something and wants words in the answer.
func (c *commons) reads(who, group, text string, want ...string) reply.Reply {
	c.t.Helper()
	r := c.say(who, group, text)
	for _, w := range want {
		if !strings.Contains(r.Text(), w) {
			c.t.Errorf("%s at %q says %q and reads no %q but\n%s", who, group, text, w, r.Text())
		}
	}
	return r
}

// cards counts the cards up at a place.
func (c *commons) cards(address string) []store.Card {
	c.t.Helper()
	var list []store.Card
	err := c.db.View(context.Background(), c.clock.At, func(tx *store.Tx) error {
		conv, err := tx.Conversation(store.Address(address))
		if err != nil {
			return err
		}
		list, err = tx.CardsIn(conv.ID)
		return err
	})
	if err != nil {
		c.t.Fatal(err)
	}
	return list
}

// recipe opens a batch in private and keeps it as a recipe.
func (c *commons) recipe(who, name string) {
	c.say(who, "", "open 2 kg juniper 20 mm")
	c.say(who, "", "yes")
	c.reads(who, "", fmt.Sprintf("save 1 as %q", name), name)
}

// What was shared from a private chat is taken back from there, wherever it is, also by
// someone who is in the group no more.
func TestUnshareARecipeFromPrivate(t *testing.T) {
	c := newCommons(t)
	for _, g := range []string{"club", "garden"} {
		c.say("Ines", g, "hello")
	}
	c.recipe("Ines", "winter")
	code := func(r reply.Reply) string {
		for _, row := range r.Buttons {
			for _, b := range row {
				if line, ok := strings.CutPrefix(b.Line, "shared "); ok {
					return line
				}
			}
		}
		t.Fatalf("no code in %v", r.Buttons)
		return ""
	}
	club := code(c.reads("Ines", "", `share "winter" in club`, "shares the recipe"))
	garden := code(c.reads("Ines", "", `share "winter" in garden`, "in garden"))
	c.reads("Tobias", "", "shared "+club, "The recipe winter")
	c.roll.left["lane:club/ines"] = true
	c.reads("Ines", "", `unshare "winter" in shed`, "not shared there", "elsewhere")
	c.reads("Ines", "", `unshare "winter" in club`, "winter is no longer shared in club")
	c.reads("Tobias", "", "shared "+club, "not shared any more")
	c.reads("Tobias", "", "shared "+garden, "The recipe winter")
	c.reads("Ines", "club", `unshare "winter"`, "not shared here", "in private")
	c.reads("Ines", "", `share "winter" in garden`)
	c.say("Ines", "shed", "hello")
	c.reads("Ines", "", `share "winter" in shed`)
	c.reads("Ines", "", `unshare "winter"`, "no longer shared in garden, shed")
	c.reads("Tobias", "", "shared "+garden, "not shared any more")
	c.reads("Ines", "", `unshare "winter"`, "shared nowhere")
}

// A name in quotes may say "in".
func TestShareWhatSaysIn(t *testing.T) {
	c := newCommons(t)
	c.say("Ines", "club", "hello")
	c.recipe("Ines", "belly in honey")
	c.reads("Ines", "", `share "belly in honey" in club`, "shares the recipe belly in honey")
	c.reads("Ines", "", `unshare "belly in honey"`, "no longer shared in club")
}

// Channels called alike are everywhere, so the bot asks which is meant and shows whose
// they are.
func TestGroupsOfOneName(t *testing.T) {
	c := newCommons(t)
	for _, g := range []string{"general@Quarry Lane", "general@Lakeside", "shed", "shed@"} {
		c.say("Ines", g, "hello")
	}
	c.say("Ines", "", "open 2 kg juniper 20 mm")
	c.say("Ines", "", "yes")
	r := c.reads("Ines", "", "share 1 in general", "In which?")
	var press string
	for _, b := range r.Buttons[0] {
		if b.Label == "general (Lakeside)" {
			press = b.Line
		}
	}
	if press == "" || len(c.cards("lane:general@Quarry Lane")) != 0 {
		t.Fatalf("the buttons are %v", r.Buttons)
	}
	c.reads("Ines", "", press, "in general (Lakeside)")
	if n := len(c.cards("lane:general@Lakeside")); n != 1 {
		t.Errorf("%d cards where the button says", n)
	}
	if n := len(c.cards("lane:general@Quarry Lane")); n != 0 {
		t.Errorf("%d cards in the other", n)
	}
	c.reads("Ines", "", "share 1 in General (Quarry Lane)", "is shared in general (Quarry Lane)")
	c.reads("Ines", "", "unshare 1 in general", "In which?")
	c.reads("Ines", "", "unshare 1 in general (quarry lane)", "stays shared in 1 other group")
	if n := len(c.cards("lane:general@Quarry Lane")); n != 0 {
		t.Errorf("%d cards after it was taken down", n)
	}
	// The server's name will do where it has only one; where nobody told what a channel or
	// topic is called, it is all there is.
	c.reads("Ines", "", "unshare 1 in lakeside", "1 card will be taken down")
	c.say("Ines", "@Back Yard", "hello")
	c.reads("Ines", "", "share 1 in back yard", "is shared in a topic of Back Yard")
	c.say("Ines", "herbs@Back Yard", "hello")
	r = c.reads("Ines", "", "share 1 in back yard", "In which?")
	if b := r.Buttons[0]; len(b) != 2 || b[0].Label != "a topic of Back Yard" || b[1].Label != "herbs (Back Yard)" {
		t.Errorf("the buttons are %v", b)
	}
	// Two nothing tells apart but their number still have labels of their own.
	r = c.reads("Ines", "", "share 1 in shed", "In which?")
	if b := r.Buttons[0]; len(b) != 2 || b[0].Label == b[1].Label {
		t.Errorf("the buttons are %v", b)
	}
}

// Having spoken in a group once is not being in it.
func TestShareOnlyWhereOneIs(t *testing.T) {
	c := newCommons(t)
	c.say("Ines", "club", "hello")
	c.recipe("Ines", "winter")
	c.roll.left["lane:club/ines"] = true
	c.reads("Ines", "", "share 1 in club", "not in club any more")
	c.reads("Ines", "", `share "winter" in club`, "not in club any more")
	if n := len(c.cards("lane:club")); n != 0 {
		t.Errorf("%d cards of somebody who is not there", n)
	}
	if c.roll.asked != 1 {
		t.Errorf("the platform was asked %d times within a moment", c.roll.asked)
	}
	c.clock.At = c.clock.At.Add(time.Minute)
	c.roll.mute = errors.New("made to fail")
	c.reads("Ines", "", "share 1 in club", "couldn't find out", "try again")
	c.roll.mute, c.roll.left = nil, nil
	c.reads("Ines", "", "share 1 in club", "is shared in club")
	c.clock.At = c.clock.At.Add(time.Hour)
	c.roll.left = map[string]bool{"lane:club/ines": true}
	c.reads("Ines", "", `share "winter" in club`, "not in club any more")
}

// A bot that cannot ask shares nothing from elsewhere.
func TestShareWithoutARoll(t *testing.T) {
	c := newCommons(t)
	c.bot.Roll = nil
	c.say("Ines", "club", "hello")
	c.recipe("Ines", "winter")
	c.reads("Ines", "", "share 1 in club", "couldn't find out")
}

// A group admin may put a member's batch up: it stays the member's, and questions go to
// them. Elsewhere only they may show it.
func TestAdminSharesAnothersBatch(t *testing.T) {
	c := newCommons(t)
	c.say("Marit", "elsewhere", "hello")
	c.say("Ines", "club", "open 2 kg juniper 20 mm")
	c.say("Ines", "club", "yes")
	c.reads("Marit", "club", "share 1 in elsewhere", "Ines's", "only they")
	c.reads("Marit", "club", "share 1", "Ines's card 1", "by you")
	if card := c.cards("lane:club")[0]; card.Owner != "ines" || card.OwnerName != "Ines" {
		t.Errorf("the card is %s's (%s)", card.OwnerName, card.Owner)
	}
	if r := c.reads("Tobias", "club", "ask 1 which wood?", "which wood?"); len(r.Mentions) != 1 || r.Mentions[0] != "ines" {
		t.Errorf("the question calls %v", r.Mentions)
	}
}

// A code stands for one recipe, also where somebody else's here has the same name.
func TestTakeOnesOwnByCode(t *testing.T) {
	c := newCommons(t)
	c.recipe("Ines", "winter")
	c.recipe("Marit", "winter")
	c.say("Ines", "club", "hello")
	c.say("Marit", "club", "hello")
	mine := c.say("Ines", "", `share "winter" in club`)
	c.say("Marit", "", `share "winter" in club`)
	code := strings.TrimPrefix(mine.Buttons[len(mine.Buttons)-1][0].Line, "shared ")
	c.reads("Ines", "club", "take "+code, "is yours already")
	c.reads("Ines", "club", `take "winter"`, "Taken: winter v2") // by name Marit's is meant
}

// Codes are good on the platform they were made on: ids of people on two platforms may
// be the same.
func TestCodesStayOnTheirPlatform(t *testing.T) {
	c := newCommons(t)
	c.recipe("Ines", "winter")
	c.say("Ines", "club", "hello")
	shared := c.say("Ines", "", `share "winter" in club`)
	code := strings.TrimPrefix(shared.Buttons[len(shared.Buttons)-1][0].Line, "shared ")
	c.reads("Ines", "", "share 1 in club", "card 1")
	card := c.cards("lane:club")[0]
	for _, open := range []string{"shared " + code, "shared b_" + card.Code} {
		c.reads("Tobias", "", open, "juniper")
		c.reads("Tobias", "other:", open, "not shared any more")
	}
}
