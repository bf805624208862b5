package discord_test

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/discord/discordtest"
)

// What follows reads a message's source the way Discord's client shows it, as far
// as the adapter writes it.

var (
	boldText = regexp.MustCompile(`\*\*((?:\\.|[^\\*])+)\*\*`)
	codeText = regexp.MustCompile("``((?:[^`]|`[^`])+)``|`([^`]+)`")
	stamp    = regexp.MustCompile(`<t:(\d+):(\w)>`)
	escaped  = regexp.MustCompile("\\\\([!-/:-@\\[-`{-~])")
)

// reading is a message without its markup.
type reading struct {
	text       string
	tickedText string // with what is to be typed between backticks, and blocks apart
	bold, code []string
	at         []int64
}

// read takes the markup out of a source; when is how an instant reads.
func read(source string, when func(time.Time, string) string) reading {
	var out reading
	for i, block := range strings.Split(source, "```") {
		if i%2 == 1 {
			out.text += strings.Trim(block, "\n")
			out.tickedText = strings.TrimRight(out.tickedText, "\n") + "\n\n" + strings.Trim(block, "\n") + "\n"
			continue
		}
		block = stamp.ReplaceAllStringFunc(block, func(s string) string {
			m := stamp.FindStringSubmatch(s)
			unix, _ := strconv.ParseInt(m[1], 10, 64)
			out.at = append(out.at, unix)
			return when(time.Unix(unix, 0), m[2])
		})
		plain, ticked := out.prose(block)
		out.text += plain
		if i > 0 && plain != "" {
			out.tickedText += "\n" + strings.TrimLeft(ticked, "\n")
		} else {
			out.tickedText += ticked
		}
	}
	out.text = strings.ReplaceAll(out.text, "\u200b", "")
	out.tickedText = strings.ReplaceAll(out.tickedText, "\u200b", "")
	return out
}

func (r *reading) prose(s string) (plain, ticked string) {
	// What stands in code spans is not escaped, so it is set aside first.
	var kept []string
	hold := "\x00"
	guarded := escaped.ReplaceAllStringFunc(s, func(m string) string {
		kept = append(kept, m[1:])
		return hold
	})
	var codes []string
	guarded = codeText.ReplaceAllStringFunc(guarded, func(m string) string {
		codes = append(codes, strings.Trim(strings.Trim(m, "`"), " "))
		return "\x01"
	})
	for _, m := range boldText.FindAllStringSubmatch(guarded, -1) {
		r.bold = append(r.bold, refill(m[1], kept, guarded))
	}
	guarded = boldText.ReplaceAllString(guarded, "$1")
	r.code = append(r.code, codes...)
	var b, t strings.Builder
	k, c := 0, 0
	for _, x := range guarded {
		switch x {
		case '\x00':
			b.WriteString(kept[k])
			t.WriteString(kept[k])
			k++
		case '\x01':
			b.WriteString(codes[c])
			t.WriteString("`" + codes[c] + "`")
			c++
		default:
			b.WriteRune(x)
			t.WriteRune(x)
		}
	}
	return b.String(), t.String()
}

// refill puts the escaped characters of a part back; all are those from its place
// in the whole on.
func refill(part string, kept []string, whole string) string {
	k := strings.Count(whole[:strings.Index(whole, part)], "\x00")
	for strings.Contains(part, "\x00") {
		part = strings.Replace(part, "\x00", kept[k], 1)
		k++
	}
	return part
}

// sourceOf is what a message holds to be read, mentions by name.
func sourceOf(m discordtest.Message) string { return strings.TrimSpace(m.Text) }

func rowsOf(m discordtest.Message) [][]string {
	var out [][]string
	for _, b := range m.Buttons {
		for len(out) <= b.Row {
			out = append(out, nil)
		}
		out[b.Row] = append(out[b.Row], b.Label)
	}
	return out
}

// wordsOf is a message without its markup, instants in UTC.
func wordsOf(m discordtest.Message) string {
	return read(sourceOf(m), func(at time.Time, _ string) string { return at.UTC().Format("Mon 2 Jan 15:04") }).text
}
