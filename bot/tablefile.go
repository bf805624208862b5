package bot

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// mostRows is how many rows of a thermometer's file are kept; a file with more is
// thinned to one row in so many minutes.
const mostRows = 300

// tableIn is the thermometer's table that came with a message.
func tableIn(m Message) (reply.File, bool) {
	for _, f := range m.Files {
		kind, _, _ := strings.Cut(f.Type, ";")
		switch strings.ToLower(path.Ext(f.Name)) {
		case ".csv", ".tsv", ".txt":
			return f, true
		}
		if kind == "text/csv" || kind == "text/tab-separated-values" {
			return f, true
		}
	}
	return reply.File{}, false
}

// table reads a thermometer's file and shows back what was understood; nothing
// counts before the person says so.
func (t *Turn) table(line string) (reply.Reply, error) {
	file, _ := tableIn(t.Msg)
	p, err := t.which("temp", t.tableOf(line), hot)
	if err != nil {
		return reply.Reply{}, err
	}
	s := p.State
	if err := t.permit(logs, s); err != nil {
		return reply.Reply{}, err
	}
	if err := ended(s); err != nil {
		return reply.Reply{}, err
	}
	if !hot(s) {
		return reply.Reply{}, t.notHot(s, p.Letter, ", so I keep no readings of it")
	}
	if p.Letter == "" {
		p.Letter = onlyHot(s)
	}
	table, err := parse.ReadingsCSV(file.Data, t.tempUnit(), t.Now)
	var bad *parse.Problem
	if errors.As(err, &bad) {
		return reply.Reply{}, &Error{Kind: BadInput, Why: fmt.Sprintf("%s: %s A row of headings such as “time, pit, core” and a row for each reading such as “14:00, 148, 121” would do.", clip(path.Base(file.Name), 40), sentence(bad.Why)),
			Example: fmt.Sprintf("%d %s", s.Number, t.exampleReading())}
	}
	if err != nil {
		return reply.Reply{}, err
	}
	rows, remarks, err := t.sift(s, p.Letter, table.Rows)
	if err != nil {
		return reply.Reply{}, err
	}
	if len(rows) == 0 {
		return reply.Reply{}, &Error{Kind: BadInput, Why: fmt.Sprintf("Nothing in that file is new for %s. %s", name(s), strings.Join(remarks, " ")), Example: fmt.Sprintf("%d %s", s.Number, t.exampleReading())}
	}
	asked, others, err := t.setAside(pending{Batch: s.Number, Readings: rows, File: clip(path.Base(file.Name), 60)})
	if err != nil {
		return reply.Reply{}, err
	}
	r := t.preview(s, asked, table, remarks)
	t.sayQuestion(&r, asked, others)
	return r, nil
}

// tableOf takes the word for a reading off what was typed with the file, so that
// "temp 3", "batch 3" and "3" all name the batch.
func (t *Turn) tableOf(line string) string {
	if cmd, args, found := t.bot.find(line); found && cmd.Batch {
		line = args
	}
	return line
}

// sift drops the rows of a table that can't be of this smoke, and says how many. A row
// of a piece that is not in the smoke refuses the table, as the same row typed would be
// refused: what warms in its cure is not passed over.
func (t *Turn) sift(s course.State, letter string, list []parse.Reading) (rows []parse.Reading, remarks []string, err error) {
	var early, late, known, strange, impossibles int
	start := t.smokeStart(s)
	for _, r := range list {
		if r.Piece == "" && r.Core != nil {
			r.Piece = letter
		}
		p, ours := s.Find(r.Piece)
		switch {
		case r.Piece != "" && !ours:
			strange++
		case r.At.Before(start):
			early++
		case r.At.After(t.Now.Add(time.Minute)):
			late++
		case r.Piece != "" && !p.Has(course.Smoking):
			return nil, nil, t.notHot(s, p.Letter, ", so I keep no readings of it")
		case t.possible(r) != nil:
			impossibles++
		case noted(s, r):
			known++
		default:
			rows = append(rows, r)
		}
	}
	note := func(n int, why string) {
		if n > 0 {
			remarks = append(remarks, count(n, "reading")+" "+why+": left out.")
		}
	}
	note(early, "from before the smoke")
	note(late, "later than now")
	note(strange, fmt.Sprintf("of pieces %s does not have", name(s)))
	note(impossibles, "that can't be")
	note(known, "already noted")
	if odd := t.odd(s, rows); odd != "" {
		remarks = append(remarks, odd)
	}
	rows, step := thinned(rows)
	if step > 0 {
		remarks = append(remarks, fmt.Sprintf("So many that I keep one row in %s.", howLong(step)))
	}
	return rows, remarks, nil
}

