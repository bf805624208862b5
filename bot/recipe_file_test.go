package bot_test

import (
	"bytes"
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// sends sends a file in private.
func (c *commons) sends(who string, data []byte, want ...string) reply.Reply {
	c.t.Helper()
	c.n++
	r := c.bot.Handle(context.Background(), bot.Message{Event: fmt.Sprint(c.n), Conversation: store.Address("lane:@" + strings.ToLower(who)), Direct: true,
		Sender: bot.Person{Key: strings.ToLower(who), Name: who}, Text: "import", Files: []reply.File{{Name: "recipe.json", Type: "application/json", Data: data}}})
	for _, w := range want {
		if !strings.Contains(r.Text(), w) {
			c.t.Errorf("%s sends a file and reads no %q but\n%s", who, w, r.Text())
		}
	}
	return r
}

// file is the one file of an answer.
func (c *commons) file(r reply.Reply) []byte {
	c.t.Helper()
	if len(r.Files) != 1 {
		c.t.Fatalf("%d files with\n%s", len(r.Files), r.Text())
	}
	return r.Files[0].Data
}

func (c *commons) parsed(data []byte) exchange.Recipe {
	c.t.Helper()
	rd, err := exchange.NewReader()
	if err != nil {
		c.t.Fatal(err)
	}
	rec, err := rd.Read(data)
	if err != nil {
		c.t.Fatalf("%v:\n%s", err, data)
	}
	return rec
}

func (c *commons) passes(d time.Duration) { c.clock.At = c.clock.At.Add(d) }

// secret is what a note says.
const secret = "behind aunt Berta's shed"

// smokedWithSecrets is a batch taken to the end of its smoke, with a note after every
// step.
func (c *commons) smokedWithSecrets() {
	c.t.Helper()
	c.say("Ines", "", "open 2 kg juniper 38 mm, salt 2.3%, sugar 1.5%, nitrite 130 ppm, ascorbate 500 ppm, mix 5%")
	c.reads("Ines", "", "yes", "is open")
	for _, step := range []struct {
		line string
		wait time.Duration
	}{{"flip 1", 24 * time.Hour}, {"firm 1", 8 * 24 * time.Hour}, {"rinse 1", 0}, {"fry 1", 0}, {"dry 1", time.Hour}, {"tacky 1", 12 * time.Hour},
		{"season 1 cracked pepper", 0}, {"smoke 1", 0}, {"1 pit 70 core 20", time.Hour}, {"smoked 1 core 66", 5 * time.Hour}} {
		c.passes(step.wait)
		c.reads("Ines", "", step.line, "juniper")
		c.reads("Ines", "", "note 1 "+secret, "Noted with", secret)
	}
}

// What is in a recipe's file is what the batch was cured by, and no more; and whoever
// takes it has the same, with credit.
func TestRecipeFileIsWhatTheBatchWas(t *testing.T) {
	c := newCommons(t)
	c.say("Ines", "", "set units metric")
	c.smokedWithSecrets()
	c.reads("Ines", "", `save 1 as "winter juniper"`, "Kept")
	data := c.file(c.reads("Ines", "", "export winter juniper", "as a file"))
	if bytes.Contains(data, []byte("Berta")) {
		t.Errorf("a note is in the file:\n%s", data)
	}
	core := curemath.Fahrenheit(150.8).Celsius()
	want := exchange.Recipe{Format: "larderhand recipe", FormatVersion: 1, Name: "winter juniper", Version: 1, Credit: []string{"Ines"},
		Method: "dry rub", Nitrite: 130, Salt: 2.3, Sugar: 1.5, Ascorbate: 500, Mix: 5, Flavouring: "juniper", Seasoning: "cracked pepper", Thickness: 38,
		Days: 8, SmokeHours: 6, Core: &core,
		// By hand: 1000 g × 130 ppm ÷ 5 % = 2.6 g of mix, of which 2.47 g are salt.
		Example: &exchange.Example{Mix: 2.6, Salt: 21, Sugar: 15}}
	got := c.parsed(data)
	if got.Core == nil || float64(*got.Core-core) > 1e-9 || float64(core-*got.Core) > 1e-9 {
		t.Errorf("core %v, want %v", got.Core, core)
	}
	got.Core = want.Core
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the file holds\n%+v\nwant\n%+v", got, want)
	}

	c.sends("Tobias", data, "Kept winter juniper v1, from Ines:", "2.3 %", "130 ppm", "500 ppm", "5 % nitrite", "cracked pepper")
	again := c.parsed(c.file(c.reads("Tobias", "", "export winter juniper", "as a file")))
	again.Core, want.Credit = want.Core, []string{"Ines", "Tobias"}
	if !reflect.DeepEqual(again, want) {
		t.Errorf("from Tobias the file holds\n%+v\nwant\n%+v", again, want)
	}
	r := c.reads("Tobias", "", `use "winter juniper" 2 kg`, "By winter juniper v1, from Ines", "5.2 g")
	if strings.Contains(r.Text(), "Berta") {
		t.Error("a note went with the recipe")
	}
}

// A note is not to be told from what a card shows: not by its text, nor by a byte of its
// picture, in the cure, in the smoke or after it.
func TestNoteLeavesACardAsItIs(t *testing.T) {
	c := newCommons(t)
	c.say("Ines", "club", "hello")
	c.say("Ines", "", "open 2 kg juniper 38 mm")
	c.say("Ines", "", "yes")
	c.reads("Ines", "", "share 1 in club", "card 1")
	look := func() (string, []byte) {
		r := c.reads("Tobias", "", "shared b_code1", "juniper")
		return r.Text(), c.file(r)
	}
	for _, step := range []struct {
		line string
		wait time.Duration
	}{{"flip 1", 24 * time.Hour}, {"firm 1", 8 * 24 * time.Hour}, {"rinse 1", 0}, {"fry 1", 0}, {"dry 1", time.Hour}, {"tacky 1", 12 * time.Hour},
		{"season 1 pepper", 0}, {"smoke 1", 0}, {"1 pit 70 core 20", time.Hour}, {"smoked 1 core 66", 5 * time.Hour}} {
		c.passes(step.wait)
		before, _ := look()
		c.reads("Ines", "", step.line, "juniper")
		text, picture := look()
		if text == before && strings.HasPrefix(step.line, "smoke") {
			t.Errorf("%s changes nothing on the card:\n%s", step.line, text)
		}
		c.reads("Ines", "", "note 1 "+secret, "Noted")
		after, drawn := look()
		if after != text {
			t.Errorf("after %s a note makes the card\n%s\nof\n%s", step.line, after, text)
		}
		if !bytes.Equal(picture, drawn) || len(drawn) == 0 {
			t.Errorf("after %s a note changes the picture", step.line)
		}
	}
}
