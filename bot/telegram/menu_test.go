package telegram_test

import (
	"slices"
	"strings"
	"testing"

	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

func names(list []telegramtest.Command) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.Name)
	}
	return out
}

// Each sort of person sees their menu, in their language, and it is set once until
// it changes.
func TestMenus(t *testing.T) {
	tg := fake(t)
	ines := tg.Person(telegramtest.User{FirstName: "Ines", Language: "de"})
	tobias, marit := tg.Person(telegramtest.User{FirstName: "Tobias", Language: "en"}), tg.User("Marit")
	club := tg.Supergroup(clubName, marit, ines, tobias)
	private := tg.Private(ines)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	r := prepare(t, tg, db).start()
	tg.AwaitCalls("setMyShortDescription", 1)
	all := len(names(private.MenuFor(ines)))
	for _, c := range []struct {
		what       string
		menu       []telegramtest.Command
		has, lacks string
		text       string
	}{
		{"private, German", private.MenuFor(ines), "set", "?", "Wenden einer Charge festhalten"},
		{"member, English", club.MenuFor(tobias), "flip", "set", "record that a batch was flipped"},
		{"member, German", club.MenuFor(ines), "flip", "set", "Wenden einer Charge festhalten"},
		{"administrator", club.MenuFor(marit), "set", "?", "record that a batch was flipped"},
	} {
		list := names(c.menu)
		if !slices.Contains(list, c.has) || slices.Contains(list, c.lacks) {
			t.Errorf("%s: %v", c.what, list)
		}
		if !slices.ContainsFunc(c.menu, func(m telegramtest.Command) bool { return m.Description == c.text }) {
			t.Errorf("%s: nothing is described as %q", c.what, c.text)
		}
	}
	commands := 0
	for _, c := range r.bot.Commands() {
		if strings.Trim(c.Name, "abcdefghijklmnopqrstuvwxyz0123456789_") == "" {
			commands++
		}
	}
	if all != commands || all > 100 {
		t.Errorf("%d of %d commands are in the private menu", all, commands)
	}
	if tg.Description("") == "" || tg.ShortDescription("de") == "" {
		t.Error("nothing is said about the bot")
	}
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	before := len(tg.Calls("setMyCommands"))
	r = prepare(t, tg, db).start()
	tg.AwaitPolling()
	if err := r.stop(); err != nil { // waits for the menus too
		t.Fatal(err)
	}
	if n := len(tg.Calls("setMyCommands")) - before; n != 0 {
		t.Errorf("menus that had not changed were set %d times", n)
	}
}

// A server that lacks what is optional is spoken of once, and everything else works.
func TestServerWithoutMenus(t *testing.T) {
	tg := fake(t, telegramtest.WithoutMethods("setMyCommands", "setMyDescription", "setMyShortDescription"))
	ines := tg.User("Ines")
	room := tg.Private(ines)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	r := prepare(t, tg, db).start()
	r.log.await(t, "does not take an optional call", 3)
	room.Say(ines, "5 lb juniper 1.5 in")
	r.settle()
	if len(room.FromBot()) != 1 {
		t.Error("no answer")
	}
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(r.log.String(), "does not take an optional call"); n != 3 {
		t.Errorf("three methods are missing, spoken of %d times:\n%s", n, r.log)
	}
	if n := len(tg.Calls("setMyCommands")); n != 1 {
		t.Errorf("a method that is not there was called %d times", n)
	}
}

// Trouble that passes leaves the menus to the next start.
func TestMenusAfterTrouble(t *testing.T) {
	tg := fake(t)
	db, err := store.Open(t.Context(), store.Memory)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	trouble := tg.Inject("setMyDescription", telegramtest.Always, telegramtest.Hang())
	r := prepare(t, tg, db).start()
	trouble.AwaitHits(1)
	if err := r.stop(); err != nil {
		t.Fatal(err)
	}
	trouble.Clear()
	prepare(t, tg, db).start()
	tg.AwaitCalls("setMyDescription", 1)
}
