package telegram

import (
	"strings"

	"github.com/rivo/uniseg"
)

// Limits of one message. Lengths are UTF-16 units after the markup is taken out
// (Bot API, sendMessage, sendPhoto); the count of entities is from memory and kept
// below it, since Telegram adds some of its own.
const (
	textMost    = 4096
	captionMost = 1024
	marksMost   = 80
	htmlMost    = 24 << 10
)

// run is text with at most one stretch of markup around it.
type run struct {
	text        string
	open, close string
}

func (r run) html() string {
	if r.text == "" {
		return ""
	}
	return r.open + escape(r.text) + r.close
}

// row is one line of a message. Rows of tables stand in a <pre> of their own.
type row struct {
	runs  []run
	table bool
}

// size is what a row takes of a message's limits.
type size struct{ units, html, marks int }

func (a size) plus(b size) size { return size{a.units + b.units, a.html + b.html, a.marks + b.marks} }

func (a size) fits(limit int) bool {
	return a.units <= limit && a.html <= htmlMost && a.marks <= marksMost
}

func (l row) size() size {
	s := size{units: 1, html: 1} // the line's end
	if l.table {
		s.html, s.marks = 12, 0
	}
	for _, r := range l.runs {
		s.units += units(r.text)
		s.html += len(r.html())
		if r.open != "" {
			s.marks++
		}
	}
	return s
}

// pack lays blocks of rows out in as few messages as their limits allow. It breaks
// between blocks if it can, else between rows, and inside a row only if that alone
// is longer than a message.
func pack(blocks [][]row, limit int) []message {
	p := packer{limit: limit}
	for _, b := range blocks {
		var whole size
		for _, l := range b {
			whole = whole.plus(l.size())
		}
		if len(p.rows) > 0 {
			whole.units++ // the blank line before it
			whole.html++
		}
		if !p.used.plus(whole).plus(tableMark).fits(limit) && whole.plus(tableMark).fits(limit) {
			p.flush()
		}
		for i, l := range b {
			p.add(l, i == 0)
		}
	}
	p.flush()
	return p.done
}

// tableMark is what a <pre> around rows costs.
var tableMark = size{html: 11, marks: 1}

type packer struct {
	limit int
	rows  []row // nil runs: a blank line
	used  size
	done  []message
}

func (p *packer) add(l row, first bool) {
	gap := first && len(p.rows) > 0
	need := l.size().plus(tableMark)
	if gap {
		need = need.plus(size{units: 1, html: 1})
	}
	if !p.used.plus(need).fits(p.limit) && len(p.rows) > 0 {
		p.flush()
		gap = false
	}
	if !need.fits(p.limit) {
		head, tail := cut(l, p.limit)
		p.put(head)
		p.flush()
		p.add(tail, false)
		return
	}
	if gap {
		p.put(row{})
	}
	p.put(l)
}

func (p *packer) put(l row) {
	p.rows = append(p.rows, l)
	s := l.size()
	if l.table && (len(p.rows) == 1 || !p.rows[len(p.rows)-2].table) {
		s = s.plus(tableMark)
	}
	p.used = p.used.plus(s)
}

func (p *packer) flush() {
	if m := layOut(p.rows); m.html != "" {
		p.done = append(p.done, m)
	}
	p.rows, p.used = nil, size{}
}

// message is one message's text, with and without markup.
type message struct{ html, plain string }

func layOut(rows []row) message {
	var h, t strings.Builder
	inTable := false
	for i, l := range rows {
		if inTable && !l.table {
			h.WriteString("</pre>")
		}
		if i > 0 {
			h.WriteByte('\n')
			t.WriteByte('\n')
		}
		if l.table && !inTable {
			h.WriteString("<pre>")
		}
		inTable = l.table
		for _, r := range l.runs {
			h.WriteString(r.html())
			t.WriteString(r.text)
		}
	}
	if inTable {
		h.WriteString("</pre>")
	}
	if strings.TrimSpace(t.String()) == "" {
		return message{}
	}
	return message{h.String(), t.String()}
}

// cut takes from the start of a row what fits into one message, to the last space
// in it if there is one that far along, else between two characters as a person
// sees them.
func cut(l row, limit int) (head, tail row) {
	head.table, tail.table = l.table, l.table
	left := size{units: limit - 1, html: htmlMost - 64, marks: marksMost - 2}
	for i, r := range l.runs {
		one := row{runs: []run{r}}.size()
		if one.units-1 <= left.units && one.html <= left.html && one.marks <= left.marks {
			head.runs = append(head.runs, r)
			left = size{left.units - one.units + 1, left.html - one.html, left.marks - one.marks}
			continue
		}
		n := 0
		if left.marks > 0 {
			n = prefix(r.text, left.units, left.html-len(r.open)-len(r.close))
		}
		if n == 0 && len(head.runs) == 0 { // one character longer than a message
			n = min(len(r.text), left.units/2)
			for n < len(r.text) && r.text[n]&0xc0 == 0x80 {
				n--
			}
		}
		if n > 0 {
			head.runs = append(head.runs, run{r.text[:n], r.open, r.close})
		}
		tail.runs = append(tail.runs, run{strings.TrimLeft(r.text[n:], " "), r.open, r.close})
		tail.runs = append(tail.runs, l.runs[i+1:]...)
		return head, tail
	}
	return head, tail
}

// prefix is how many bytes of a text fit.
func prefix(s string, most, html int) int {
	space, n, u, h := 0, 0, 0, 0
	g := uniseg.NewGraphemes(s)
	for g.Next() {
		c := g.Str()
		u += units(c)
		h += len(escape(c))
		if u > most || h > html {
			break
		}
		n += len(c)
		if c == " " || c == "\n" {
			space = n
		}
	}
	if n < len(s) && space > n/2 {
		return space
	}
	return n
}
