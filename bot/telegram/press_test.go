package telegram_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/reply"
	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

// scripted puts a bot behind the adapter that answers as told.
func scripted(b *adaptertest.Bot) func(*telegram.Config, *telegram.Adapter) {
	return func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Bot = b
		}
	}
}

// A flip by button changes the ping and says nothing new; a second one, by whoever,
// is explained to them alone; one on a message that is gone is answered anew.
func TestFlipByButton(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club := tg.Supergroup(clubName, ines, marit)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, ines)
	r.tick(time.Now().Add(40 * time.Hour))
	ping := pinged(t, club)
	before := len(club.FromBot())
	if a := club.Press(ines, ping, "Flipped 1").Await(); a.Text != "" {
		t.Errorf("a flip pops up %q", a.Text)
	}
	r.settle()
	if now := club.AwaitEdit(ping); !strings.Contains(now.Text, "flipped") || len(club.FromBot()) != before {
		t.Errorf("after the flip: %q, %d messages more", now.Text, len(club.FromBot())-before)
	}
	for _, who := range []*telegramtest.User{ines, marit} {
		if a := club.Press(who, ping, "Flipped 1").Await(); !a.Alert || !strings.Contains(a.Text, "already has its flip") {
			t.Errorf("%s pressing again sees %+v", who.FirstName, a)
		}
	}
	r.settle()
	if n := len(club.FromBot()) - before; n != 0 {
		t.Errorf("doubled presses made %d messages", n)
	}
	if n := tg.Unanswered(); n != 0 {
		t.Errorf("%d presses still spin", n)
	}
}

func TestPressOnAMessageThatIsGone(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	r.openBatch(room, ines)
	r.tick(time.Now().Add(40 * time.Hour))
	ping := pinged(t, room)
	room.Delete(ping)
	room.Press(ines, ping, "Flipped 1").Await()
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "flipped") {
		t.Errorf("the answer is %q", m.Text)
	}
}

// A button of a batch that has moved on is explained and changes nothing; so is one
// we never made, and one too old to be answered.
func TestStaleAndForeignButtons(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	r.openBatch(room, ines)
	begun := time.Now().AddDate(0, 0, -12).Format("2006-01-02 15:04")
	for _, line := range []string{"open 5 lb juniper 1.5 in from " + begun, "firm 2", "rinse 2", "fry 2"} {
		room.Say(ines, line)
		r.settle()
	}
	var tasted telegramtest.Message
	for _, m := range room.FromBot() {
		if _, ok := m.Button("Tastes right"); ok {
			tasted = m
		}
	}
	if tasted.ID == 0 {
		t.Fatal(room.Transcript())
	}
	if a := room.Press(ines, tasted, "Tastes right").Await(); !strings.Contains(a.Text, "from earlier; nothing was changed") {
		t.Errorf("a stale button shows %+v", a)
	}
	for _, data := range []string{"v0:flip", "L1:zz", "L1:0:", "K1:NOTHING", "\x00", strings.Repeat("x", 64)} {
		if a := room.PressData(ines, tasted, data).Await(); !a.Alert || !strings.Contains(a.Text, "another version") {
			t.Errorf("%q shows %+v", data, a)
		}
	}
	p := room.PressData(ines, tasted, "L1:0:batches")
	p.Expire()
	r.settle()
	if strings.Contains(r.log.String(), "could not be answered") {
		t.Errorf("an old press is made a fuss of:\n%s", r.log)
	}
}

// A line too long for 64 bytes of callback data still works, after a restart too.
func TestLongButton(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	b := &adaptertest.Bot{}
	r := prepare(t, tg, db, scripted(b)).start()
	room.Say(ines, "hello")
	r.settle()
	line := "open 6 lb juniper 1.75 in, 3.2 kg coffee and chilli 4 cm, 2 kg black pepper and honey 38 mm"
	var offer reply.Reply
	offer.Say("Again?").Press(reply.Button{Label: "The same again", Line: line, Version: 12})
	if _, err := r.a.Send(t.Context(), address(room), "", offer); err != nil {
		t.Fatal(err)
	}
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	r = prepare(t, tg, db, scripted(b)).start()
	room.Press(ines, last(t, room), "The same again").Await()
	r.settle()
	got := b.Got()
	if m := got[len(got)-1]; m.Press == nil || m.Press.Line != line || m.Press.Version != 12 {
		t.Errorf("the bot was asked %+v", m)
	}
}

