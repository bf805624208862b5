package telegram_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

// A crash between an update and its answer: the answer comes after the restart,
// once, and what was asked is done once.
func TestRestartBetweenUpdateAndAnswer(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	quick := func(c *telegram.Config, _ *telegram.Adapter) { c.Drain = 50 * time.Millisecond }
	r := prepare(t, tg, db, quick).start()
	r.openBatch(room, ines)
	stuck := tg.Inject("sendMessage", telegramtest.Always, telegramtest.Hang())
	room.Say(ines, "flip 1")
	room.Say(ines, "note 1 smelled of juniper")
	stuck.AwaitHits(1)
	tg.AwaitConfirmed()
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	stuck.Clear()
	before := len(room.FromBot())
	r = prepare(t, tg, db).start()
	tg.AwaitPolling()
	r.settle()
	list := room.FromBot()[before:]
	if len(list) != 2 || !strings.Contains(list[0].Text, "flipped") || strings.Contains(list[0].Text, "already") {
		t.Errorf("after the restart: %v", list)
	}
	room.Say(ines, "flip 1")
	r.settle()
	if !strings.Contains(last(t, room).Text, "already has its flip") {
		t.Errorf("the flip counts for nothing: %q", last(t, room).Text)
	}
	// A third start finds nothing left to do.
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	before = len(room.FromBot())
	r = prepare(t, tg, db).start()
	tg.AwaitPolling()
	r.settle()
	if n := len(room.FromBot()) - before; n != 0 {
		t.Errorf("%d messages out of nothing", n)
	}
}

// Every chat is told to wait, several times over; every answer arrives, once, and in
// its order.
func TestStormOf429(t *testing.T) {
	tg := fake(t)
	var rooms []*telegramtest.Room
	var people []*telegramtest.User
	for i := range 12 {
		u := tg.User(fmt.Sprintf("Guest %d", i))
		people, rooms = append(people, u), append(rooms, tg.Private(u))
	}
	r := run(t, tg)
	storm := tg.Inject("sendMessage", 20, telegramtest.RetryAfter(1))
	for i, room := range rooms {
		room.Say(people[i], "5 lb juniper 1.5 in")
		room.Say(people[i], "batches")
	}
	r.settle()
	if storm.Hits() != 20 {
		t.Errorf("the storm struck %d times", storm.Hits())
	}
	for i, room := range rooms {
		list := room.FromBot()
		if len(list) != 2 || !strings.Contains(list[0].Text, "4.3 g") {
			t.Errorf("guest %d reads %v", i, list)
		}
	}
}

// Answers get through passing trouble.
func TestAnswersGetThrough(t *testing.T) {
	for name, trouble := range map[string]telegramtest.Trouble{
		"500": telegramtest.ServerError(), "502 with a page": telegramtest.BadGateway(), "reset": telegramtest.Reset(),
	} {
		t.Run(name, func(t *testing.T) {
			tg := fake(t)
			ines := tg.User("Ines")
			room := tg.Private(ines)
			r := run(t, tg)
			tg.AwaitPolling()
			tg.Inject("sendMessage", 2, trouble)
			tg.Inject("getUpdates", 1, trouble)
			room.Say(ines, "5 lb juniper 1.5 in")
			r.settle()
			if n := len(room.FromBot()); n != 1 {
				t.Errorf("%d answers", n)
			}
			if strings.Contains(r.log.String(), tg.Token()) {
				t.Errorf("the token is in the log:\n%s", r.log)
			}
		})
	}
}

// A second process with the same token is spoken of, once, and outlived.
func TestTwoPollers(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	tg.AwaitPolling()
	rival := tg.Rival()
	rival.AwaitHits(2)
	rival.Clear()
	room.Say(ines, "5 lb juniper 1.5 in")
	r.settle()
	if n := strings.Count(r.log.String(), "another process polls with the same TELEGRAM_TOKEN"); n != 1 {
		t.Errorf("said %d times:\n%s", n, r.log)
	}
	if len(room.FromBot()) != 1 {
		t.Error("no answer after the other has gone")
	}
}

// A webhook left from before is taken down where updates are fetched.
func TestWebhookLeftBehind(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	post(t, tg, "setWebhook", `{"url":"http://127.0.0.1:9/gone"}`)
	r := run(t, tg)
	room.Say(ines, "5 lb juniper 1.5 in")
	r.settle()
	if len(room.FromBot()) != 1 {
		t.Error("no answer")
	}
}

