package telegram_test

import (
	"testing"

	"larderhand/bot/reply"
	"larderhand/bot/telegram/telegramtest"
)

// An address in a line to be typed turns into a link where a server cannot read the
// markup around it. No preview is fetched for it, sent or edited.
func TestNoPreviewOfALink(t *testing.T) {
	tg := fake(t)
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r := run(t, tg)
	room.Say(ines, "hello")
	r.settle()
	var linked reply.Reply
	linked.Say("Type ", reply.Type("note 1 https://bacon.example/juniper"))
	unread := telegramtest.Refuse(400, "Bad Request: can't parse entities: Unsupported start tag \"code\" at byte offset 5")
	look := func(what string) {
		t.Helper()
		m := last(t, room)
		if len(m.Marked("url")) != 1 {
			t.Fatalf("%s, it has no link in it: %+v", what, m.Entities)
		}
		_ = shown(t, m)
	}
	tg.Inject("sendMessage", 1, unread)
	ref, err := r.a.Send(t.Context(), address(room), "", linked)
	if err != nil {
		t.Fatal(err)
	}
	look("sent")
	linked.Say("or not")
	tg.Inject("editMessageText", 1, unread)
	if err := r.a.Edit(t.Context(), address(room), ref, linked); err != nil {
		t.Fatal(err)
	}
	look("edited")
}
