package markup

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Parsed is what ParseHTML found.
type Parsed struct {
	Text
	// Slips are departures from the published formatting rules that the server
	// lets pass: a bare & or >, an entity it drops without a word.
	Slips []string
}

// The tags of https://core.telegram.org/bots/api#html-style, as the server's
// parser knows them (td, MessageEntity.cpp, parse_html).
var tagTypes = map[string]string{
	"a": "text_link", "b": "bold", "strong": "bold", "i": "italic", "em": "italic",
	"s": "strikethrough", "strike": "strikethrough", "del": "strikethrough",
	"u": "underline", "ins": "underline", "tg-spoiler": "spoiler", "span": "spoiler",
	"tg-emoji": "custom_emoji", "tg-time": "date_time", "pre": "pre", "code": "code",
	"blockquote": "blockquote",
}

// Malformed is markup the server refuses, in the server's own words.
type Malformed string

func (m Malformed) Error() string { return string(m) }

func malformed(format string, args ...any) error { return Malformed(fmt.Sprintf(format, args...)) }

type openTag struct {
	name     string
	argument string
	unix     int64
	offset   int
	at       int
}

type htmlParser struct {
	in    string
	pos   int
	out   []byte
	units int
	open  []openTag
	found []Entity
	slips []string
	torn  bool
}

// ParseHTML reads text sent with parse_mode HTML. The error is Malformed.
func ParseHTML(s string) (Parsed, error) {
	p := &htmlParser{in: s}
	for p.pos < len(s) {
		if err := p.step(); err != nil {
			return Parsed{}, err
		}
	}
	if len(p.open) > 0 {
		return Parsed{}, malformed("Can't find end tag corresponding to start tag \"%s\"", p.open[len(p.open)-1].name)
	}
	if p.torn && !utf8.Valid(p.out) {
		return Parsed{}, malformed("Text contains invalid Unicode characters after decoding HTML entities, check for unmatched surrogate code units")
	}
	for i := range p.found {
		if p.found[i].Type == "code" {
			p.found[i].Language = ""
		}
	}
	sortEntities(p.found)
	p.slips = append(p.slips, nestingSlips(p.found)...)
	return Parsed{Text: Text{Plain: string(p.out), Entities: p.found}, Slips: p.slips}, nil
}

// at gives the byte at i, and 0 past the end as the server's C string does.
func (p *htmlParser) at(i int) byte {
	if i < len(p.in) {
		return p.in[i]
	}
	return 0
}

func isSpace(c byte) bool {
	return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == 0 || c == '\v'
}

func (p *htmlParser) slip(format string, args ...any) {
	p.slips = append(p.slips, fmt.Sprintf(format, args...))
}

func (p *htmlParser) step() error {
	switch c := p.in[p.pos]; c {
	case '<':
		if p.at(p.pos+1) == '/' {
			return p.endTag()
		}
		return p.startTag()
	case '&':
		code, next := decodeReference(p.in, p.pos)
		if code != 0 {
			p.torn = p.torn || code >= 0xd800 && code <= 0xdfff
			p.out = appendUnit(p.out, code)
			p.units += width(code)
			p.pos = next
			return nil
		}
		p.slip("a bare & at byte offset %d: write &amp;", p.pos)
	case '>':
		p.slip("a bare > at byte offset %d: write &gt;", p.pos)
	}
	r, size := utf8.DecodeRuneInString(p.in[p.pos:])
	p.out = append(p.out, p.in[p.pos:p.pos+size]...)
	p.units += width(r)
	p.pos += size
	return nil
}

