package discord

import (
	"strings"

	"larderhand/bot/reply"
)

// part is a line of what is to be shown. Lines of tables stand in code blocks, so
// that their columns keep their places.
type part struct {
	text  string
	table bool
	opens bool // it begins a block, which stands apart from what is above it
}

// fence begins and ends a code block.
const fence = "```"

// parts writes all blocks, and the captions of files, as lines that fit into a
// message of at most so many characters.
func parts(r reply.Reply, most int) []part {
	var out []part
	for _, b := range r.Blocks {
		var lines []part
		for _, row := range reply.Align(b.Rows) {
			for _, s := range cut(cell(row), most-2*len(fence)-2) {
				lines = append(lines, part{text: s, table: true})
			}
		}
		for _, l := range b.Lines {
			for _, s := range line(l, r.Mentions, most) {
				lines = append(lines, part{text: s})
			}
		}
		out = append(out, opening(lines)...)
	}
	for _, f := range r.Files {
		if f.Caption == "" || strings.Contains(r.Text(), f.Caption) {
			continue
		}
		var lines []part
		for _, s := range line(reply.Line{{Text: f.Caption}}, nil, most) {
			lines = append(lines, part{text: s})
		}
		out = append(out, opening(lines)...)
	}
	return out
}

func opening(lines []part) []part {
	if len(lines) > 0 {
		lines[0].opens = true
	}
	return lines
}

// cut takes a plain line apart between words.
func cut(s string, most int) []string {
	if size(s) <= most {
		return []string{s}
	}
	var (
		out []string
		now string
	)
	for _, w := range words(reply.Span{Text: s}, most/2) {
		if now != "" && size(now)+size(w.Text) > most {
			out, now = append(out, now), ""
		}
		now += w.Text
	}
	return append(out, now)
}

// pages puts lines together to texts of at most so many characters and so many
// lines each. They end between blocks where that leaves them at least half full.
func pages(list []part, most, lines int) []string {
	var out []string
	for len(list) > 0 {
		n := fitting(list, most, lines)
		out, list = append(out, join(list[:n])), list[n:]
	}
	return out
}

// fitting is how many lines, at least one, make the next page.
func fitting(list []part, most, lines int) int {
	n := 1
	for n < len(list) && n < lines && size(join(list[:n+1])) <= most {
		n++
	}
	if n == len(list) {
		return n
	}
	for k := n; k > 0; k-- {
		if list[k].opens && size(join(list[:k])) >= most/2 {
			return k
		}
	}
	return n
}

// join writes lines one below the other, those of tables in code blocks.
func join(list []part) string {
	var b strings.Builder
	inside := false
	for i, p := range list {
		if inside && (!p.table || p.opens) {
			b.WriteString("\n" + fence)
			inside = false
		}
		if i > 0 {
			b.WriteString("\n")
			if p.opens && !p.table && !list[i-1].table {
				b.WriteString("\n")
			}
		}
		if p.table && !inside {
			b.WriteString(fence + "\n")
			inside = true
		}
		b.WriteString(p.text)
	}
	if inside {
		b.WriteString("\n" + fence)
	}
	return b.String()
}
