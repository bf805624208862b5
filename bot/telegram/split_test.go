package telegram

import (
	"html"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"larderhand/bot/reply"
)

var anyTag = regexp.MustCompile(`<(/?)([a-z-]+)[^>]*>`)

// wellFormed reports whether the tags of a message open and close in order.
func wellFormed(s string) bool {
	var open []string
	for _, m := range anyTag.FindAllStringSubmatch(s, -1) {
		if m[1] == "" {
			open = append(open, m[2])
			continue
		}
		if len(open) == 0 || open[len(open)-1] != m[2] {
			return false
		}
		open = open[:len(open)-1]
	}
	return len(open) == 0
}

func solid(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

func drawReply(t *rapid.T) reply.Reply {
	text := rapid.OneOf(rapid.StringN(0, 40, -1), rapid.StringN(0, 3000, 9000),
		rapid.SampledFrom([]string{"<b>", "a & b", "🥓", strings.Repeat("👩🏽‍🍳", 900), strings.Repeat("x", 5000), strings.Repeat("word ", 1200), "line\nline"}))
	var r reply.Reply
	for range rapid.IntRange(1, 6).Draw(t, "blocks") {
		if rapid.Bool().Draw(t, "table") {
			var rows [][]string
			for range rapid.IntRange(1, 60).Draw(t, "rows") {
				rows = append(rows, []string{rapid.StringN(0, 20, -1).Draw(t, "cell"), "9.8 g"})
			}
			r.Table(rows)
			continue
		}
		r.Par("")
		for range rapid.IntRange(1, 12).Draw(t, "lines") {
			sp := reply.Span{Text: text.Draw(t, "text"), Style: rapid.SampledFrom([]reply.Style{reply.Plain, reply.Bold, reply.Code}).Draw(t, "style"),
				At: rapid.SampledFrom([]int64{0, 0, 1803888000, -5, 1 << 40}).Draw(t, "at"), Member: rapid.SampledFrom([]string{"", "77", "-100"}).Draw(t, "member")}
			r.Say("at ", sp)
		}
	}
	r.Mentions = []string{"77", "-100"}
	return r
}

// Whatever is said fits the limits, keeps its tags in order, and loses nothing but
// white space where it is broken.
func TestPackLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.SampledFrom([]int{textMost, captionMost, 200}).Draw(t, "limit")
		blocks := style{times: true}.render(drawReply(t))
		var want, got strings.Builder
		for _, b := range blocks {
			for _, l := range b {
				for _, r := range l.runs {
					want.WriteString(r.text)
				}
			}
		}
		for i, m := range pack(blocks, limit) {
			if n := units(m.plain); n > limit {
				t.Fatalf("message %d has %d units", i, n)
			}
			if !wellFormed(m.html) || !utf8.ValidString(m.html) {
				t.Fatalf("message %d is not well formed: %q", i, m.html)
			}
			if read := html.UnescapeString(anyTag.ReplaceAllString(m.html, "")); read != m.plain {
				t.Fatalf("message %d reads %q, want %q", i, read, m.plain)
			}
			if n := strings.Count(m.html, "</"); n > 200 {
				t.Fatalf("message %d has %d tags", i, n)
			}
			got.WriteString(m.plain)
		}
		if solid(got.String()) != solid(want.String()) {
			t.Fatalf("lost or added: got %q, want %q", solid(got.String()), solid(want.String()))
		}
	})
}

// It breaks where a person would: between paragraphs, else between lines.
func TestPackBreaksSensibly(t *testing.T) {
	var r reply.Reply
	for _, name := range []string{"a", "b", "c"} {
		r.Par(reply.B("Batch " + name))
		for range 30 {
			r.Say(strings.Repeat(name+" ", 30))
		}
	}
	list := pack(style{}.render(r), textMost)
	if len(list) != 2 || !strings.HasPrefix(list[1].plain, "Batch c") {
		t.Errorf("%d messages, the second begins %.20q", len(list), list[1].plain)
	}
	list = pack(style{}.render(r), 1500)
	for _, m := range list {
		if strings.HasSuffix(strings.TrimSpace(m.plain), "Batch") {
			t.Errorf("a line is torn: %q", m.plain)
		}
	}
}

func FuzzDefused(f *testing.F) {
	for _, s := range []string{"@marit", "/close 3", "https://example.org", "a.b", "1.5 in", "3/4 lb", "#tag", "\u202eabc", "\xff"} {
		f.Add(s)
	}
	finds := regexp.MustCompile(`(^|[^A-Za-z0-9_])[@#$][A-Za-z0-9_]|(^|\s)/[A-Za-z_]|://|[A-Za-z0-9]\.[A-Za-z]`)
	f.Fuzz(func(t *testing.T, s string) {
		got := defused(s)
		if finds.MatchString(got) {
			t.Errorf("%q leaves something to link in %q", s, got)
		}
		if again := strings.ReplaceAll(got, joiner, ""); again != strings.ReplaceAll(plain(s), joiner, "") {
			t.Errorf("%q became %q", s, again)
		}
		if back := html.UnescapeString(escape(got)); back != got && !strings.Contains(s, "&") {
			t.Errorf("%q is escaped to what reads %q", got, back)
		}
	})
}

func FuzzAddress(f *testing.F) {
	for _, s := range []string{"telegram:5", "telegram:-1002000000001/7", "telegram:0", "telegram:", "telegram:1/", "telegram:1/0", "telegram:+1", "discord:1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := parseAddress(storeAddress(s))
		if err != nil {
			return
		}
		again, err := parseAddress(p.address())
		if err != nil || again != p {
			t.Errorf("%q became %+v, then %+v (%v)", s, p, again, err)
		}
	})
}
