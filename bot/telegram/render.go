package telegram

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/reply"
)

// style is how replies are written in one chat.
type style struct {
	// typed rewrites a line a person is told to type into one that reaches us
	// there. nil leaves it as it is.
	typed func(string) string
	// times marks instants so that each reader sees their own zone. Servers before
	// Bot API 9.5 do not know the mark.
	times bool
}

// render writes the blocks of a reply as rows. User text sits in spans and cells
// and is escaped where rows are laid out, nowhere else.
func (st style) render(r reply.Reply) [][]row {
	var out [][]row
	for _, b := range r.Blocks {
		var rows []row
		for _, line := range reply.Align(cleanCells(b.Rows)) {
			rows = append(rows, row{runs: []run{{text: line}}, table: true})
		}
		for _, l := range b.Lines {
			rows = append(rows, st.line(l, r.Mentions)...)
		}
		if len(rows) > 0 {
			out = append(out, rows)
		}
	}
	return out
}

// cleanCells makes each cell one line. An empty first cell of a heading gets a
// dot: Telegram cuts off spaces a message begins with, and the heading with them.
func cleanCells(rows [][]string) [][]string {
	out := make([][]string, len(rows))
	for i, r := range rows {
		out[i] = make([]string, len(r))
		for j, c := range r {
			out[i][j] = strings.Join(strings.Fields(plain(c)), " ")
		}
	}
	if len(out) > 0 && len(out[0]) > 1 && out[0][0] == "" {
		out[0][0] = "·"
	}
	return out
}

// line writes one line; a line end inside a span begins a new row.
func (st style) line(l reply.Line, mentions []string) []row {
	rows := []row{{}}
	for _, sp := range l {
		open, end := st.tags(sp, mentions)
		text := defused(sp.Text)
		if sp.Style == reply.Code {
			text = plain(sp.Text)
			if st.typed != nil {
				text = plain(st.typed(sp.Text))
			}
		}
		for i, part := range strings.Split(text, "\n") {
			if i > 0 {
				rows = append(rows, row{})
			}
			if part != "" {
				last := &rows[len(rows)-1]
				last.runs = append(last.runs, run{part, open, end})
			}
		}
	}
	return rows
}

// tags are what goes around a span.
func (st style) tags(sp reply.Span, mentions []string) (open, end string) {
	switch sp.Style {
	case reply.Bold:
		open, end = "<b>", "</b>"
	case reply.Code:
		return "<code>", "</code>"
	}
	if st.times && sp.At > 0 && sp.At <= math.MaxInt32 {
		open, end = open+fmt.Sprintf(`<tg-time unix="%d">`, sp.At), "</tg-time>"+end
	}
	if id, err := strconv.ParseInt(sp.Member, 10, 64); err == nil && id > 0 && slices.Contains(mentions, sp.Member) {
		open, end = open+fmt.Sprintf(`<a href="tg://user?id=%d">`, id), "</a>"+end
	}
	return open, end
}
