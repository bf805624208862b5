package bot

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func readingCommands() []Command {
	row := func(name, form, help, example string, also ...string) Command {
		return Command{Name: name, Also: also, Group: groupSmoke, Form: form, Help: help, Example: example, Batch: true, Files: true,
			Fields: []Field{{Name: "Reading", Example: "pit 148 core 121", Long: true}},
			Run:    func(t *Turn, args string) (reply.Reply, error) { return t.reading(name, args) }}
	}
	return []Command{
		row("pit", "3 pit 148 core 121", "log what the thermometers read", "pit 1 148 core 121", "smoker", "grate"),
		row("core", "core 3 121 / core a 121 b 118", "log core temperatures", "core 1 121", "meat", "probe"),
		row("temp", "temp 3 148/121", "log pit and core in one", "temp 1 148/121", "temps", "reading", "readings", "temperature"),
		{Name: "keep", Own: true, Group: groupSmoke, Form: "keep / keep 2", Help: "take the readings I asked about as they are", Example: "keep", Fields: []Field{{Name: "Which", Example: "2", Optional: true}}, Run: (*Turn).keep},
		{Name: "drop", Group: groupSmoke, Form: "drop / drop 2", Help: "leave the readings I asked about out", Example: "drop", Fields: []Field{{Name: "Which", Example: "2", Optional: true}}, Run: (*Turn).dropReadings},
		{Name: "strike", Group: groupMend, Form: "strike 3 14:30 / strike 3 file", Help: "strike out a reading: the last, that of a time, or a file's", Example: "strike 1 14:30", Batch: true, Run: (*Turn).strike},
	}
}

// reading logs what a line such as "pit 148 core 121 at 14:30" says, after the
// batch and piece it names.
func (t *Turn) reading(word, args string) (reply.Reply, error) {
	of, text := t.readingOf(word, args)
	list, err := parse.Readings(text, t.tempUnit(), t.Now)
	fits := hot
	if slices.ContainsFunc(list, func(r parse.Reading) bool { return r.Pit != nil }) {
		fits = func(s course.State) bool { return s.AnyIn(course.InSmoke) } // a pit is of what hangs in it
	}
	p, no := t.which(word, of, fits)
	if of == "" {
		no = withValue(no, args)
	}
	if err = cmp.Or(no, err); err != nil {
		return reply.Reply{}, err
	}
	if m := pitAndC.FindStringSubmatch(text); m != nil {
		if _, ok := p.State.Find("c"); ok {
			return reply.Reply{}, &Error{Kind: BadInput, Why: fmt.Sprintf("Is C the core, or piece c of %s? Nothing was noted.", name(p.State)), Understood: "a pit of " + m[1] + m[4],
				Example: fmt.Sprintf("%d pit %s core c %s", p.State.Number, m[1]+m[4], m[2]+m[3])}
		}
	}
	return t.take(p.State, p.Letter, list)
}

// readingOf parts the batch a line names from the reading. A number alone is the
// temperature: in "core 121" there is no batch.
func (t *Turn) readingOf(word, args string) (of, reading string) {
	said := func(rest string) string {
		if word == "temp" {
			return rest
		}
		return word + " " + rest
	}
	ref, rest, ok, err := parse.Batch(args)
	if err != nil || !ok || rest == "" {
		return "", said(args)
	}
	_, part := parse.Readings(said(rest), t.tempUnit(), t.Now)
	_, whole := parse.Readings(said(args), t.tempUnit(), t.Now)
	_, missing := t.Tx.Batch(t.Conv.ID, ref.Number)
	if part != nil && (whole == nil || missing != nil) || whole == nil && missing != nil && !gluedPiece.MatchString(args) {
		return "", said(args) // "pit 62 a 14 b 16" is of no batch 62
	}
	return fmt.Sprintf("%d%s", ref.Number, ref.Piece), said(rest)
}

var gluedPiece = regexp.MustCompile(`(?i)^\s*(?:batch\s+|#)|^\s*\d+[a-z]\b`)

