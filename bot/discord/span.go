package discord

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/reply"
)

var clockOnly = regexp.MustCompile(`^\d{1,2}:\d{2}$`)

// instant shows a moment in each reader's own zone and language: the hour alone,
// the date alone or both, as the text it stands for does.
func instant(unix int64, text string) string {
	style := "f"
	switch {
	case clockOnly.MatchString(text):
		style = "t"
	case !strings.Contains(text, ":"):
		style = "D"
	}
	return fmt.Sprintf("<t:%d:%s>", unix, style)
}

// snowflake is the form of Discord's ids.
var snowflake = regexp.MustCompile(`^\d{5,20}$`)

// span writes a span; named are the keys of those who may be pinged. Somebody else
// is called by name only.
func span(s reply.Span, named []string) string {
	switch {
	case s.At != 0:
		return instant(s.At, s.Text)
	case s.Member != "" && slices.Contains(named, s.Member) && snowflake.MatchString(s.Member):
		return "<@" + s.Member + ">"
	case s.Style == reply.Code:
		return code(s.Text)
	}
	text := escape(s.Text)
	if s.Style != reply.Bold || strings.TrimSpace(text) == "" {
		return text
	}
	core := strings.TrimSpace(text)
	before, after, _ := strings.Cut(text, core)
	return before + "**" + core + "**" + after
}

// line writes a line. One longer than most characters comes out as several, cut
// between words.
func line(l reply.Line, named []string, most int) []string {
	if s := joinSpans(l, named); size(s) <= most {
		return []string{s}
	}
	var (
		out  []string
		now  reply.Line
		full = func(l reply.Line) bool { return size(joinSpans(l, named)) > most }
	)
	for _, s := range l {
		for _, w := range words(s, most/4) {
			if len(now) > 0 && full(append(now[:len(now):len(now)], w)) {
				out, now = append(out, joinSpans(now, named)), nil
			}
			now = append(now, w)
		}
	}
	return append(out, joinSpans(now, named))
}

func joinSpans(l reply.Line, named []string) string {
	var b strings.Builder
	for _, s := range l {
		b.WriteString(span(s, named))
	}
	return lineStart(b.String())
}

// words takes a span apart into its words, none longer than most characters; an
// instant stays whole.
func words(s reply.Span, most int) []reply.Span {
	if s.At != 0 || s.Member != "" {
		return []reply.Span{s}
	}
	var out []reply.Span
	for _, w := range strings.SplitAfter(s.Text, " ") {
		for r := []rune(w); len(r) > 0; {
			n := min(len(r), most)
			part := s
			part.Text = string(r[:n])
			out, r = append(out, part), r[n:]
		}
	}
	return out
}

// size counts UTF-16 units, which is never less than what Discord counts.
func size(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xffff {
			n++
		}
	}
	return n
}