// noted says whether a reading of that instant is in the journal already.
func noted(s course.State, r parse.Reading) bool {
	return slices.ContainsFunc(s.Log, func(l course.Log) bool {
		return l.Kind == course.Reading && l.At.Equal(r.At) && l.Piece == r.Piece && (l.Body.Pit != nil) == (r.Pit != nil) && (l.Body.Core != nil) == (r.Core != nil)
	})
}

// thinned keeps the first row in each step of time, and the last of all; step is
// zero if all were kept.
func thinned(rows []parse.Reading) (kept []parse.Reading, step time.Duration) {
	times := 0
	for i, r := range rows {
		if i == 0 || !r.At.Equal(rows[i-1].At) {
			times++
		}
	}
	if times <= mostRows {
		return rows, 0
	}
	span := rows[len(rows)-1].At.Sub(rows[0].At)
	for _, step = range []time.Duration{time.Minute, 2 * time.Minute, 5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 6 * time.Hour} {
		if span/step < mostRows {
			break
		}
	}
	var first time.Time
	bucket := int64(-1)
	for _, r := range rows {
		if b := r.At.Unix() / int64(step/time.Second); b != bucket {
			bucket, first = b, r.At
		}
		if r.At.Equal(first) || r.At.Equal(rows[len(rows)-1].At) {
			kept = append(kept, r)
		}
	}
	return kept, step
}

// preview shows back how a file was understood.
func (t *Turn) preview(s course.State, p pending, table parse.Table, remarks []string) reply.Reply {
	var r reply.Reply
	first, last := p.Readings[0].At, p.Readings[len(p.Readings)-1].At
	head := []any{reply.B(name(s)), ", ", p.File, ": ", count(len(p.Readings), "reading"), ", ", t.dayHour(first)}
	if last.After(first) {
		head = append(head, " to ", t.clock(last))
	}
	r.Say(append(head, ".")...)
	r.Say("Columns: ", t.columnsText(table.Columns), ".")
	r.Table(t.ends(p.Readings))
	rest := append(remarks, table.Remarks...)
	if len(rest) > 0 {
		r.Par(strings.Join(rest, " "))
	}
	return r
}

func (t *Turn) columnsText(columns []parse.Column) string {
	var used, unused []string
	for i, c := range columns {
		n := "column " + fmt.Sprint(i+1)
		if c.Name != "" {
			n = "“" + clip(c.Name, 24) + "”"
		}
		unit := map[parse.TempUnit]string{parse.FahrenheitUnit: " in °F", parse.CelsiusUnit: " in °C"}[c.Unit]
		switch c.Role {
		case parse.TimeColumn, parse.DateColumn:
			used = append(used, n+" when")
		case parse.PitColumn:
			used = append(used, n+" pit"+unit)
		case parse.CoreColumn:
			used = append(used, strings.TrimSpace(n+" core "+c.Piece)+unit)
		default:
			unused = append(unused, n)
		}
	}
	text := strings.Join(used, ", ")
	if len(unused) > 0 {
		text += "; not used: " + strings.Join(unused[:min(len(unused), 4)], ", ")
	}
	return text
}

// ends is a table of the first and the last row.
func (t *Turn) ends(rows []parse.Reading) [][]string {
	heads := []string{"pit"}
	for _, r := range rows {
		if h := coreHead(r); r.Core != nil && !slices.Contains(heads, h) {
			heads = append(heads, h)
		}
	}
	slices.Sort(heads[1:])
	line := func(at time.Time) []string {
		cells := make([]string, len(heads)+1)
		cells[0] = at.In(t.Loc).Format("Mon 15:04")
		put := func(head string, f *curemath.Fahrenheit) {
			if i := slices.Index(heads, head); f != nil && i >= 0 {
				cells[i+1] = t.units().temp(*f)
			}
		}
		for _, r := range rows {
			if r.At.Equal(at) {
				put("pit", r.Pit)
				put(coreHead(r), r.Core)
			}
		}
		return cells
	}
	out := [][]string{append([]string{""}, heads...), line(rows[0].At)}
	if last := rows[len(rows)-1].At; !last.Equal(rows[0].At) {
		out = append(out, line(last))
	}
	return out
}

func coreHead(r parse.Reading) string { return strings.TrimSpace("core " + r.Piece) }
