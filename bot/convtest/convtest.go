// Package convtest runs golden talks: conversations written down in txtar files
// that a person can read aloud. It is for tests only.
//
// A talk is a script of testscript's with these verbs of its own:
//
//	begin INSTANT ZONE     start the clock and an empty store
//	as NAME                who speaks from here on
//	in PLACE               where: "private", or the name of a group
//	admin NAME ...         these manage the groups
//	say TEXT               say something
//	press LABEL            press the newest button with that label, in answers and pings
//	press-old LABEL        press the oldest one, however long ago it was shown
//	attach FILE TEXT       say something with a file of the talk; a .jpg is a small picture
//	clock HOW              move the clock on: 1d, 36h, until 08:00
//	restart                close the store and open it again
//	fail N KIND            the next N sendings fail: unknown, wait, gone, refused
//	opened N a PPM         batch N's piece a is one that was opened at that much nitrite,
//	                       as an earlier version let it
//	crash                  the next sending arrives, and then the process dies before noting it
//
// Everything said is written to the file "talk", to be compared with
// "cmp talk want". A talk that compares nothing fails.
//
// A channel need not have groups or files; a talk that uses them begins with
// "[!groups] skip" or "[!files] skip", one that goes from one place to another with
// "[!places] skip".
package convtest

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// Run runs the talks in a folder, each over a channel of its own. update says
// whether to write down what was said instead of comparing.
func Run(t *testing.T, dir string, update bool, open func(testing.TB) Channel) {
	t.Helper()
	RunSome(t, dir, "*.txtar", update, open)
}

// RunSome is Run for the files whose names match a pattern.
func RunSome(t *testing.T, dir, pattern string, update bool, open func(testing.TB) Channel) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, pattern))
	if err != nil || len(files) == 0 {
		t.Fatalf("no talks %s in %s: %v", pattern, dir, err)
	}
	for _, f := range files {
		body, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(body), "\ncmp talk ") {
			t.Errorf("%s compares nothing, so it tests nothing", f)
		}
	}
	testscript.Run(t, testscript.Params{
		Files: files,
		Setup: func(e *testscript.Env) error {
			d := newDesk(e.T().(testing.TB), filepath.Join(e.WorkDir, "talk.db"), open)
			e.Values[deskKey{}] = d
			e.Defer(d.close)
			return nil
		},
		Cmds: verbs(),
		Condition: func(cond string) (bool, error) {
			ch := open(t)
			switch cond {
			case "groups":
				g, ok := ch.(Grouped)
				return ok && g.Places() > 0, nil
			case "places":
				g, ok := ch.(Grouped)
				return ok && g.Places() > 1, nil
			case "moves":
				m, ok := ch.(Mover)
				return ok && m.Moves(), nil
			case "files":
				_, ok := ch.(Attacher)
				return ok, nil
			}
			return false, fmt.Errorf("no condition is called %q", cond)
		},
		UpdateScripts: update,
	})
}

type deskKey struct{}

func verbs() map[string]func(*testscript.TestScript, bool, []string) {
	verb := func(do func(*desk, string) error) func(*testscript.TestScript, bool, []string) {
		return func(ts *testscript.TestScript, neg bool, args []string) {
			if neg {
				ts.Fatalf("a talk has no unsaying")
			}
			d := ts.Value(deskKey{}).(*desk)
			ts.Check(do(d, strings.Join(args, " ")))
			ts.Check(os.WriteFile(ts.MkAbs("talk"), []byte(d.talk.String()), 0o600))
		}
	}
	attach := func(ts *testscript.TestScript, _ bool, args []string) {
		if len(args) == 0 {
			ts.Fatalf("attach what?")
		}
		if strings.HasSuffix(args[0], ".jpg") {
			verb(func(d *desk, text string) error { return d.attach(args[0], picture(), text) })(ts, false, args[1:])
			return
		}
		verb(func(d *desk, text string) error { return d.attach(args[0], []byte(ts.ReadFile(args[0])), text) })(ts, false, args[1:])
	}
	return map[string]func(*testscript.TestScript, bool, []string){
		"in":        verb((*desk).in),
		"move":      verb((*desk).move),
		"admin":     verb((*desk).admin),
		"attach":    attach,
		"begin":     verb((*desk).begin),
		"as":        verb((*desk).as),
		"say":       verb((*desk).say),
		"press":     verb(func(d *desk, label string) error { return d.press(label, false) }),
		"press-old": verb(func(d *desk, label string) error { return d.press(label, true) }),
		"clock":     verb((*desk).wait),
		"restart":   verb((*desk).restart),
		"fail":      verb((*desk).fail),
		"crash":     verb((*desk).crash),
		"opened":    verb((*desk).opened),
	}
}

// picture is a small picture, red as meat with a white streak.
func picture() []byte {
	img := image.NewPaletted(image.Rect(0, 0, 48, 32), color.Palette{color.RGBA{0xa0, 0x30, 0x30, 0xff}, color.White})
	for x := range 48 {
		img.SetColorIndex(x, 10+x/8, 1)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err) // a buffer takes all
	}
	return b.Bytes()
}
