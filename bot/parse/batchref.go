package parse

import (
	"strings"
	"unicode/utf8"
)

// BatchRef names a batch, or one piece of it.
type BatchRef struct {
	Number int
	Piece  string // "a", "b" … or "" for the whole batch
}

const (
	batchExample = "batch 3"
	// mostBatches is the highest batch number taken: numbers are counted up
	// within a conversation, one a batch.
	mostBatches = 99999
)

// Batch reads the batch a text begins with: 3, #3, batch 3, 3a, 3 a, and gives
// the rest of the text. ok is false, without an error, if the text does not
// begin with a batch: another word, a number with a unit (5 lb, 2h), a reading
// (151/124) or a time (14:30). The error, a *Problem, is for a number that
// stands where a batch should and can be none (0, -3, 3.5).
//
// 2h, 5m, 30s and 1w are lengths of time, so those four letters name a piece
// only after a sign: #3h. 3d and 3 d are piece d: a command that takes a length
// of time should ask Duration first. A spaced "a" or "i" before a word is taken
// as that word's own: in "3 a bit salty" there is no piece.
func Batch(s string) (ref BatchRef, rest string, ok bool, err error) {
	if len(s) > mostBytes {
		return ref, s, false, nil
	}
	l := scan(s)
	i, sure := 0, false
	if l.at(i).is("batch") {
		i, sure = i+1, true
	}
	if l.at(i).is("#") {
		i, sure = i+1, true
	}
	t := l.at(i)
	if t.kind != numeric || !sure && l.otherNumber(i) {
		return ref, strings.TrimSpace(s), false, nil
	}
	if p := l.batchProblem(i); p != nil {
		return ref, strings.TrimSpace(s), false, p
	}
	ref.Number = int(t.num.value)
	i++
	if piece, n := l.pieceAt(i, sure); n > 0 {
		ref.Piece = piece
		i += n
	}
	for l.at(i).is(":") || l.at(i).is(",") || l.at(i).is(".") || l.at(i).is(")") {
		i++
	}
	if i < len(l.toks) {
		rest = strings.TrimSpace(s[l.toks[i].start:])
	}
	return ref, rest, true, nil
}

// otherNumber says whether the number at i is something else than a batch: a
// reading, a time, a date, or an amount.
func (l line) otherNumber(i int) bool {
	t, next := l.at(i), l.at(i+1)
	after := l.at(i + 2)
	switch {
	case t.num.base > 0:
		return true
	case next.kind == mark && next.glued && after.kind == numeric && after.glued:
		return true // 14:30, 2027-03-01
	case next.is("/") && after.kind != word:
		return true
	}
	u, n, ok := l.unitAt(i + 1)
	switch {
	case !ok:
		return false
	case n == 1 && next.kind == word && utf8.RuneCountInString(next.text) == 1:
		return timeLetter(next.text) // 3c is piece c
	case u.dim == length && next.is("in") && !next.glued && t.num.whole:
		return false // 3 in the cellar
	}
	return true
}

func timeLetter(s string) bool { return s == "h" || s == "m" || s == "s" || s == "w" }

func (l line) batchProblem(i int) *Problem {
	t := l.at(i)
	p := &Problem{Kind: NotABatch, Said: l.said(i, i+1), Example: batchExample}
	switch {
	case t.num.fault != "":
		p.Kind, p.Why = NotANumber, t.num.fault
	case t.signed, t.num.value == 0:
		p.Why = "batches are numbered from 1"
	case !t.num.whole:
		p.Why = "batch numbers are whole"
	case t.num.value > mostBatches:
		p.Kind, p.Why = TooBig, "no batch has a number that high"
	default:
		return nil
	}
	return p
}

// pieceAt reads the letter of a piece at token i.
func (l line) pieceAt(i int, sure bool) (string, int) {
	t, n := l.at(i), 1
	if (t.is("-") || t.is("/")) && t.glued && l.at(i+1).glued {
		t, n = l.at(i+1), 2
		sure = true
	}
	if t.kind != word || len(t.text) != 1 || t.text[0] < 'a' || t.text[0] > 'z' || timeLetter(t.text) && !sure {
		return "", 0
	}
	if next := l.at(i + n); t.text == "p" && next.kind == numeric && next.glued {
		return "", 0 // 1 p150 c82
	}
	if next := l.at(i + n); !t.glued && (t.text == "a" || t.text == "i") && next.kind == word && placeNamed(next.text) == nowhere {
		return "", 0
	}
	return t.text, n
}
