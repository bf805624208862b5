// Package reply is what the bot answers with: a value made of spans, rows,
// buttons and files that knows no platform. Each adapter renders it in its
// platform's own way. User text only ever sits in Span.Text, so whoever renders
// a span escapes it and nothing a person types becomes markup or a mention.
package reply

import (
	"fmt"
	"time"
)

// Reply is one answer or one ping. The zero value says nothing.
type Reply struct {
	Blocks   []Block    `json:"blocks,omitempty"`
	Buttons  [][]Button `json:"buttons,omitempty"`
	Files    []File     `json:"files,omitempty"`
	Private  bool       `json:"private,omitempty"`  // for the asker alone, where the platform can
	Replace  bool       `json:"replace,omitempty"`  // answers a press by changing the message that was pressed
	Silent   bool       `json:"silent,omitempty"`   // deliver without a sound
	Mentions []string   `json:"mentions,omitempty"` // member keys this may ping; nobody else
	Place    *Place     `json:"place,omitempty"`    // a batch is to live in a place of its own
}

// Place asks whoever shows the reply to make a place of its own, such as a thread,
// for a batch of a conversation, and to tell the bot where that is. With Is set it
// is there already.
type Place struct {
	In    string `json:"in"` // the conversation's address
	Batch int    `json:"batch"`
	Name  string `json:"name,omitempty"`
	Is    string `json:"is,omitempty"`
}

// Block is a paragraph (Lines) or a table (Rows, the first cell of a row to the
// left and the others to the right). One of the two is set.
type Block struct {
	Lines []Line     `json:"lines,omitempty"`
	Rows  [][]string `json:"rows,omitempty"`
}

// Line is one line of a paragraph.
type Line []Span

// Style says how a span stands out.
type Style string

// The styles a span can have.
const (
	Plain Style = ""
	Bold  Style = "bold"
	Code  Style = "code" // something to type
)

// Span is a run of text. At, when set, is the instant the text names (unix
// seconds), so that a platform which can show it in the reader's zone does.
// Member, when set, is the key of the member the text names.
type Span struct {
	Text   string `json:"text"`
	Style  Style  `json:"style,omitempty"`
	At     int64  `json:"at,omitempty"`
	Member string `json:"member,omitempty"`
}

// Button does what typing its Line would do. Version is the state of the batch
// it was made for (see Token); Ask means that pressing it should first ask for
// the rest of the line with the command's form.
type Button struct {
	Label   string `json:"label"`
	Line    string `json:"line"`
	Version int    `json:"version,omitempty"`
	Ask     bool   `json:"ask,omitempty"`
}

// File is a picture or a document that goes with the reply.
type File struct {
	Name    string `json:"name"`
	Type    string `json:"type"` // media type, such as image/png
	Caption string `json:"caption,omitempty"`
	Alt     string `json:"alt,omitempty"` // for who can't see a picture, where the platform has a place for it
	Data    []byte `json:"data,omitempty"`
}

// Picture reports whether the file is shown rather than offered for download.
func (f File) Picture() bool { return f.Type == "image/png" || f.Type == "image/jpeg" }

// Empty reports whether there is nothing to send.
func (r Reply) Empty() bool { return len(r.Blocks) == 0 && len(r.Files) == 0 }

// B makes a bold span.
func B(text string) Span { return Span{Text: text, Style: Bold} }

// Type makes a span of something the person can type.
func Type(line string) Span { return Span{Text: line, Style: Code} }

// When makes a span that names an instant; text is how it reads in the
// conversation's zone.
func When(t time.Time, text string) Span { return Span{Text: text, At: t.Unix()} }

// Who makes a span that names a member.
func Who(key, name string) Span { return Span{Text: name, Member: key} }

// Say adds a line to the last paragraph. Each part is a string or a Span.
func (r *Reply) Say(parts ...any) *Reply {
	if n := len(r.Blocks); n == 0 || r.Blocks[n-1].Rows != nil {
		r.Blocks = append(r.Blocks, Block{})
	}
	last := &r.Blocks[len(r.Blocks)-1]
	last.Lines = append(last.Lines, line(parts))
	return r
}

// Sayf is Say with one formatted string.
func (r *Reply) Sayf(format string, args ...any) *Reply {
	return r.Say(fmt.Sprintf(format, args...))
}

// Par starts a new paragraph with a line.
func (r *Reply) Par(parts ...any) *Reply {
	r.Blocks = append(r.Blocks, Block{Lines: []Line{line(parts)}})
	return r
}

// Table adds a table.
func (r *Reply) Table(rows [][]string) *Reply {
	if len(rows) > 0 {
		r.Blocks = append(r.Blocks, Block{Rows: rows})
	}
	return r
}

// Press adds a row of buttons.
func (r *Reply) Press(row ...Button) *Reply {
	if len(row) > 0 {
		r.Buttons = append(r.Buttons, row)
	}
	return r
}

// Append adds all of another reply below this one.
func (r *Reply) Append(o Reply) *Reply {
	r.Blocks = append(r.Blocks, o.Blocks...)
	r.Buttons = append(r.Buttons, o.Buttons...)
	r.Files = append(r.Files, o.Files...)
	r.Mentions = append(r.Mentions, o.Mentions...)
	return r
}

func line(parts []any) Line {
	l := make(Line, 0, len(parts))
	for _, p := range parts {
		switch v := p.(type) {
		case Span:
			l = append(l, v)
		case string:
			l = append(l, Span{Text: v})
		default:
			l = append(l, Span{Text: fmt.Sprint(v)})
		}
	}
	return l
}