// take checks readings and logs them, or asks about them first.
func (t *Turn) take(s course.State, letter string, list []parse.Reading) (reply.Reply, error) {
	if err := t.permit(logs, s); err != nil {
		return reply.Reply{}, err
	}
	if err := ended(s); err != nil {
		return reply.Reply{}, err
	}
	if !hot(s) {
		return reply.Reply{}, t.notHot(s, letter, "")
	}
	if letter == "" {
		letter = onlyHot(s)
	}
	for i, r := range list {
		if r.Piece == "" && r.Core != nil {
			list[i].Piece = letter
		}
		if list[i].Piece != "" {
			if _, ok := s.Find(list[i].Piece); !ok {
				return reply.Reply{}, &Error{Kind: NoSuch, Why: fmt.Sprintf("%s has no piece %s; it has %s.", name(s), list[i].Piece, letters(s)), Example: fmt.Sprintf("core %d%s 121", s.Number, s.Pieces[0].Letter)}
			}
		}
		if p, _ := s.Find(list[i].Piece); list[i].Piece != "" && !p.Has(course.Smoking) {
			return reply.Reply{}, t.notHot(s, p.Letter, "")
		}
		if err := t.happened(s, r.At); err != nil {
			return reply.Reply{}, err
		}
		if err := t.possible(r); err != nil {
			return reply.Reply{}, err
		}
	}
	if odd := t.odd(s, list); odd != "" {
		return t.askAbout(s, list, odd)
	}
	return t.log(s, list, "")
}

// possible refuses a temperature that no smokehouse has.
func (t *Turn) possible(r parse.Reading) error {
	if r.Core != nil {
		_, err := curemath.DangerZone([]curemath.CoreReading{{At: r.At, Temp: *r.Core}}, r.At)
		if err := t.impossible(err, "core", *r.Core); err != nil {
			return err
		}
	}
	if r.Pit != nil && (*r.Pit < -60 || *r.Pit > 700) {
		return t.impossible(curemath.ReadingError{Kind: curemath.ReadingImplausible}, "pit", *r.Pit)
	}
	return nil
}

func (t *Turn) impossible(err error, what string, at curemath.Fahrenheit) error {
	var bad curemath.ReadingError
	if !errors.As(err, &bad) {
		return err
	}
	return &Error{Kind: BadInput, Why: fmt.Sprintf("A %s of %s can't be; nothing was noted.%s", what, t.units().temp(at), t.unitFits(at, frozen, mostCore)), Example: t.exampleReading()}
}

// readingsText names readings, or how many they are.
func (t *Turn) readingsText(list []parse.Reading) string {
	if len(list) > 3 {
		return count(len(list), "reading")
	}
	var all []string
	for _, r := range list {
		text := readingText(course.Body{Pit: r.Pit, Core: r.Core}, t.units())
		if r.Piece != "" {
			text = r.Piece + " " + text
		}
		all = append(all, text+" at "+r.At.In(t.Loc).Format("Mon 15:04"))
	}
	return strings.Join(all, "; ")
}

// log writes readings down and answers with what they show; file is where they
// came from, if not from what was typed.
func (t *Turn) log(s course.State, list []parse.Reading, file string) (reply.Reply, error) {
	for _, r := range list {
		if err := t.write(s.Batch, r.Piece, course.Reading, r.At, course.Body{Pit: r.Pit, Core: r.Core, Text: file}); err != nil {
			return reply.Reply{}, err
		}
	}
	s, err := replan(t.Tx, t.Conv, t.Loc, s.Batch)
	if err != nil {
		return reply.Reply{}, err
	}
	return t.smokeAnswer(s, list)
}

// readingText says what a reading was.
func readingText(b course.Body, u units) string {
	var list []string
	if b.Pit != nil {
		list = append(list, "pit "+u.temp(*b.Pit))
	}
	if b.Core != nil {
		list = append(list, "core "+u.temp(*b.Core))
	}
	return strings.Join(list, ", ")
}
