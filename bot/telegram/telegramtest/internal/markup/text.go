// Package markup turns what a bot sends (HTML, or plain text with entities) into
// what a person reads, by the server's own rules, and finds the entities the
// server adds by itself (commands, mentions, addresses).
//
// Offsets and lengths count UTF-16 code units throughout, as the Bot API does.
package markup

import (
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Text is plain text with the entities in it.
type Text struct {
	Plain    string
	Entities []Entity
}

// Entity marks a stretch of a Text. The JSON names are those of MessageEntity.
type Entity struct {
	Type          string `json:"type"`
	Offset        int    `json:"offset"`
	Length        int    `json:"length"`
	URL           string `json:"url,omitempty"`
	User          *User  `json:"user,omitempty"`
	Language      string `json:"language,omitempty"`
	CustomEmojiID string `json:"custom_emoji_id,omitempty"`
	UnixTime      int64  `json:"unix_time,omitempty"`
	DateFormat    string `json:"date_time_format,omitempty"`
}

// User is as much of a user as a text_mention entity carries.
type User struct {
	ID        int64  `json:"id"`
	IsBot     bool   `json:"is_bot"`
	FirstName string `json:"first_name"`
}

func (e Entity) end() int { return e.Offset + e.Length }

// Len is the length of s in UTF-16 code units.
func Len(s string) int {
	n := 0
	for _, r := range s {
		n += width(r)
	}
	return n
}

func width(r rune) int {
	if r > 0xffff {
		return 2
	}
	return 1
}

// Cut returns the text an entity covers, or "" if it does not lie within s on
// whole characters.
func Cut(s string, e Entity) string {
	from, to := byteAt(s, e.Offset), byteAt(s, e.end())
	if from < 0 || to < from {
		return ""
	}
	return s[from:to]
}

// Prefix is the longest beginning of s that has at most so many UTF-16 code units.
func Prefix(s string, most int) string {
	units := 0
	for i, r := range s {
		if units += width(r); units > most {
			return s[:i]
		}
	}
	return s
}

// byteAt is the byte position of a UTF-16 offset, or -1 if there is none.
func byteAt(s string, offset int) int {
	units := 0
	for i, r := range s {
		if units == offset {
			return i
		}
		units += width(r)
	}
	if units == offset {
		return len(s)
	}
	return -1
}

// Trim takes spaces and line ends off both ends, as the server does before it
// stores a text, and moves the entities along. Leading space inside an entity
// stays.
func (t Text) Trim() Text {
	plain := strings.TrimRight(t.Plain, " \n")
	lead := len(plain) - len(strings.TrimLeft(plain, " \n"))
	for _, e := range t.Entities {
		lead = min(lead, e.Offset)
	}
	out := Text{Plain: plain[lead:]}
	end := Len(out.Plain)
	for _, e := range t.Entities {
		e.Offset -= lead
		e.Length = min(e.Length, end-e.Offset)
		if e.Length > 0 {
			out.Entities = append(out.Entities, e)
		}
	}
	return out
}

// appendUnit appends one decoded character reference. Half of a surrogate pair is
// written as it stands; ParseHTML then refuses the text.
func appendUnit(dst []byte, code rune) []byte {
	if utf16.IsSurrogate(code) {
		return append(dst, 0xe0|byte(code>>12), 0x80|byte(code>>6)&0xbf, 0x80|byte(code)&0xbf)
	}
	return utf8.AppendRune(dst, code)
}
