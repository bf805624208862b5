package telegram_test

import (
	"bytes"
	"image/png"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
)

// cardIn is the one card shown in a room.
func cardIn(t testing.TB, room *telegramtest.Room) telegramtest.Message {
	t.Helper()
	for _, m := range room.FromBot() {
		if _, ok := m.Button("Open in private"); ok && m.File != nil {
			return m
		}
	}
	t.Fatalf("there is no card in\n%s", room.Transcript())
	return telegramtest.Message{}
}

// A message more than two days old cannot be deleted (Bot API, deleteMessage), and a
// cure takes longer than that: the picture has to go all the same.
func TestOldCardIsTakenDownWithItsPicture(t *testing.T) {
	at := time.Now()
	clock := func() time.Time { return at }
	tg := fake(t, telegramtest.WithClock(clock))
	ines := tg.User("Ines")
	club := tg.Supergroup(clubName, ines)
	r := run(t, tg, func(_ *telegram.Config, a *telegram.Adapter) {
		if a != nil {
			a.Now = clock
		}
	})
	r.settle()
	r.openBatch(club, ines)
	club.Say(ines, "/share@"+tg.Username()+" 1")
	r.settle()
	r.tick(at.Add(2 * time.Minute))
	card := cardIn(t, club)
	at = at.Add(72 * time.Hour)
	club.Say(ines, "/unshare@"+tg.Username()+" 1")
	r.settle()
	r.tick(at.Add(2 * time.Minute))
	now, ok := club.Now(card)
	if !ok {
		t.Fatal("the platform deleted a message three days old")
	}
	if !strings.Contains(now.Text, "taken down") || len(now.Buttons) > 0 {
		t.Errorf("the card still reads\n%s", now)
	}
	if now.File == nil || bytes.Equal(now.File.Data, card.File.Data) {
		t.Fatal("the card's picture is still there")
	}
	img, err := png.Decode(bytes.NewReader(now.File.Data))
	if err != nil {
		t.Fatal(err)
	}
	first := img.At(0, 0)
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			if img.At(x, y) != first {
				t.Fatalf("at %d, %d something is drawn", x, y)
			}
		}
	}
}
