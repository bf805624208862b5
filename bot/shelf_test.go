package bot_test

import (
	"strings"
	"testing"
	"time"
)

// A person has one cupboard: what they count in private is run down by what they open in
// a group. What they paid is theirs to see.
func TestOneCupboardAPerson(t *testing.T) {
	c := newCommons(t)
	c.reads("Ines", "", "bought mix 10 g for 4.20", "10.0 g of curing mix")
	c.reads("Tobias", "club", "hello")
	c.passes(time.Minute)
	c.say("Ines", "club", "open 4 kg juniper 38 mm")
	c.reads("Ines", "club", "yes", "That leaves 2.4 g of curing mix")
	c.reads("Ines", "", "stock", "2.4 g", "420")
	c.reads("Ines", "", "2 kg", "holds 2.4 g of curing mix and this takes 3.8 g")
	c.reads("Ines", "club", "stock", "2.4 g")
	c.reads("Tobias", "club", "stock", "no count of your cupboard")
	c.reads("Ines", "club", "stock 1", "3.19")
	if r := c.reads("Tobias", "club", "stock 1", "7.6 g"); strings.Contains(r.Text(), "3.19") {
		t.Errorf("what Ines paid is told to Tobias:\n%s", r.Text())
	}
	c.passes(time.Minute)
	c.reads("Ines", "club", "bought mix 100 g", "102.4 g")
	c.reads("Ines", "other:", "stock", "no count of your cupboard") // someone of that name elsewhere
	c.passes(time.Minute)
	c.reads("Ines", "club", "close 1 opened by mistake", "7.6 g of curing mix back: 110.0 g")
	c.reads("Ines", "", "stock", "110.0 g")
	c.reads("Ines", "club", "undo 1")
	c.reads("Ines", "", "stock", "102.4 g")
}