// A token that is revoked ends the run with one clear error.
func TestTokenRevoked(t *testing.T) {
	tg := fake(t)
	r := prepare(t, tg, nil)
	done := make(chan error, 1)
	go func() { done <- r.a.Run(t.Context()) }()
	tg.AwaitPolling()
	tg.Inject("getUpdates", telegramtest.Always, telegramtest.Unauthorized())
	u := tg.User("Ines")
	tg.Private(u).Say(u, "batches")
	if err := <-done; !errors.Is(err, telegram.ErrToken) || strings.Contains(err.Error(), tg.Token()) {
		t.Errorf("the run ended with %v", err)
	}
}

// Everything stops within its bound, however stuck the platform is.
func TestStopsWithinABound(t *testing.T) {
	for _, method := range []string{"getMe", "getUpdates", "sendMessage", "getChatAdministrators", "setMyCommands"} {
		t.Run(method, func(t *testing.T) {
			tg := fake(t)
			ines := tg.User("Ines")
			club := tg.Supergroup(clubName, ines)
			stuck := tg.Inject(method, telegramtest.Always, telegramtest.Hang())
			r := prepare(t, tg, nil, func(c *telegram.Config, _ *telegram.Adapter) { c.Drain = 20 * time.Millisecond })
			ctx, stop := context.WithCancel(t.Context())
			done := make(chan error, 1)
			go func() { done <- r.a.Run(ctx) }()
			club.Say(ines, "/batches@"+tg.Username())
			stuck.AwaitHits(1)
			stop()
			select {
			case err := <-done:
				if err != nil {
					t.Error(err)
				}
			case <-time.After(5 * time.Second):
				t.Error("it does not stop")
			}
		})
	}
}

// A server from before the mark of instants costs the mark and nothing else.
func TestServerThatDoesNotKnowInstants(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	r.openBatch(room, ines)
	room.Say(ines, "flip 1")
	r.settle()
	tg.Inject("sendMessage", 1, telegramtest.Refuse(400, `Bad Request: can't parse entities: Unsupported start tag "tg-time" at byte offset 60`))
	for range 2 {
		room.Say(ines, "flip 1")
		r.settle()
		if m := last(t, room); !strings.Contains(m.Text, "already has its flip for that day, at ") || len(m.Marked("date_time")) > 0 || strings.Contains(m.Text, "tg-time") {
			t.Errorf("reads %q", m.Text)
		}
	}
}

// A reply of several messages that fails in the middle goes on there.
func TestLongAnswerGoesOn(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	room.Say(ines, "hello")
	r.settle()
	before := len(room.FromBot())
	long := longReply()
	key := "chore-7"
	send := func() error {
		_, err := r.a.Send(t.Context(), address(room), key, long)
		return err
	}
	tg.Inject("sendMessage", 1, telegramtest.Hang()).Release() // lets the first through
	tg.Inject("sendMessage", 1, telegramtest.RetryAfter(3))
	var f *store.Failure
	if err := send(); !errors.As(err, &f) || f.Kind != store.Wait || f.After != 3*time.Second {
		t.Fatalf("got %v", err)
	}
	if err := send(); err != nil {
		t.Fatal(err)
	}
	list := room.FromBot()[before:]
	first := list[0].Text[:40]
	for i, m := range list[1:] {
		if strings.HasPrefix(m.Text, first) {
			t.Errorf("message %d says the first again", i+2)
		}
	}
	if len(list) < 2 || !strings.Contains(list[len(list)-1].Text, "the end") {
		t.Errorf("%d messages, the last is %q", len(list), list[len(list)-1].Text)
	}
}

// One chat that floods is cut off, and nobody else waits for it.
func TestFlood(t *testing.T) {
	tg := fake(t)
	ines, tobias := tg.User("Ines"), tg.User("Tobias")
	loud, calm := tg.Private(ines), tg.Private(tobias)
	r := run(t, tg, func(c *telegram.Config, _ *telegram.Adapter) { c.Drain = 20 * time.Millisecond })
	tg.AwaitPolling()
	stuck := tg.Inject("sendMessage", telegramtest.Always, telegramtest.Hang(), loud)
	for range 70 {
		loud.Say(ines, "batches")
	}
	stuck.AwaitHits(1)
	calm.Say(tobias, "5 lb juniper 1.5 in")
	calm.Await(1)
	stuck.Clear()
	stuck.Release()
	r.settle()
	if !strings.Contains(r.log.String(), "sends more than can be answered") {
		t.Errorf("nothing was said of the flood:\n%s", r.log)
	}
}
