package telegramtest

import (
	"slices"
	"strings"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Message is a message as a person reads it.
type Message struct {
	ID     int
	ChatID int64
	Thread int    // the topic it stands in, 0 outside topics
	From   string // the sender's name
	Bot    bool   // the bot under test sent it

	Text     string // or the caption under a file; formatting is in Entities
	Entities []Entity
	Buttons  [][]Button
	Keys     [][]string // a reply keyboard's labels
	Force    bool       // the app opens an answer to it
	Hint     string     // what the empty input field shows then
	File     *File
	Silent   bool // it arrived without a sound
	Preview  bool // the app may show a preview of a link in it
	ReplyTo  int
	Edits    int
	Pinned   bool
	Service  string // what a service message says, "" for others
}

// Entity is formatting, or something the app makes a link of. Offset and Length
// count UTF-16 code units.
type Entity struct {
	Type           string
	Offset, Length int
	Text           string // what it covers
	URL            string
	UserID         int64 // of a text_mention
	Unix           int64 // of a date_time
}

// File is a file under a message.
type File struct {
	ID    string
	Name  string
	MIME  string
	Data  []byte
	Photo bool
}

// Button finds a button by its label.
func (m Message) Button(label string) (Button, bool) {
	for _, row := range m.Buttons {
		for _, b := range row {
			if b.Label == label {
				return b, true
			}
		}
	}
	return Button{}, false
}

// Marked gives the stretches of one entity type, such as "bold".
func (m Message) Marked(kind string) []string {
	var out []string
	for _, e := range m.Entities {
		if e.Type == kind {
			out = append(out, e.Text)
		}
	}
	return out
}

// String shows the message without its sender: a line for the file, the text, a
// line for each row of buttons.
func (m Message) String() string {
	if m.Service != "" {
		return "(" + m.Service + ")"
	}
	var lines []string
	if m.File != nil {
		kind := "file"
		if m.File.Photo {
			kind = "photo"
		}
		lines = append(lines, "<"+kind+" "+m.File.Name+">")
	}
	if m.Text != "" {
		lines = append(lines, m.Text)
	}
	for _, row := range m.Buttons {
		var labels []string
		for _, b := range row {
			labels = append(labels, "["+b.Label+"]")
		}
		lines = append(lines, strings.Join(labels, " "))
	}
	for _, row := range m.Keys {
		lines = append(lines, "{"+strings.Join(row, "} {")+"}")
	}
	return strings.Join(lines, "\n")
}

func (m Message) line() string { return m.From + ": " + m.String() }

// view makes a Message. The lock is held.
func (s *Server) view(m *message) Message {
	v := Message{ID: m.id, ChatID: m.chat.id, Bot: m.mine, Silent: m.silent, ReplyTo: m.replyTo,
		Edits: m.edits, Pinned: m.pinned, Service: m.serviceText}
	if m.inTopic {
		v.Thread = m.thread
	}
	switch {
	case m.as != nil:
		v.From = m.as.title
	case m.from != nil:
		v.From = m.from.name()
	}
	text := m.text
	if m.file != nil {
		text = m.caption
		v.File = &File{ID: m.file.id, Name: m.file.name, MIME: m.file.mime, Data: m.file.data, Photo: m.photo}
	}
	v.Text = text.Plain
	for _, e := range text.Entities {
		seen := Entity{Type: e.Type, Offset: e.Offset, Length: e.Length, Text: markup.Cut(text.Plain, e), URL: e.URL, Unix: e.UnixTime}
		if e.User != nil {
			seen.UserID = e.User.ID
		}
		v.Entities = append(v.Entities, seen)
		linked := e.Type == "url" || e.Type == "text_link"
		v.Preview = v.Preview || m.preview && linked
	}
	for _, row := range m.inline() {
		v.Buttons = append(v.Buttons, slices.Clone(row))
	}
	if m.markup != nil {
		v.Keys, v.Force, v.Hint = m.markup.keys, m.markup.force, m.markup.hint
	}
	return v
}

// seen lists what the room shows, or the bot's part of it. The lock is held.
func (r *Room) seen(botOnly bool) []Message {
	var out []Message
	for _, m := range r.chat.messages {
		if r.shows(m) && (!botOnly || m.mine) {
			out = append(out, r.s.view(m))
		}
	}
	return out
}

// Messages lists everything the room shows, oldest first.
func (r *Room) Messages() []Message {
	r.s.mu.Lock()
	defer r.s.mu.Unlock()
	return r.seen(false)
}

// FromBot lists what the bot said in the room, oldest first.
func (r *Room) FromBot() []Message {
	r.s.mu.Lock()
	defer r.s.mu.Unlock()
	return r.seen(true)
}

// Transcript is the room read aloud, a message with its sender on each line.
func (r *Room) Transcript() string {
	var b strings.Builder
	for _, m := range r.Messages() {
		b.WriteString(m.line() + "\n")
	}
	return b.String()
}

// Now is a message as it stands now; false if it was deleted.
func (r *Room) Now(m Message) (Message, bool) {
	r.s.mu.Lock()
	defer r.s.mu.Unlock()
	found := r.chat.find(m.ID)
	if found == nil {
		return Message{}, false
	}
	return r.s.view(found), true
}
