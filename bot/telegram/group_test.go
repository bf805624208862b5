package telegram_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
)

const clubName = "Quarry Lane Smokehouse Club"

// What the bot hears and answers in a group, with privacy mode on and off.
func TestWhoIsAnswered(t *testing.T) {
	for _, privacy := range []bool{true, false} {
		var opts []telegramtest.Option
		if !privacy {
			opts = append(opts, telegramtest.WithPrivacyOff())
		}
		tg := fake(t, opts...)
		ines := tg.User("Ines")
		club := tg.Supergroup(clubName, ines)
		r := run(t, tg)
		r.settle()
		for _, c := range []struct {
			text     string
			answered bool
		}{
			{"/batches@" + tg.Username(), true},
			{"/BATCHES@" + strings.ToUpper(tg.Username()), true},
			{"/batches@some_other_bot", false},
			{"/ban Tobias", false},      // nobody's command of ours
			{"5 lb looks right", false}, // people talking
			{"@" + tg.Username() + " batches", true},
			{"hey @" + tg.Username() + ", 5 lb juniper", true},
			{"write to a@" + tg.Username() + ".example", false},
			{"/start@" + tg.Username(), true},
		} {
			before := len(club.FromBot())
			club.Say(ines, c.text)
			r.settle()
			if got := len(club.FromBot()) - before; (got > 0) != c.answered {
				t.Errorf("privacy %v: %q got %d answers", privacy, c.text, got)
			}
		}
		said := last(t, club)
		club.Reply(ines, said, "5 lb juniper 1.5 in")
		r.settle()
		if !strings.Contains(last(t, club).Text, "4.3 g") {
			t.Errorf("an answer to the bot got %q", last(t, club).Text)
		}
	}
}

// A newcomer is told in six lines what this is, whoever let the bot in.
func TestWelcome(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club := tg.Group(clubName, ines)
	room := tg.Private(ines)
	r := run(t, tg)
	room.Start(ines, "")
	r.settle()
	for _, in := range []*telegramtest.Room{room, club} {
		if m := last(t, in); strings.Count(m.Text, "\n") != 5 || len(m.Buttons) == 0 {
			t.Errorf("a newcomer reads:\n%s", m)
		}
	}
	room.Start(ines, "b_nothing-like-that")
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "not shared any more") || !strings.Contains(m.Text, "hello") {
		t.Errorf("a link to nothing shows:\n%s", m)
	}
}

// In a forum the answer and the ping come where the batch is.
func TestTopics(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club := tg.Forum(clubName, ines)
	bellies, smoke := club.NewTopic(ines, "Bellies"), club.NewTopic(ines, "Smoke")
	r := run(t, tg)
	r.settle()
	for _, room := range []*telegramtest.Room{bellies, smoke, club} {
		r.openBatch(room, ines) // each is a conversation of its own, so each is batch 1
	}
	r.tick(time.Now().Add(40 * time.Hour))
	for _, room := range []*telegramtest.Room{bellies, smoke, club} {
		ping := last(t, room)
		if !strings.Contains(ping.Text, "flip it.") || ping.Thread != room.Thread() {
			t.Errorf("in topic %d the last message is %q in %d", room.Thread(), ping.Text, ping.Thread)
		}
		room.Press(ines, ping, "How is it").Await()
		r.settle()
		if m := last(t, room); m.ID == ping.ID || m.Thread != room.Thread() {
			t.Errorf("the press in topic %d was answered in %d", room.Thread(), m.Thread)
		}
	}
}

// A plain answer in a group without topics carries a thread number that is none.
func TestAnswersInAGroupAreNoTopics(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club := tg.Supergroup(clubName, ines)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, ines)
	club.Reply(ines, last(t, club), "flip 1")
	r.settle()
	if m := last(t, club); !strings.Contains(m.Text, "flipped") {
		t.Errorf("got %q", m.Text)
	}
	if r.parked(address(club)) != "" {
		t.Error("the group is parked")
	}
}

func TestDeletedTopicGoesOnInGeneral(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club := tg.Forum(clubName, ines)
	bellies := club.NewTopic(ines, "Bellies")
	r := run(t, tg)
	r.settle()
	r.openBatch(bellies, ines)
	bellies.DeleteTopic()
	r.tick(time.Now().Add(40 * time.Hour))
	r.tick(time.Now().Add(40*time.Hour + time.Minute))
	notice := club.AwaitText("topic I was writing in is gone")
	ping := pinged(t, club)
	if ping.ID < notice.ID {
		t.Error("the ping came before the word that its topic is gone")
	}
	club.Press(ines, ping, "Flipped 1").Await()
	r.settle()
	if m, _ := club.Now(ping); !strings.Contains(m.Text, "flipped") {
		t.Errorf("the flip after the move gives %q", m.Text)
	}
}

