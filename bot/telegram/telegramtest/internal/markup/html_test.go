package markup

import (
	"html"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const (
	options = "core.telegram.org/bots/api#html-style"
	parser  = "Bot API server library td, MessageEntity.cpp, parse_html"
)

func TestParseHTML(t *testing.T) {
	for _, c := range []struct {
		in, plain, entities, source string
	}{
		{"<b>bold</b>, <strong>bold</strong>", "bold, bold", "bold 0+4, bold 6+4", options},
		{"<i>italic</i>, <em>italic</em>", "italic, italic", "italic 0+6, italic 8+6", options},
		{"<u>underline</u>, <ins>underline</ins>", "underline, underline", "underline 0+9, underline 11+9", options},
		{"<s>a</s><strike>b</strike><del>c</del>", "abc", "strikethrough 0+1, strikethrough 1+1, strikethrough 2+1", options},
		{`<span class="tg-spoiler">spoiler</span>, <tg-spoiler>spoiler</tg-spoiler>`, "spoiler, spoiler", "spoiler 0+7, spoiler 9+7", options},
		{"<b>bold <i>italic <s>x</s></i> bold</b>", "bold italic x bold", "bold 0+18, italic 5+8, strikethrough 12+1", options},
		{`<a href="http://www.example.com/">inline URL</a>`, "inline URL", "text_link 0+10 http://www.example.com/", options},
		{`<a href="tg://user?id=123456789">inline mention</a>`, "inline mention", "text_mention 0+14", options},
		{`<tg-emoji emoji-id="5368324170671202286">👍</tg-emoji>`, "👍", "custom_emoji 0+2", options},
		{"<code>inline</code>", "inline", "code 0+6", options},
		{"<pre>block</pre>", "block", "pre 0+5", options},
		{`<pre><code class="language-python">block</code></pre>`, "block", "pre 0+5 python", options},
		{"<blockquote>a\nb</blockquote>", "a\nb", "blockquote 0+3", options},
		{"<blockquote expandable>a\nb</blockquote>", "a\nb", "expandable_blockquote 0+3", options},
		{"&lt;b&gt; &amp; &quot;", `<b> & "`, "", options},
		{"&#60;&#x3e;&#128522;", "<>😊", "", options + " (all numerical entities)"},
		{"😊 <b>x</b>", "😊 x", "bold 3+1", "Bot API, MessageEntity: offsets in UTF-16 units"},
		{"<B>x</B>", "x", "bold 0+1", parser},
		{"<b>x</>", "x", "bold 0+1", parser},
		{"<b></b>x", "x", "", parser},
		{`<a href='https://example.com?a=1&amp;b=2' >x</a >`, "x", "text_link 0+1 https://example.com?a=1&b=2", parser},
	} {
		p, err := ParseHTML(c.in)
		if err != nil {
			t.Errorf("%s: %v", c.in, err)
			continue
		}
		if p.Plain != c.plain || show(p.Entities) != c.entities {
			t.Errorf("%s\n got %q %s\nwant %q %s (%s)", c.in, p.Plain, show(p.Entities), c.plain, c.entities, c.source)
		}
		if len(p.Slips) > 0 {
			t.Errorf("%s: slips %q in published markup", c.in, p.Slips)
		}
	}
}

func TestParseHTMLRefuses(t *testing.T) {
	for in, want := range map[string]string{
		"1 < 2":                       `Unsupported start tag "" at byte offset 2`,
		"<p>x</p>":                    `Unsupported start tag "p" at byte offset 0`,
		"a <br> b":                    `Unsupported start tag "br" at byte offset 2`,
		"<b>x":                        `Can't find end tag corresponding to start tag "b"`,
		"x</b>":                       "Unexpected end tag at byte offset 1",
		"<b><i>x</b></i>":             `Unmatched end tag at byte offset 7, expected "</i>", found "</b>"`,
		"<b":                          "Unclosed start tag at byte offset 0",
		"<b>x</b":                     "Unclosed end tag at byte offset 4",
		"<span>x</span>":              `Tag "span" must have class "tg-spoiler" at byte offset 0`,
		`<a href="x>y`:                "Unclosed start tag at byte offset 0",
		"<a href=a,b>x</a>":           "Unexpected end of name token at byte offset 8",
		`<a "x">y</a>`:                `Empty attribute name in the tag "a" at byte offset 0`,
		"<tg-emoji>x</tg-emoji>":      "Invalid custom emoji identifier specified",
		"&#xd83d;":                    "Text contains invalid Unicode characters after decoding HTML entities, check for unmatched surrogate code units",
		"keeper <Ines> says <b>x</b>": `Unsupported start tag "ines" at byte offset 7`,
	} {
		if _, err := ParseHTML(in); err == nil || err.Error() != want {
			t.Errorf("%s\n got %v\nwant %s (%s)", in, err, want, parser)
		}
	}
}

func TestParseHTMLSlips(t *testing.T) {
	for in, want := range map[string]string{
		"salt & pepper":                  "a bare & at byte offset 5",
		"1 > 0":                          "a bare > at byte offset 2",
		"&nbsp;":                         "a bare & at byte offset 0",
		"<code><b>x</b></code>":          "cannot be combined",
		"<b><code>x</code></b>":          "cannot be combined",
		`<a href="not an address">x</a>`: "the server drops it",
		"<blockquote>a<blockquote>b</blockquote></blockquote>": "within a block quote",
	} {
		p, err := ParseHTML(in)
		if err != nil || !strings.Contains(strings.Join(p.Slips, "; "), want) {
			t.Errorf("%s: slips %q (%v), want one with %q (%s)", in, p.Slips, err, want, options)
		}
	}
}

// Any text, once escaped as the documents ask, reads back as itself.
func FuzzEscapedTextReadsBack(f *testing.F) {
	for _, s := range []string{"", "Ines <3 Marit & Co \"x\"", "</b><b>", "👩‍🌾 שלום &amp;lt;", "a\x00b"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		s = strings.ToValidUTF8(s, "\uFFFD") // as JSON makes of it on the way
		escaped := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(s)
		p, err := ParseHTML("<b>" + escaped + "</b>")
		if err != nil || p.Plain != s || len(p.Slips) > 0 {
			t.Fatalf("%q came back as %q, %v, %v", s, p.Plain, err, p.Slips)
		}
		if s != "" && (len(p.Entities) != 1 || p.Entities[0].Length != Len(s)) {
			t.Fatalf("%q: entities %s", s, show(p.Entities))
		}
	})
}

// Whatever is thrown at the parser, entities it returns lie on the text.
func FuzzParseHTML(f *testing.F) {
	for _, s := range []string{"<b>x</b>", "<a href='", "<", "</", "&#", "<b x=\"&#x", "<tg-time unix=5>x</tg-time>"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		s = strings.ToValidUTF8(s, "\uFFFD") // as JSON makes of it on the way
		p, err := ParseHTML(s)
		if err != nil {
			return
		}
		for _, e := range p.Entities {
			if Cut(p.Plain, e) == "" {
				t.Fatalf("%q: entity %+v covers nothing in %q", s, e, p.Plain)
			}
		}
	})
}

// The standard library's escaping is one the server undoes, apart from the
// apostrophe (&#39;), which is numeric and so allowed.
func TestStandardEscapingReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		p, err := ParseHTML(html.EscapeString(s))
		if err != nil || p.Plain != s {
			t.Fatalf("%q came back as %q, %v", s, p.Plain, err)
		}
	})
}
