package markup

import (
	"strconv"
	"strings"
)

// startTag reads <name attribute="value" …>.
func (p *htmlParser) startTag() error {
	begin := p.pos
	i := begin + 1
	for !isSpace(p.at(i)) && p.at(i) != '>' {
		i++
	}
	if p.at(i) == 0 {
		return malformed("Unclosed start tag at byte offset %d", begin)
	}
	tag := openTag{name: strings.ToLower(p.in[begin+1 : i]), offset: p.units, at: len(p.out)}
	if tagTypes[tag.name] == "" {
		return malformed("Unsupported start tag \"%s\" at byte offset %d", tag.name, begin)
	}
	for p.at(i) != '>' {
		next, err := p.attribute(&tag, begin, i)
		if err != nil {
			return err
		}
		i = next
	}
	if tag.name == "span" && tag.argument != "spoiler" {
		return malformed("Tag \"span\" must have class \"tg-spoiler\" at byte offset %d", begin)
	}
	p.open = append(p.open, tag)
	p.pos = i + 1
	return nil
}

// attribute reads one attribute from i on and returns the place after it.
func (p *htmlParser) attribute(tag *openTag, begin, i int) (int, error) {
	unclosed := malformed("Unclosed start tag \"%s\" at byte offset %d", tag.name, begin)
	i = p.skipSpace(i)
	if p.at(i) == '>' {
		return i, nil
	}
	from := i
	for c := p.at(i); !isSpace(c) && !strings.ContainsRune("=>/\"'", rune(c)); c = p.at(i) {
		i++
	}
	name := p.in[min(from, len(p.in)):min(i, len(p.in))]
	if name == "" {
		return 0, malformed("Empty attribute name in the tag \"%s\" at byte offset %d", tag.name, begin)
	}
	i = p.skipSpace(i)
	if p.at(i) != '=' {
		if p.at(i) == 0 {
			return 0, unclosed
		}
		if tag.name == "blockquote" && name == "expandable" {
			tag.argument = "1"
		}
		return i, nil
	}
	i = p.skipSpace(i + 1)
	if p.at(i) == 0 {
		return 0, unclosed
	}
	value, i, err := p.attributeValue(i)
	if err != nil {
		return 0, err
	}
	if p.at(i) == 0 {
		return 0, malformed("Unclosed start tag at byte offset %d", begin)
	}
	tag.set(name, value)
	return i, nil
}

func (p *htmlParser) skipSpace(i int) int {
	for p.at(i) != 0 && isSpace(p.at(i)) {
		i++
	}
	return i
}

func (p *htmlParser) attributeValue(i int) (string, int, error) {
	quote := p.at(i)
	if quote != '\'' && quote != '"' {
		from := i
		for c := p.at(i); c >= '0' && c <= '9' || c|0x20 >= 'a' && c|0x20 <= 'z' || c == '.' || c == '-'; c = p.at(i) {
			i++
		}
		if !isSpace(p.at(i)) && p.at(i) != '>' {
			return "", 0, malformed("Unexpected end of name token at byte offset %d", from)
		}
		return strings.ToLower(p.in[from:i]), i, nil
	}
	i++
	var value []byte
	for p.at(i) != quote && p.at(i) != 0 {
		if p.at(i) == '&' {
			if code, next := decodeReference(p.in, i); code != 0 {
				value = appendUnit(value, code)
				i = next
				continue
			}
		}
		value = append(value, p.in[i])
		i++
	}
	if p.at(i) == quote && quote != 0 {
		i++
	}
	return string(value), i, nil
}

func (t *openTag) set(name, value string) {
	switch {
	case t.name == "a" && name == "href", t.name == "tg-emoji" && name == "emoji-id", t.name == "tg-time" && name == "format":
		t.argument = value
	case t.name == "code" && name == "class":
		if lang, ok := strings.CutPrefix(value, "language-"); ok {
			t.argument = lang
		}
	case t.name == "span" && name == "class":
		if class, ok := strings.CutPrefix(value, "tg-"); ok {
			t.argument = class
		}
	case t.name == "blockquote" && name == "expandable":
		t.argument = "1"
	case t.name == "tg-time" && name == "unix":
		t.unix, _ = strconv.ParseInt(value, 10, 32)
	}
}
