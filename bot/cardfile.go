package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/chart"
	"larderhand/bot/course"
)

// cardFile is the summary and the whole journal as plain text, what was struck out
// too.
func (t *Turn) cardFile(s course.State, d chart.SummaryData) (string, error) {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n\n%s\n", name(s), d.Under, d.Caution)
	for _, sec := range d.Sections {
		if len(sec.Facts) == 0 {
			continue
		}
		fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(sec.Title))
		for _, f := range sec.Facts {
			fmt.Fprintf(&b, "  %-16s %s\n", f.Label, f.Value)
		}
	}
	if len(d.Notes) > 0 {
		b.WriteString("\nTASTING NOTES\n")
		for _, n := range d.Notes {
			fmt.Fprintf(&b, "  %s\n", n)
		}
	}
	entries, err := t.Tx.Entries(s.ID)
	if err != nil {
		return "", err
	}
	fmt.Fprintf(&b, "\nJOURNAL (times in %s)\n", t.Loc)
	for _, e := range entries {
		who, err := t.Tx.MemberByID(e.Member)
		if err != nil {
			return "", err
		}
		text := t.journalText(course.Log{Entry: e, Body: course.ReadBody(e.Body)})
		if e.Piece != "" {
			text = e.Piece + ": " + text
		}
		if !e.Struck.IsZero() {
			text += " (struck out)"
		}
		fmt.Fprintf(&b, "  %s  %s, %s\n", e.At.In(t.Loc).Format("Mon 2 Jan 2006 15:04"), text, who.Name)
	}
	b.WriteString("\nAn estimate or a reading makes nothing safe by itself; local food law decides.\n")
	return b.String(), nil
}

// journalText says in full what an entry recorded.
func (t *Turn) journalText(l course.Log) string {
	u := t.units()
	text := entryText(l, t)
	add := func(s string) {
		if s != "" {
			text += ", " + s
		}
	}
	switch l.Kind {
	case course.Opened:
		return "opened, into the cure"
	case course.Note:
		return "note: " + l.Body.Text
	case course.Taste:
		return "tasted: " + tasteText(l.Body)
	case course.Weigh:
		return "weighed " + l.Body.Text + ": " + u.meatExact(l.Body.Weight)
	case course.Cost:
		return "cost " + strings.TrimSpace(l.Body.Extra["cost"]+" "+l.Body.Extra["currency"])
	case course.AimCore:
		return "target set to " + readingText(l.Body, u)
	case course.AimPit:
		return "ceiling set to " + readingText(l.Body, u)
	case course.Struck:
		return "struck out " + l.Body.Text
	case course.Undo:
		return "took back “" + l.Body.Text + "”"
	case course.Hand:
		return "offered to someone else to look after"
	case course.Accept:
		return "took it on"
	case course.Back:
		return "back with its keeper"
	case course.Pings:
		return "pings " + l.Body.Text
	case course.Reading:
		add(l.Body.Text) // the file it came in
		return text
	}
	add(readingText(l.Body, u))
	if l.Body.Weight > 0 {
		add(u.meatExact(l.Body.Weight))
	}
	if l.Body.Slice > 0 {
		add(trim(float64(l.Body.Slice), 1) + " mm slices")
	}
	if l.Body.Frozen {
		add("frozen")
	}
	if l.Kind != course.Undo {
		add(l.Body.Text)
	}
	return text
}
