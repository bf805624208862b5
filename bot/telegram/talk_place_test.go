package telegram_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"larderhand/bot/telegram/telegramtest"
	"larderhand/store"
)

var goesTo = regexp.MustCompile(`(?m)^in (\S+)$`)

// groupsOf are the groups a talk in several places goes to.
func groupsOf(t *testing.T, file string) []string {
	t.Helper()
	body, err := os.ReadFile(filepath.Join("../testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	script, _, _ := strings.Cut(string(body), "\n-- ")
	var names []string
	for _, m := range goesTo.FindAllStringSubmatch(script, -1) {
		if m[1] != "private" && !slices.Contains(names, m[1]) {
			names = append(names, m[1])
		}
	}
	return names
}

// tooOld is a card's end in a talk, a week after it was put up.
const tooOld = "CET club]\n(taken down)\n"

// blanked rewrites a talk whose card is taken down after days: a message more than two
// days old cannot be deleted (Bot API, deleteMessage), so it is emptied.
func blanked(t *testing.T, dir, file string) (newDir string) {
	t.Helper()
	body, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(body), tooOld) != 1 {
		t.Fatalf("%s takes no card down", file)
	}
	to := t.TempDir()
	body = []byte(strings.Replace(string(body), tooOld, "CET club, changed]\nInes's card was taken down.\n\n(picture blank.png, 1 KB)\n", 1))
	if err := os.WriteFile(filepath.Join(to, file), body, 0o600); err != nil {
		t.Fatal(err)
	}
	return to
}

// Places is none, one group, or as many as are named.
func (c *club) Places() int {
	switch c.kind {
	case "private":
		return 0
	case "places":
		return 2
	}
	return 1
}

// In goes to a group of that name, or to everyone's own private chat.
func (c *club) In(place string) error {
	c.moves = c.moves || c.kind == "places" && c.place != "" && c.place != place
	c.place = place
	if room, ok := c.rooms[place]; ok {
		c.room = room
	}
	return nil
}

// private reports whether people are each alone with the bot.
func (c *club) private() bool {
	return c.kind == "private" || c.kind == "places" && c.place == "private"
}

// at is the room of an address, and its name if the talk goes from place to place.
func (c *club) at(a store.Address) (*telegramtest.Room, string) {
	for name, room := range c.rooms {
		if address(room) == a {
			if !c.moves {
				name = ""
			}
			return room, strings.TrimSuffix(" "+name, " ")
		}
	}
	return c.room, ""
}

// saw keeps what was seen of a ping.
func (c *club) saw(where, text string) {
	c.pings = append(c.pings, "["+c.now().In(c.zone).Format("Mon 2 Jan 15:04 MST")+where+"]\n"+text)
}
