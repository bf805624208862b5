package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func lost(s course.State, letter string) bool {
	return slices.ContainsFunc(s.Lost, func(l course.Lost) bool { return l.Letter == letter })
}

// noPiece says that a batch has no such piece, or no more.
func (t *Turn) noPiece(cmd string, s course.State, letter string) error {
	for _, l := range s.Lost {
		if l.Letter == letter {
			return t.thrownAway(s, l)
		}
	}
	return &Error{Kind: NoSuch, Why: fmt.Sprintf("%s has no piece %s; it has %s. Nothing was recorded.", name(s), letter, letters(s)),
		Example: fmt.Sprintf("%s %d%s", cmd, s.Number, s.Pieces[0].Letter)}
}

func (t *Turn) thrownAway(s course.State, l course.Lost) error {
	return &Error{Kind: NotNow, Why: fmt.Sprintf("Piece %s of %s was thrown away %s: %s.", l.Letter, name(s), l.At.In(t.Loc).Format("Mon 2 Jan"), l.Why), Example: fmt.Sprintf("batch %d", s.Number)}
}

// severalSaid refuses a line that speaks of pieces in more than one place.
func (t *Turn) severalSaid(cmd string, s course.State, of []string, rest, letter string) error {
	e := &Error{Kind: BadInput, Why: fmt.Sprintf("I can't tell from “%s” whether that is said of piece %s too; nothing was recorded. The pieces it is true of come first.", clip(rest, 60), letter),
		Example: fmt.Sprintf("%s %d %s", cmd, s.Number, orElse(strings.Join(of, ", "), s.Pieces[0].Letter))}
	if len(of) > 0 {
		return e
	}
	for _, p := range s.Pieces[:min(len(s.Pieces), 4)] {
		e.Buttons = append(e.Buttons, onlyPiece(cmd, s, p, ""))
	}
	return e
}

// whichPieces asks whether an "a" is the piece or the word.
func (t *Turn) whichPieces(cmd string, s course.State, text, doubt string) error {
	letter, word := doubt[:1], strings.TrimSpace(doubt[1:])
	piece, _ := s.Find(letter)
	own := text // "a bit salty" keeps its article
	if !isSmall(word) {
		own = strings.TrimSpace(text[1:])
	}
	only := onlyPiece(cmd, s, piece, own)
	all := reply.Button{Label: "All", Line: fmt.Sprintf("%s %d all: %s", cmd, s.Number, text), Version: s.Version}
	e := &Error{Kind: BadInput, Why: fmt.Sprintf("“%s”: is that said of piece %s alone, or of all of %s (%s)? Nothing was recorded.", clip(text, 40), letter, name(s), letters(s)),
		Example: only.Line, Buttons: []reply.Button{only, all}}
	if len(all.Token()) > reply.MaxToken || len(only.Token()) > reply.MaxToken { // too long for a button
		e.Buttons = nil
		e.Why += fmt.Sprintf(" For all of it begin with “%s %d all:”.", cmd, s.Number)
	}
	return e
}

func onlyPiece(cmd string, s course.State, p course.PieceState, text string) reply.Button {
	return reply.Button{Label: strings.TrimSpace("Only " + p.Letter + " " + clip(p.Flavouring, 20)),
		Line: strings.TrimSpace(fmt.Sprintf("%s %d%s %s", cmd, s.Number, p.Letter, text)), Version: s.Version}
}