func TestClosedTopicRests(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	club := tg.Forum(clubName, ines)
	bellies := club.NewTopic(ines, "Bellies")
	r := run(t, tg)
	r.settle()
	r.openBatch(bellies, ines)
	bellies.CloseTopic(ines)
	r.settle()
	r.tick(time.Now().Add(40 * time.Hour))
	club.AwaitText("A topic I ping in was closed")
	if r.parked(address(bellies)) == "" {
		t.Error("a closed topic is not parked")
	}
	bellies.ReopenTopic(ines)
	r.settle()
	r.tick(time.Now().Add(41 * time.Hour))
	if !strings.Contains(last(t, bellies).Text, "flip it.") {
		t.Errorf("after it was opened again: %q", last(t, bellies).Text)
	}
}

// A group that became a supergroup is followed, whether we are told or find out.
func TestSupergroup(t *testing.T) {
	for _, heard := range []bool{true, false} {
		tg := fake(t)
		ines := tg.User("Ines")
		old := tg.Group(clubName, ines)
		r := run(t, tg)
		r.settle()
		r.openBatch(old, ines)
		move := old.MigrateUnheard
		if heard {
			move = old.Migrate
		}
		now := move(ines)
		r.settle()
		r.tick(time.Now().Add(40 * time.Hour))
		r.tick(time.Now().Add(40*time.Hour + time.Minute))
		ping := pinged(t, now)
		now.Press(ines, ping, "Flipped 1").Await()
		r.settle()
		if m, _ := now.Now(ping); !strings.Contains(m.Text, "Batch 1 (juniper) flipped") {
			t.Errorf("told %v: after the move the flip gives %q", heard, m.Text)
		}
		now.Say(ines, "/batches@"+tg.Username())
		r.settle()
		if m := last(t, now); strings.Count(m.Text, "juniper") != 1 {
			t.Errorf("told %v: the batches are %q", heard, m.Text)
		}
		// Both paths may still fire for one move.
		for range 2 {
			if err := r.db.MoveChat(t.Context(), time.Now(), address(old), address(now)); err != nil {
				t.Error(err)
			}
		}
	}
}

// What was said in the old group and answered after the move lands in the new one.
func TestAnswerFollowsAMove(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	old := tg.Group(clubName, ines)
	r := run(t, tg)
	r.settle()
	held := tg.Inject("sendMessage", 1, telegramtest.Hang())
	old.Say(ines, "/batches@"+tg.Username())
	held.AwaitHits(1)
	now := old.MigrateUnheard(ines)
	held.Release()
	now.AwaitText("batch")
	r.settle()
}

func TestOutOfReach(t *testing.T) {
	for name, c := range map[string]struct {
		away, back func(*telegramtest.Room, *telegramtest.User)
	}{
		"removed":    {(*telegramtest.Room).Kick, (*telegramtest.Room).AddBot},
		"restricted": {(*telegramtest.Room).Mute, (*telegramtest.Room).Unmute},
	} {
		t.Run(name, func(t *testing.T) {
			tg := fake(t)
			ines := tg.User("Ines")
			club := tg.Supergroup(clubName, ines)
			r := run(t, tg)
			r.settle()
			r.openBatch(club, ines)
			c.away(club, ines)
			r.settle()
			if r.parked(address(club)) == "" {
				t.Fatal("not parked")
			}
			before := len(tg.Calls("sendMessage"))
			r.tick(time.Now().Add(40 * time.Hour))
			if n := len(tg.Calls("sendMessage")) - before; n > 0 {
				t.Errorf("%d sendings to a chat out of reach", n)
			}
			c.back(club, ines)
			r.settle()
			r.tick(time.Now().Add(41 * time.Hour))
			if m := last(t, club); !strings.Contains(m.Text, "flip it.") {
				t.Errorf("back again, the last message is %q", m.Text)
			}
		})
	}
}

