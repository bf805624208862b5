package discord

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"larderhand/bot/reply"
)

// Discord's markdown, as far as text could turn into it: what must not be left
// standing without a backslash before it.
func bare(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			b.WriteRune('·') // it is a character, and means nothing
			i++
			continue
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

var alive = regexp.MustCompile(`@(everyone|here)\b|://|:\w+:|(?i)discord\.gg`)

// Whatever is typed, nothing in it can be markup, and taking the backslashes away
// gives it back.
func FuzzEscape(f *testing.F) {
	for _, s := range []string{"*b* _i_ ~~s~~ ||p|| `c`", "<@77> <t:0:R> <#1> </flip:1>", "@everyone @here", "https://example.org", "# t\n> q\n- i\n1. x", `\*`, "a\x00b\u202ec", "discord.gg/x", ":fire:", "://", ":a:b:"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		out := lineStart(escape(s))
		if !utf8.ValidString(out) {
			t.Fatalf("%q becomes invalid text", s)
		}
		left := bare(out)
		if i := strings.IndexAny(left, marks); i >= 0 {
			t.Errorf("%q leaves %q standing in %q", s, left[i], out)
		}
		if alive.MatchString(left) || heading.MatchString(left) {
			t.Errorf("%q leaves something of meaning in %q", s, out)
		}
		plain := strings.ReplaceAll(unescape(out), blank, "")
		if want := strings.ReplaceAll(printable(s), blank, ""); plain != want {
			t.Errorf("%q comes back as %q", want, plain)
		}
	})
}

func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

// A page button's id comes back as it was, within the platform's limit.
func FuzzPageRef(f *testing.F) {
	f.Add("P1:1:17003087659008001:batches")
	f.Add("P1:-1:1:x")
	f.Fuzz(func(t *testing.T, id string) {
		ref, n, ok := readPageRef(id)
		if !ok {
			return
		}
		again := ref.id(n)
		back, m, ok := readPageRef(again)
		if !ok || m != n || back.event != ref.event || utf8.ValidString(id) && !fitsID(again) {
			t.Errorf("%q reads as %+v, %d and is written %q", id, ref, n, again)
		}
	})
}

// No reply breaks a limit, and nothing of it is lost on the way into pages.
func TestPagesLoseNothing(t *testing.T) {
	word := rapid.StringMatching(`[a-z*_<>@#|~]{1,12}`)
	rapid.Check(t, func(t *rapid.T) {
		var r reply.Reply
		var all []string
		for range rapid.IntRange(1, 12).Draw(t, "blocks") {
			words := rapid.SliceOfN(word, 1, 120).Draw(t, "words")
			all = append(all, words...)
			if rapid.Bool().Draw(t, "table") {
				var rows [][]string
				for _, w := range words {
					rows = append(rows, []string{w, "1 g"})
				}
				r.Table(rows)
				continue
			}
			r.Par(strings.Join(words, " "))
		}
		list := plain(r)
		var text strings.Builder
		for _, b := range list {
			if n := size(b.Content); n == 0 || n > maxContent {
				t.Fatalf("a message of %d characters", n)
			}
			if strings.Count(b.Content, fence)%2 != 0 {
				t.Fatalf("a code block is left open in %q", b.Content)
			}
			text.WriteString(b.Content + "\n")
		}
		got, at := unescape(text.String()), 0
		for _, w := range all {
			i := strings.Index(got[at:], w)
			if i < 0 {
				t.Fatalf("%q is lost", w)
			}
			at += i + len(w)
		}
	})
}

// Buttons: never more than fit, never two alike, none lost without a word.
func TestButtonsKeepTheLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows [][]reply.Button
		want := map[string]bool{}
		for range rapid.IntRange(0, 9).Draw(t, "rows") {
			var r []reply.Button
			for range rapid.IntRange(0, 8).Draw(t, "buttons") {
				b := reply.Button{Label: rapid.StringN(0, 90, -1).Draw(t, "label"), Line: rapid.StringMatching(`[a-z]{1,9} [0-9]{1,60}`).Draw(t, "line")}
				want[b.Token()] = true
				r = append(r, b)
			}
			rows = append(rows, r)
		}
		out, left := buttons(rows, maxRows)
		if len(out) > maxRows {
			t.Fatalf("%d rows", len(out))
		}
		for _, r := range out {
			if len(r.Components) < 1 || len(r.Components) > maxRowButtons {
				t.Fatalf("%d buttons in a row", len(r.Components))
			}
			for _, c := range r.Components {
				if !want[c.CustomID] || !fitsID(c.CustomID) || c.Label == "" || utf8.RuneCountInString(c.Label) > maxLabel {
					t.Fatalf("button %+v", c)
				}
				delete(want, c.CustomID)
			}
		}
		for _, b := range left {
			delete(want, b.Token())
		}
		if len(want) > 0 {
			t.Fatalf("lost: %v", want)
		}
	})
}