func (p *htmlParser) endTag() error {
	begin := p.pos
	if len(p.open) == 0 {
		return malformed("Unexpected end tag at byte offset %d", begin)
	}
	i := begin + 1
	for !isSpace(p.at(i)) && p.at(i) != '>' {
		i++
	}
	name := strings.ToLower(p.in[begin+2 : max(i, begin+2)])
	for isSpace(p.at(i)) && p.at(i) != 0 {
		i++
	}
	if p.at(i) != '>' {
		return malformed("Unclosed end tag at byte offset %d", begin)
	}
	top := p.open[len(p.open)-1]
	if name != "" && name != top.name {
		return malformed("Unmatched end tag at byte offset %d, expected \"</%s>\", found \"</%s>\"", begin, top.name, name)
	}
	p.open = p.open[:len(p.open)-1]
	p.pos = i + 1
	if p.units == top.offset {
		return nil
	}
	return p.close(top)
}

// close adds the entity of a tag that has just ended around some text.
func (p *htmlParser) close(tag openTag) error {
	e := Entity{Type: tagTypes[tag.name], Offset: tag.offset, Length: p.units - tag.offset}
	switch tag.name {
	case "tg-emoji":
		if id, err := strconv.ParseInt(tag.argument, 10, 64); err != nil || id == 0 {
			return malformed("Invalid custom emoji identifier specified")
		}
		e.CustomEmojiID = tag.argument
	case "tg-time":
		if tag.unix <= 0 {
			p.slip("a tg-time without a time in it")
			return nil
		}
		e.UnixTime, e.DateFormat = tag.unix, tag.argument
	case "a":
		return p.closeLink(tag, e)
	case "pre", "code":
		p.closeCode(tag, e)
		return nil
	case "blockquote":
		if tag.argument != "" {
			e.Type = "expandable_blockquote"
		}
	}
	p.found = append(p.found, e)
	return nil
}

func (p *htmlParser) closeLink(tag openTag, e Entity) error {
	link := tag.argument
	if link == "" {
		link = string(p.out[tag.at:])
	}
	if id, ok := strings.CutPrefix(link, "tg://user?id="); ok {
		if n, err := strconv.ParseInt(id, 10, 64); err == nil && n > 0 {
			e.Type, e.User = "text_mention", &User{ID: n}
			p.found = append(p.found, e)
			return nil
		}
	}
	checked, ok := checkedLink(link)
	if !ok {
		p.slip("the link %q is no address, the server drops it", link)
		return nil
	}
	e.URL = checked
	p.found = append(p.found, e)
	return nil
}

// closeCode joins <pre><code class="language-x"> into one entity with a language,
// whichever of the two is outside.
func (p *htmlParser) closeCode(tag openTag, e Entity) {
	other := "code"
	if tag.name == "code" {
		other = "pre"
	}
	if n := len(p.found); n > 0 {
		last := &p.found[n-1]
		if last.Type == other && last.Offset == e.Offset && last.Length == e.Length && last.Language+tag.argument != "" {
			last.Type, last.Language = "pre", last.Language+tag.argument
			return
		}
	}
	e.Language = tag.argument
	p.found = append(p.found, e)
}

// decodeReference reads the character reference at an &, and returns 0 if there is
// none the server knows: numeric ones and lt, gt, amp, quot.
func decodeReference(s string, pos int) (code rune, next int) {
	at := func(i int) byte {
		if i < len(s) {
			return s[i]
		}
		return 0
	}
	end := pos + 1
	if at(end) == '#' {
		end++
		base, digits := 10, "0123456789"
		if at(end) == 'x' {
			end++
			base, digits = 16, "0123456789abcdefABCDEF"
		}
		from := end
		for at(end) != 0 && strings.IndexByte(digits, at(end)) >= 0 {
			end++
		}
		n, err := strconv.ParseUint(s[from:end], base, 32)
		if err != nil || n == 0 || n >= 0x10ffff || end-pos >= 10 {
			return 0, pos
		}
		code = rune(n)
	} else {
		for c := at(end) | 0x20; c >= 'a' && c <= 'z'; c = at(end) | 0x20 {
			end++
		}
		code = map[string]rune{"lt": '<', "gt": '>', "amp": '&', "quot": '"'}[s[pos+1:end]]
		if code == 0 {
			return 0, pos
		}
	}
	if at(end) == ';' {
		end++
	}
	return code, end
}