// A person who blocked the bot is left alone until they come back; nobody else is
// touched by it.
func TestBlocked(t *testing.T) {
	tg := fake(t)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	of, other := tg.Private(ines), tg.Private(tobias)
	r := run(t, tg)
	r.openBatch(of, ines)
	r.openBatch(other, tobias)
	blocked := tg.Inject("sendMessage", 1, telegramtest.Blocked(), of)
	r.tick(time.Now().Add(40 * time.Hour)) // found out by sending
	if blocked.Hits() != 1 || r.parked(address(of)) == "" || r.parked(address(other)) != "" {
		t.Errorf("hits %d, parked %q and %q", blocked.Hits(), r.parked(address(of)), r.parked(address(other)))
	}
	if !strings.Contains(last(t, other).Text, "flip it.") {
		t.Errorf("Tobias got %q", last(t, other).Text)
	}
	of.Block() // and by being told
	r.settle()
	of.Unblock()
	r.settle()
	if r.parked(address(of)) != "" {
		t.Error("still parked after coming back")
	}
	r.tick(time.Now().Add(41 * time.Hour))
	if !strings.Contains(last(t, of).Text, "flip it.") {
		t.Errorf("Ines got %q", last(t, of).Text)
	}
}

// An administrator who stays anonymous may manage the group; posts of a channel,
// and whoever speaks as one, are no people.
func TestAnonymous(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club := tg.Supergroup(clubName, ines, marit)
	news := tg.Channel("Smoke News", ines)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, marit)
	said := last(t, club)
	club.SayAnonymously("/close@" + tg.Username() + " 1 all eaten")
	r.settle()
	if m := last(t, club); m.ID == said.ID || strings.Contains(m.Text, "only the keeper") {
		t.Errorf("an anonymous admin got %q", m.Text)
	}
	before := len(club.FromBot())
	post := news.Post("/batches@" + tg.Username())
	club.ForwardPost(news, post)
	r.settle()
	if n := len(club.FromBot()) - before; n != 0 || len(news.FromBot()) != 0 {
		t.Errorf("a channel's post got %d answers in the group, %d in the channel", n, len(news.FromBot()))
	}
	club.SayAs(news, "/set@"+tg.Username()+" hour 07:30")
	r.settle()
	if m := last(t, club); strings.Contains(m.Text, "Set: hour") {
		t.Errorf("someone speaking as a channel changed the group's settings: %q", m.Text)
	}
}

// Administrators are looked up once and remembered for a while.
func TestAdministrators(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club := tg.Supergroup(clubName, ines, marit)
	at := time.Now()
	r := prepare(t, tg, nil, func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Now = func() time.Time { return at }
		}
	}).start()
	r.settle()
	set := func(who *telegramtest.User) bool {
		club.Say(who, "/set@"+tg.Username()+" hour 07:30")
		r.settle()
		return strings.Contains(last(t, club).Text, "Set: hour")
	}
	before := len(tg.Calls("getChatAdministrators"))
	if !set(ines) || set(marit) || set(marit) {
		t.Error("the owner may set the hour, a member may not")
	}
	if n := len(tg.Calls("getChatAdministrators")) - before; n > 1 {
		t.Errorf("looked up %d times", n)
	}
	club.Promote(marit)
	at = at.Add(6 * time.Minute)
	if !set(marit) {
		t.Error("someone promoted is not known as an administrator later")
	}
	tg.Inject("getChatAdministrators", 1, telegramtest.ServerError())
	at = at.Add(6 * time.Minute)
	if !set(marit) {
		t.Error("a look-up that failed took the right away")
	}
}

// A card and a recipe put up in a group are opened in private by their link, by
// someone the bot has not met and who is in no group with it.
func TestSharedLinks(t *testing.T) {
	tg := fake(t)
	ines, marit := tg.User("Ines"), tg.User("Marit")
	club, room := tg.Group(clubName, ines), tg.Private(marit)
	r := run(t, tg)
	r.settle()
	r.openBatch(club, ines)
	open := func(want ...string) {
		t.Helper()
		var link string
		for _, m := range club.FromBot() {
			if b, ok := m.Button("Open in private"); ok {
				_, link, _ = strings.Cut(b.URL, "?start=")
			}
		}
		if link == "" {
			t.Fatalf("there is no link in the group; last was\n%s", last(t, club))
		}
		room.Start(marit, link)
		r.settle()
		said := ""
		for _, m := range room.FromBot() {
			said += m.Text + "\n"
		}
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("the link shows no %q but\n%s", w, said)
			}
		}
	}
	club.Say(ines, "/share@"+tg.Username()+" 1")
	r.settle()
	r.tick(time.Now().Add(2 * time.Minute))
	open("dry rub", "Card 1")
	club.Say(ines, "/save@"+tg.Username()+` 1 as "mild juniper"`)
	r.settle()
	club.Say(ines, "/share@"+tg.Username()+` "mild juniper"`)
	r.settle()
	open("The recipe mild juniper")
	room.Press(marit, last(t, room), "Take it").Await()
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "Taken: mild juniper") {
		t.Errorf("taking it said:\n%s", m)
	}
}
