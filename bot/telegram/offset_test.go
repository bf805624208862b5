package telegram_test

import (
	"testing"

	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

// An update that was answered and could not be confirmed comes again after a
// restart, and is not answered again.
func TestRestartBeforeAnAnswerIsConfirmed(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	r := prepare(t, tg, db).start()
	tg.AwaitPolling()
	deaf := tg.Inject("getUpdates", telegramtest.Always, telegramtest.ServerError())
	room.Say(ines, "5 lb juniper 1.5 in")
	room.Await(1)
	deaf.AwaitHits(1)
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	if tg.Pending() != 1 {
		t.Fatalf("%d updates are not confirmed", tg.Pending())
	}
	deaf.Clear()
	r = prepare(t, tg, db).start()
	tg.AwaitPolling()
	r.settle()
	if n := len(room.FromBot()); n != 1 {
		t.Errorf("%d answers:\n%s", n, room.Transcript())
	}
}