// A slow answer does not leave the button spinning.
func TestPressIsAnsweredAtOnce(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	b := &adaptertest.Bot{}
	r := run(t, tg, scripted(b))
	room.Say(ines, "hello")
	r.settle()
	var offer reply.Reply
	offer.Say("Pick.").Press(reply.Button{Label: "Go", Line: "look 3"})
	if _, err := r.a.Send(t.Context(), address(room), "", offer); err != nil {
		t.Fatal(err)
	}
	goOn := make(chan struct{})
	b.On(func(bot.Message) reply.Reply {
		<-goOn
		var late reply.Reply
		late.Private = true
		late.Say("that took a while")
		return late
	})
	p := room.Press(ines, last(t, room), "Go")
	if a := p.Await(); a.Text != "" {
		t.Errorf("it was answered %+v before there was an answer", a)
	}
	close(goOn)
	r.settle()
	if m := last(t, room); m.Text != "that took a while" {
		t.Errorf("the answer itself is %q", m.Text)
	}
}

// What is shared is opened in private: by a link under the card in a group, and by
// the link's payload there.
func TestDeepLinks(t *testing.T) {
	tg := fake(t)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	club, room := tg.Supergroup(clubName, ines, tobias), tg.Private(tobias)
	b := sharing{&adaptertest.Bot{}}
	r := run(t, tg, func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Bot = b
		}
	})
	r.settle()
	var card reply.Reply
	card.Say("Batch 3, juniper.").Press(reply.Button{Label: "Look at it", Line: "shared b_Q7-x_2"}, reply.Button{Label: "Odd", Line: "shared b_no way"})
	if _, err := r.a.Send(t.Context(), address(club), "", card); err != nil {
		t.Fatal(err)
	}
	m := last(t, club)
	look, _ := m.Button("Look at it")
	if want := "https://t.me/" + tg.Username() + "?start=b_Q7-x_2"; look.URL != want || look.Data != "" {
		t.Errorf("the button is %+v, want %s", look, want)
	}
	if odd, _ := m.Button("Odd"); odd.URL != "" || odd.Data == "" {
		t.Errorf("a code that is none became %+v", odd)
	}
	for payload, want := range map[string]string{"b_Q7-x_2": "shared b_Q7-x_2", "r_winter": "shared r_winter", "": "welcome"} {
		room.Start(tobias, payload)
		r.settle()
		got := b.Got()
		if got[len(got)-1].Text != want {
			t.Errorf("start with %q asks the bot %q, want %q", payload, got[len(got)-1].Text, want)
		}
	}
	// A link can be made by anyone, so none runs a command.
	room.Start(tobias, "discard")
	r.settle()
	got := b.Got()
	if text := got[len(got)-1].Text; strings.HasPrefix(text, "discard") {
		t.Errorf("a link ran %q", text)
	}
}

// sharing is a scripted bot that can show what was shared, too.
type sharing struct{ *adaptertest.Bot }

func (s sharing) Commands() []bot.Command {
	return append(s.Bot.Commands(), bot.Command{Name: "shared", Form: "shared CODE", Help: "look at what was shared", Reads: true})
}

