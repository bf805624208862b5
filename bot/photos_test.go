package bot_test

import (
	"strings"
	"testing"

	"larderhand/bot/reply"
	"larderhand/store"
)

// A picture comes back as it was sent, under the day, the name and the words it came
// with.
func TestPicturesComeBackWithWhatWasSaid(t *testing.T) {
	b := newBench(t, store.Memory)
	for _, line := range []string{"open 5 lb juniper 1 in from 20 Feb 9:00", "yes", "firm", "rinse", "fry good", "dry at yesterday 8:00", "tacky", "season", "smoke", "smoked core 150"} {
		b.say(line)
	}
	crust := reply.File{Name: "crust.png", Type: "image/png", Data: []byte("the crust")}
	b.say("note 1 thin end was dry", crust)
	b.say("taste 1", reply.File{Name: "slice.png", Type: "image/png", Data: []byte("a slice")})
	r := b.say("photos 1")
	if len(r.Files) != 2 || !strings.Contains(r.Text(), "2 pictures") {
		t.Fatalf("%d pictures come back:\n%s", len(r.Files), r.Text())
	}
	if f := r.Files[0]; f.Name != crust.Name || f.Type != crust.Type || string(f.Data) != string(crust.Data) || f.Caption != "1 Mar, Marit: thin end was dry" {
		t.Errorf("the first is %s (%s) %q under %q", f.Name, f.Type, f.Data, f.Caption)
	}
	if f := r.Files[1]; string(f.Data) != "a slice" || f.Caption != "1 Mar, Marit" {
		t.Errorf("the second is %q under %q", f.Data, f.Caption)
	}
}
