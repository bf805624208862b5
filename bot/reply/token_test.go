package reply

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Tokens made by earlier versions must go on being read: messages with buttons stay
// in a chat for ever.
func TestOldTokensAreRead(t *testing.T) {
	for token, want := range map[string]Button{
		"L1:0:flip 3":               {Line: "flip 3"},
		"L1:1c:firm 2a":             {Line: "firm 2a", Version: 48},
		"A1:0:temp 1":               {Line: "temp 1", Ask: true},
		"L1:5:note 1 a:b: c":        {Line: "note 1 a:b: c", Version: 5},
		"L1:0:fry 4 too salty":      {Line: "fry 4 too salty"},
		"L1:zik0zj:longer 1 2 days": {Line: "longer 1 2 days", Version: 1<<31 - 1},
	} {
		if got, err := ParseToken(token); err != nil || got != want {
			t.Errorf("%q reads as %+v, %v; want %+v", token, got, err, want)
		}
	}
}

func TestForeignTokensAreRefused(t *testing.T) {
	for _, token := range []string{"", "L1", "L1:", "L1:0", "L1:0:", "L2:0:flip 3", "L1:-1:flip 3", "L1:?:flip 3", "L1:zik0zk:flip 3", "b_123", strings.Repeat("L1:0:x", 20)} {
		if got, err := ParseToken(token); err == nil {
			t.Errorf("%q was read as %+v", token, got)
		}
	}
}

func TestTokenRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := Button{
			Line:    rapid.StringMatching(`[a-z]{1,10}( [0-9a-z:.,]{1,8}){0,4}`).Draw(rt, "line"),
			Version: rapid.IntRange(0, 1<<31-1).Draw(rt, "version"),
			Ask:     rapid.Bool().Draw(rt, "ask"),
		}
		token := b.Token()
		if len(token) > MaxToken {
			return // the adapters keep long ones aside
		}
		if got, err := ParseToken(token); err != nil || got != b {
			rt.Fatalf("%+v became %q and then %+v, %v", b, token, got, err)
		}
	})
}

// What is read as a token makes the same token again, so a button survives any
// number of restarts.
func FuzzParseToken(f *testing.F) {
	for _, s := range []string{"L1:0:flip 3", "A1:1c:temp 1", "L1:01:flip", "x", "L1:::"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		b, err := ParseToken(s)
		if err != nil {
			return
		}
		again, err := ParseToken(b.Token())
		if err != nil || again != b {
			t.Errorf("%q reads as %+v, whose token %q reads as %+v, %v", s, b, b.Token(), again, err)
		}
	})
}