func TestSteps(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club, room := tg.Supergroup(clubName, ines, marit), tg.Private(ines)
	at := time.Now()
	b := &adaptertest.Bot{}
	r := run(t, tg, scripted(b), func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Now = func() time.Time { return at }
		}
	})
	r.settle()
	lines := func() string {
		var all []string
		for _, m := range b.Got() {
			all = append(all, m.Text)
		}
		return strings.Join(all, " | ")
	}
	say := func(in *telegramtest.Room, who *telegramtest.User, text string) { in.Say(who, text); r.settle() }
	answer := func(in *telegramtest.Room, who *telegramtest.User, text string) {
		t.Helper()
		in.Reply(who, last(t, in), text)
		r.settle()
	}
	// Tapped in a menu, the command comes alone.
	club.Say(marit, "/weigh@"+tg.Username())
	r.settle()
	if q := last(t, club); !q.Force || q.Hint != "5 lb" || q.ReplyTo == 0 {
		t.Fatalf("the first question is %+v", q)
	}
	answer(club, ines, "7 lb") // Ines was not asked
	if got := lines(); !strings.HasSuffix(got, "7 lb") {
		t.Errorf("someone else's answer became %q", got)
	}
	club.Reply(marit, question(t, club), "-") // the weight is needed
	r.settle()
	answer(club, marit, "5 lb")
	answer(club, marit, "skip")
	answer(club, marit, "yesterday 18:00")
	if got := lines(); !strings.HasSuffix(got, "weigh 5 lb from yesterday 18:00") {
		t.Errorf("the answers made %q", got)
	}
	// In private any text is the answer; a command ends the questions.
	say(room, ines, "/weigh")
	say(room, ines, "look 3")
	say(room, ines, "5 lb")
	if got := lines(); !strings.HasSuffix(got, "look 3 | 5 lb") {
		t.Errorf("after a command: %q", got)
	}
	say(room, ines, "/weigh")
	say(room, ines, "cancel")
	say(room, ines, "6 lb")
	if got := lines(); !strings.HasSuffix(got, "5 lb | 6 lb") {
		t.Errorf("after cancel: %q", got)
	}
	// A question an hour old is no longer waited for.
	say(room, ines, "/weigh")
	at = at.Add(2 * time.Hour)
	say(room, ines, "8 lb")
	if got := lines(); !strings.HasSuffix(got, "6 lb | 8 lb") {
		t.Errorf("long after: %q", got)
	}
}

// question is the newest message that asks something.
func question(t *testing.T, room *telegramtest.Room) telegramtest.Message {
	t.Helper()
	list := room.FromBot()
	for i := range list {
		if m := list[len(list)-1-i]; m.Force {
			return m
		}
	}
	t.Fatal("nothing was asked")
	return telegramtest.Message{}
}

func TestEditOfWhatIsNotThere(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	room.Say(ines, "hello")
	r.settle()
	var r1 reply.Reply
	r1.Say("in the smoke")
	ref, err := r.a.Send(t.Context(), address(room), "", r1)
	if err != nil {
		t.Fatal(err)
	}
	room.Delete(last(t, room))
	for name, err := range map[string]error{
		"gone":     r.a.Edit(context.Background(), address(room), ref, r1),
		"odd ref":  r.a.Edit(context.Background(), address(room), "x", r1),
		"too long": r.a.Edit(context.Background(), address(room), ref, longReply()),
		"odd room": r.a.Edit(context.Background(), "discord:1", ref, r1),
	} {
		if f, ok := err.(*store.Failure); !ok || f.Kind != store.Refused {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is so already, or gone already, is no failure.
func TestEditAndRemovalThatChangeNothing(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	room.Say(ines, "hello")
	r.settle()
	ping := pingOf("in the smoke")
	ping.Press(reply.Button{Label: "How is it", Line: "batch 1"})
	ref, err := r.a.Send(t.Context(), address(room), "", ping)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.a.Edit(t.Context(), address(room), ref, ping); err != nil {
		t.Errorf("an edit to the same: %v", err)
	}
	for range 2 {
		if err := r.a.Remove(t.Context(), address(room), ref); err != nil {
			t.Errorf("removed: %v", err)
		}
	}
	for _, m := range room.FromBot() {
		if strings.Contains(m.Text, "in the smoke") {
			t.Errorf("still there: %s", m)
		}
	}
}
