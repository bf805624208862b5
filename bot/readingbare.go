package bot

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

var (
	// pitAndC matches "P150 C82", in either order, and nothing else.
	pitAndC = regexp.MustCompile(`(?i)^\W*(?:temps?|readings?)?\W*(?:p\W{0,2}(\d[\d.]*)\W{1,3}c\W{0,2}(\d[\d.]*)|c\W{0,2}(\d[\d.]*)\W{1,3}p\W{0,2}(\d[\d.]*))\W*$`)
	// twoNumbers matches "150 and 87".
	twoNumbers = regexp.MustCompile(`(?i)^\s*(\d{1,3}(?:\.\d+)?)\s*(°?\s*[fc])?(?:\s*,\s*|\s+and\s+|\s*&\s*|\s+)(\d{1,3}(?:\.\d+)?)\s*(°?\s*[fc])?\s*[.!]?$`)
)

// bareReading reads what thermometers say without a command, while something is hot:
// "151/124", "3 151/124", "pit65 core 25c", "a 101, b 110, pit 151", "150 core a 62".
// Two numbers and no more are asked about.
func (t *Turn) bareReading(line string) (reply.Reply, error, bool) {
	none := reply.Reply{}
	if t.Tx == nil || !strings.ContainsAny(line, "0123456789") {
		return none, nil, false
	}
	ref, rest, named, err := parse.Batch(line)
	if named = named && err == nil; named {
		b, err := t.Tx.Batch(t.Conv.ID, ref.Number)
		if err != nil && !errors.Is(err, store.ErrNotFound) {
			return none, err, true
		}
		named = err == nil && (ref.Piece == "" || slices.ContainsFunc(b.Pieces, func(p store.Piece) bool { return p.Letter == ref.Piece }))
	}
	reads := func(text string) bool {
		_, err := parse.Readings(text, t.tempUnit(), t.Now)
		return err == nil
	}
	two := twoNumbers.FindStringSubmatch(line)
	switch {
	case named && two == nil:
		if _, _, found := t.bot.find(rest); found || !reads(rest) {
			return none, nil, false
		}
	case pitFirst(line) && reads("pit "+line):
		line = "pit " + line
	case two == nil && !reads(line):
		return none, nil, false
	}
	open, err := t.openBatches()
	if err != nil {
		return none, err, true
	}
	if !slices.ContainsFunc(open, hot) {
		return none, nil, false
	}
	if two != nil {
		return none, whichIsPit(two), true
	}
	r, err := t.reading("temp", line)
	return r, err, true
}

// pitFirst says whether a line begins with a number and goes on with a core: no such
// batch runs, so the number is the pit's.
func pitFirst(line string) bool { return pitThenCore.MatchString(line) }

var pitThenCore = regexp.MustCompile(`(?i)^\s*\d{2,3}(?:\.\d+)?\s*(?:°?\s*[fc])?(?:\s*[,;:]?\s+|\s*[/|]\s*)(?:cores?|meat|internal|probe|[a-z]\s*[:=]?\s*\d)`)

// whichIsPit asks what two bare numbers are: nothing tells the pit from the core.
func whichIsPit(m []string) error {
	a, b := m[1]+strings.TrimSpace(m[2]), m[3]+strings.TrimSpace(m[4])
	say := func(pit, core string) reply.Button {
		return reply.Button{Label: fmt.Sprintf("Pit %s, core %s", pit, core), Line: fmt.Sprintf("temp pit %s core %s", pit, core)}
	}
	return &Error{Kind: BadInput, Why: "Which is the pit and which the core? Nothing was noted.", Understood: "two temperatures, " + a + " and " + b,
		Example: fmt.Sprintf("pit %s core %s", a, b), Buttons: []reply.Button{say(a, b), say(b, a)}}
}
