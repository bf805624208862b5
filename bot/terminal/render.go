// Package terminal is the chat in a terminal: lines in, text out.
package terminal

import (
	"fmt"
	"strings"

	"larderhand/bot/reply"
)

// Render writes a reply as plain text, with what to type instead of pressing a
// button. Control characters in what people typed cannot reach the terminal.
func Render(r reply.Reply, save func(reply.File) (string, error)) string {
	var parts []string
	if text := printable(r.Text()); text != "" {
		parts = append(parts, text)
	}
	for _, f := range r.Files {
		if f.Caption != "" && !strings.Contains(r.Text(), f.Caption) {
			parts = append(parts, printable(f.Caption))
		}
		parts = append(parts, printable(fileLine(f, save)))
	}
	if press := buttons(r); press != "" {
		parts = append(parts, printable(press))
	}
	return strings.Join(parts, "\n\n")
}

func buttons(r reply.Reply) string {
	var list []string
	for _, row := range r.Buttons {
		for _, b := range row {
			line := b.Line
			if b.Ask {
				line += " …"
			}
			list = append(list, fmt.Sprintf("[%s: %s]", b.Label, line))
		}
	}
	return strings.Join(list, " ")
}

func fileLine(f reply.File, save func(reply.File) (string, error)) string {
	what := "file"
	if f.Picture() {
		what = "picture"
	}
	if save == nil {
		return fmt.Sprintf("(%s %s, %d KB)", what, f.Name, (len(f.Data)+1023)/1024)
	}
	path, err := save(f)
	if err != nil {
		return fmt.Sprintf("(%s %s could not be saved: %v)", what, f.Name, err)
	}
	return fmt.Sprintf("(%s saved as %s)", what, path)
}

// printable drops what could move a terminal's cursor or change its colours.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' || (r >= ' ' && r != 0x7f && (r < 0x80 || r > 0x9f)) {
			return r
		}
		return -1
	}, s)
}
