package markup

import (
	"cmp"
	"fmt"
	"net/url"
	"slices"
	"strings"
)

// Entity types a bot may send; the others (mention, url, …) the server finds by
// itself and ignores when sent (Bot API, MessageEntity).
var sendable = map[string]bool{
	"bold": true, "italic": true, "underline": true, "strikethrough": true, "spoiler": true,
	"blockquote": true, "expandable_blockquote": true, "code": true, "pre": true,
	"text_link": true, "text_mention": true, "custom_emoji": true, "date_time": true,
	"mention": true, "hashtag": true, "cashtag": true, "bot_command": true, "url": true,
	"email": true, "phone_number": true,
}

// Check lists what is wrong with entities a bot sends alongside a text.
func Check(plain string, entities []Entity) []string {
	var problems []string
	for i, e := range entities {
		switch {
		case !sendable[e.Type]:
			problems = append(problems, fmt.Sprintf("entity %d: there is no entity type %q", i, e.Type))
		case e.Offset < 0 || e.Length <= 0 || e.end() > Len(plain):
			problems = append(problems, fmt.Sprintf("entity %d (%s): %d+%d is outside the text of %d UTF-16 units", i, e.Type, e.Offset, e.Length, Len(plain)))
		case Cut(plain, e) == "":
			problems = append(problems, fmt.Sprintf("entity %d (%s): begins or ends inside a character", i, e.Type))
		case e.Type == "text_link" && e.URL == "":
			problems = append(problems, fmt.Sprintf("entity %d: a text_link needs a url", i))
		case e.Type == "text_mention" && e.User == nil:
			problems = append(problems, fmt.Sprintf("entity %d: a text_mention needs a user", i))
		}
	}
	if problems != nil {
		return problems
	}
	sorted := slices.Clone(entities)
	sortEntities(sorted)
	return nestingSlips(sorted)
}

// sortEntities puts outer entities before the ones within them.
func sortEntities(es []Entity) {
	slices.SortStableFunc(es, func(a, b Entity) int {
		return cmp.Or(cmp.Compare(a.Offset, b.Offset), cmp.Compare(b.Length, a.Length))
	})
}

// nestingSlips checks the published nesting rules on sorted entities: pre and code
// hold no others, block quotes hold no block quotes, and two that overlap must lie
// one within the other.
func nestingSlips(es []Entity) []string {
	var slips []string
	for i, outer := range es {
		for _, inner := range es[i+1:] {
			if inner.Offset >= outer.end() {
				break
			}
			switch {
			case inner.end() > outer.end():
				slips = append(slips, fmt.Sprintf("%s and %s overlap without one lying within the other", outer.Type, inner.Type))
			case isCode(outer.Type) || isCode(inner.Type) && inner.Length == outer.Length:
				slips = append(slips, fmt.Sprintf("%s and %s cannot be combined", outer.Type, inner.Type))
			case isQuote(outer.Type) && isQuote(inner.Type):
				slips = append(slips, "a block quote cannot stand within a block quote")
			}
		}
	}
	return slips
}

func isCode(t string) bool  { return t == "code" || t == "pre" }
func isQuote(t string) bool { return strings.HasSuffix(t, "blockquote") }

// checkedLink completes an address as the server does for a link, or refuses it.
func checkedLink(s string) (string, bool) {
	s = strings.TrimSpace(s)
	if !strings.Contains(s, "://") {
		s = "http://" + s
	}
	u, err := url.Parse(s)
	if err != nil || u.Host == "" {
		return "", false
	}
	switch strings.ToLower(u.Scheme) {
	case "http", "https", "ftp":
		if !strings.Contains(u.Host, ".") && u.Hostname() != "localhost" {
			return "", false
		}
	case "tg", "ton", "tonsite":
	default:
		return "", false
	}
	return u.String(), true
}
