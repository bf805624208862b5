package terminal

import (
	"bufio"
	"io"
	"os"
	"strings"

	"github.com/muesli/reflow/wordwrap"
	"golang.org/x/term"
)

// Script gives the lines of a reader that is not a terminal.
type Script struct{ r *bufio.Reader }

// NewScript reads lines from r.
func NewScript(r io.Reader) *Script { return &Script{bufio.NewReader(r)} }

// ReadLine gives the next line; the last may lack its end.
func (s *Script) ReadLine() (string, error) {
	line, err := s.r.ReadString('\n')
	return strings.TrimRight(line, "\r\n"), err
}

// Screen is a terminal with line editing and a history. What is written to it
// meanwhile appears above the line being typed.
type Screen struct {
	t     *term.Terminal
	in    int
	out   int
	state *term.State
}

// NewScreen takes over the terminal; Restore gives it back.
func NewScreen(in, out *os.File, prompt string) (*Screen, error) {
	state, err := term.MakeRaw(int(in.Fd()))
	if err != nil {
		return nil, err
	}
	s := &Screen{in: int(in.Fd()), out: int(out.Fd()), state: state}
	s.t = term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{in, out}, prompt)
	s.width()
	return s, nil
}

// ReadLine lets the person edit a line.
func (s *Screen) ReadLine() (string, error) {
	line, err := s.t.ReadLine()
	if err == term.ErrPasteIndicator {
		err = nil
	}
	return line, err
}

// width is how wide the window is now, or 0 if it does not say. The line editor is
// told as well, since people turn and resize their windows.
func (s *Screen) width() int {
	w, h, err := term.GetSize(s.out)
	if err != nil || w <= 0 {
		return 0
	}
	// A size it cannot take only costs the wrapping of the line being typed.
	_ = s.t.SetSize(w, h)
	return w
}

// Write prints above the line being typed, broken between words.
func (s *Screen) Write(p []byte) (int, error) {
	text := string(p)
	if w := s.width(); w > 0 {
		text = wordwrap.String(text, w)
	}
	if _, err := io.WriteString(s.t, text); err != nil {
		return 0, err
	}
	return len(p), nil
}

// Restore gives the terminal back as it was.
func (s *Screen) Restore() error { return term.Restore(s.in, s.state) }
