package telegram

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"image/png"
	"path"
	"strings"
	"sync"

	"larderhand/bot/reply"
)

// part is one message on Telegram.
type part struct {
	msg        message
	file       *reply.File
	markup     string // of the keyboard, JSON
	bare       bool   // send the text without markup
	asDocument bool   // a picture the platform would not take as one
}

// Bounds of a photo (Bot API, sendPhoto). A picture past them goes as a document.
const (
	photoBytesMost = 10 << 20
	photoSidesMost = 10000
	photoRatioMost = 20
	fileBytesMost  = 50 << 20 // from memory
)

// compose turns a reply into messages: the text, then each file under its caption.
// Text that fits under a single file goes there. The buttons are on the last.
func (a *Adapter) compose(ctx context.Context, p place, r reply.Reply) ([]part, error) {
	st := a.style(p)
	blocks := st.render(r)
	var parts []part
	files := make([]reply.File, 0, len(r.Files))
	for _, f := range r.Files {
		if len(f.Data) == 0 || len(f.Data) > fileBytesMost {
			blocks = append(blocks, caption("("+f.Name+" cannot be sent here.)"))
			continue
		}
		files = append(files, f)
	}
	if len(files) == 1 {
		under := append(blocks[:len(blocks):len(blocks)], caption(files[0].Caption))
		if m := pack(under, captionMost); len(m) <= 1 {
			parts = []part{{msg: first(m), file: &files[0]}}
			files = nil
		}
	}
	if len(parts) == 0 {
		for _, m := range pack(blocks, textMost) {
			parts = append(parts, part{msg: m})
		}
	}
	for i := range files {
		parts = append(parts, part{msg: first(pack([][]row{caption(clip(files[i].Caption, 900))}, captionMost)), file: &files[i]})
	}
	if len(parts) == 0 {
		return nil, nil
	}
	markup, err := a.keyboard(p, r.Buttons, func(name string, b reply.Button) error { return a.keepButton(ctx, name, b) })
	if err != nil {
		return nil, fmt.Errorf("keep a button: %w", err)
	}
	parts[len(parts)-1].markup = markup
	return parts, nil
}

func caption(text string) []row {
	if text == "" {
		return nil
	}
	return style{}.line(reply.Line{{Text: text}}, nil)
}

func first(m []message) message {
	if len(m) == 0 {
		return message{}
	}
	return m[0]
}

// text puts the part's text into a call under a name.
func (p part) text(params map[string]string, name string) {
	switch {
	case p.msg.plain == "":
	case p.bare:
		params[name] = p.msg.plain
	default:
		params[name], params["parse_mode"] = p.msg.html, "HTML"
	}
}

func (p part) unmarked() part {
	p.bare = true
	return p
}

func (p part) timed() bool { return strings.Contains(p.msg.html, "<tg-time ") }

// photo reports whether the file can be shown.
func (p part) photo() bool {
	if p.asDocument || !p.file.Picture() || len(p.file.Data) > photoBytesMost {
		return false
	}
	c, err := png.DecodeConfig(bytes.NewReader(p.file.Data))
	if err != nil {
		return false
	}
	long, short := max(c.Width, c.Height), min(c.Width, c.Height)
	return long+short <= photoSidesMost && long <= short*photoRatioMost
}

func (p part) fileName() string {
	name := strings.Join(strings.Fields(plain(path.Base(p.file.Name))), " ")
	if name == "" || name == "." || name == "/" {
		return "file"
	}
	return name
}

// begun remembers how far replies of several messages got that failed in the
// middle. It lives as long as the process: after a crash such a reply is sent whole.
type begun struct {
	mu  sync.Mutex
	got map[string]begin
}

type begin struct {
	sum  [32]byte
	done int
}

// beginsMost is where the memory is wiped rather than let grow.
const beginsMost = 1000

func (b *begun) recall(key string, parts []part) int {
	b.mu.Lock()
	defer b.mu.Unlock()
	if g, ok := b.got[key]; ok && key != "" && g.sum == sum(parts) && g.done < len(parts) {
		return g.done
	}
	return 0
}

func (b *begun) note(key string, parts []part, done int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if done == 0 || key == "" {
		delete(b.got, key)
		return
	}
	if b.got == nil || len(b.got) >= beginsMost {
		b.got = map[string]begin{}
	}
	b.got[key] = begin{sum(parts), done}
}

func sum(parts []part) (out [32]byte) {
	h := sha256.New()
	for _, p := range parts {
		fmt.Fprintf(h, "%d %s\n", len(p.msg.plain), p.msg.plain)
		if p.file != nil {
			h.Write(p.file.Data)
		}
	}
	h.Sum(out[:0])
	return out
}

// turns lets one reply at a time be sent to a chat, so that the messages of two do
// not mix.
type turns struct {
	mu   sync.Mutex
	held map[int64]*turn
}

type turn struct {
	free chan struct{}
	want int
}

func (t *turns) take(ctx context.Context, chat int64) (release func(), err error) {
	t.mu.Lock()
	if t.held == nil {
		t.held = map[int64]*turn{}
	}
	mine, ok := t.held[chat]
	if !ok {
		mine = &turn{free: make(chan struct{}, 1)}
		t.held[chat] = mine
	}
	mine.want++
	t.mu.Unlock()
	leave := func() {
		t.mu.Lock()
		defer t.mu.Unlock()
		if mine.want--; mine.want == 0 {
			delete(t.held, chat)
		}
	}
	select {
	case mine.free <- struct{}{}:
		return func() { <-mine.free; leave() }, nil
	case <-ctx.Done():
		leave()
		return nil, ctx.Err()
	}
}
