package bot

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// strike strikes a reading out: the one told last, or the one of a time.
func (t *Turn) strike(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("strike", args, hot)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(logs, s); err != nil {
		return r, err
	}
	if strings.EqualFold(strings.TrimSpace(p.Rest), "file") {
		return t.strikeFile(s)
	}
	var at time.Time
	if text := strings.TrimPrefix(strings.TrimSpace(p.Rest), "at "); text != "" && !strings.EqualFold(text, "last") {
		if at, err = parse.Past(text, t.Now); err != nil {
			return r, offering(err, fmt.Sprintf("strike %d", s.Number))
		}
	}
	for i := len(s.Log) - 1; i >= 0; i-- {
		l := s.Log[i]
		if l.Kind != course.Reading || p.Letter != "" && l.Piece != p.Letter {
			continue
		}
		if !at.IsZero() && !l.At.Truncate(time.Minute).Equal(at.Truncate(time.Minute)) {
			continue
		}
		line := []course.Log{l}
		if p.Letter == "" {
			line = toldWith(s.Log, l)
		}
		if s, err = t.strikeOut(s, line, t.struckText(line)); err != nil {
			return r, err
		}
		r.Say(reply.B(name(s)), ": struck out ", t.struckText(line), " of ", t.dayHour(l.At), ". Was it right after all? ", reply.Type(fmt.Sprintf("undo %d", s.Number)))
		if rest, err := t.smokeAnswer(s, nil); err == nil {
			r.Append(rest)
		}
		return r, nil
	}
	e := &Error{Kind: NoSuch, Why: name(s) + " has no reading to strike out.", Example: fmt.Sprintf("batch %d", s.Number)}
	if !at.IsZero() {
		e.Why = fmt.Sprintf("%s has no reading of %s.", name(s), at.In(t.Loc).Format("Mon 2 Jan 15:04"))
	}
	return r, e
}

// toldWith are the readings told in one line with the last of them, of the same time.
// No line reads a piece twice at one time, so where a piece comes again another line
// ends.
func toldWith(log []course.Log, last course.Log) []course.Log {
	list := []course.Log{last}
	seen := map[string]bool{last.Piece: true}
	for i := slices.IndexFunc(log, func(l course.Log) bool { return l.ID == last.ID }) - 1; i >= 0; i-- {
		l := log[i]
		if l.Kind != course.Reading || !l.Recorded.Equal(last.Recorded) || !l.At.Equal(last.At) || l.Member != last.Member || seen[l.Piece] {
			break
		}
		seen[l.Piece] = true
		list = append([]course.Log{l}, list...)
	}
	return list
}

func (t *Turn) struckText(list []course.Log) string {
	var all []string
	for _, l := range list {
		all = append(all, strings.TrimSpace(l.Piece+" "+readingText(l.Body, t.units())))
	}
	return strings.Join(all, ", ")
}

// strikeFile strikes out every reading that came in the last file.
func (t *Turn) strikeFile(s course.State) (reply.Reply, error) {
	var r reply.Reply
	file := ""
	var rows []course.Log
	for i := len(s.Log) - 1; i >= 0; i-- {
		l := s.Log[i]
		if l.Kind != course.Reading || l.Body.Text == "" || file != "" && l.Body.Text != file {
			continue
		}
		file = l.Body.Text
		rows = append(rows, l)
	}
	n := len(rows)
	if n == 0 {
		return r, &Error{Kind: NoSuch, Why: name(s) + " has no readings from a file.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	s, err := t.strikeOut(s, rows, file)
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": struck out the ", count(n, "reading"), " of ", file, ".")
	if rest, err := t.smokeAnswer(s, nil); err == nil {
		r.Append(rest)
	}
	return r, nil
}

// strikeOut strikes readings out and notes which, so that undo can bring them back.
func (t *Turn) strikeOut(s course.State, list []course.Log, what string) (course.State, error) {
	var ids []string
	for _, l := range list {
		if err := t.Tx.Strike(l.ID, t.Me.ID); err != nil {
			return s, err
		}
		ids = append(ids, strconv.FormatInt(l.ID, 10))
	}
	return t.record(s.Batch, list[0].Piece, course.Struck, t.Now, course.Body{Text: what, Extra: map[string]string{"entries": strings.Join(ids, " ")}})
}

// bringBack makes struck readings count again.
func (t *Turn) bringBack(struck course.Log) error {
	for _, id := range strings.Fields(struck.Body.Extra["entries"]) {
		n, err := strconv.ParseInt(id, 10, 64)
		if err != nil {
			return fmt.Errorf("entry %d names %q: %w", struck.ID, id, err)
		}
		if err := t.Tx.Unstrike(struck.Batch, n); err != nil {
			return err
		}
	}
	return nil
}
