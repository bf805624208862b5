package bot

import (
	"fmt"
	"time"

	"larderhand/bot/chart"
	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func chartCommands() []Command {
	return []Command{
		{Name: "chart", Also: []string{"graph", "picture"}, Group: groupLook, Form: "chart 3", Help: "a picture of the smoke, or of the cure while it lasts", Example: "chart 1", Batch: true, Reads: true, Run: (*Turn).chart},
		{Name: "calendar", Group: groupLook, Form: "calendar", Help: "a picture of all running batches", Example: "calendar", Reads: true, Run: (*Turn).calendar},
	}
}

// style is how a conversation likes its pictures.
func (t *Turn) style() chart.Style {
	m := t.units() == metric
	return chart.Style{Dark: t.Conv.Settings.Named[picturesSetting] == "dark", Fahrenheit: !m, Inches: !m, Zone: t.Loc}
}

const picturesSetting = "pictures"

func (t *Turn) chart(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("chart", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	file, err := t.smokePicture(s, true)
	if err != nil {
		return r, err
	}
	if file == nil {
		if file, err = t.curePicture(s, p.Letter); err != nil {
			return r, err
		}
	}
	if file == nil {
		return r, &Error{Kind: NotNow, Why: fmt.Sprintf("%s has nothing to draw yet: no reading of the smoke, and no thickness for the cure.", name(s)), Example: fmt.Sprintf("thick %d %s", s.Number, t.exampleThickness())}
	}
	r.Say(file.Alt)
	r.Files = []reply.File{*file}
	return r, nil
}

// smokePicture draws a batch's smoke, with what was noted in it unless others are to
// see it; nil if nothing was read.
func (t *Turn) smokePicture(s course.State, notes bool) (*reply.File, error) {
	data := t.smokeData(s, notes)
	n := len(data.Pit)
	for _, p := range data.Pieces {
		n += len(p.Core)
	}
	if n == 0 {
		return nil, nil
	}
	png, err := chart.Smoke(data, t.style())
	if err != nil {
		return nil, err
	}
	return &reply.File{Name: fmt.Sprintf("batch-%d-smoke.png", s.Number), Type: "image/png", Alt: name(s) + ": pit and core.", Data: png}, nil
}

func (t *Turn) smokeData(s course.State, notes bool) chart.SmokeData {
	d := chart.SmokeData{Batch: s.Number, Flavour: flavours(s), Target: s.Target().Celsius(), Ceiling: s.Ceiling().Celsius(), Share: 80}
	for _, r := range s.Pits() {
		d.Pit = append(d.Pit, chart.Reading{At: r.At, Temp: r.Temp.Celsius()})
	}
	for _, p := range s.Pieces {
		piece := chart.SmokePiece{Ref: p.Letter, Name: p.Flavouring}
		for _, r := range course.Since(s.Cores(p.Letter), p.Marks[course.Smoking].At) {
			piece.Core = append(piece.Core, chart.Reading{At: r.At, Temp: r.Temp.Celsius()})
		}
		if next, ok := p.Next(); ok && next.Step == course.Smoked {
			if low, typical, high, ok := s.Finish(p.Letter); ok {
				piece.Finish = chart.Finish{Low: low, Typical: typical, High: high}
			}
		}
		d.Pieces = append(d.Pieces, piece)
	}
	for _, p := range s.Pieces {
		if stall, ok := s.Stall(p.Letter); ok {
			d.Events = append(d.Events, chart.Event{Kind: chart.Stalled, At: stall.From, Until: stall.To})
		}
	}
	for _, l := range s.Log {
		switch course.Step(l.Kind) {
		case course.Smoking:
			d.Events = append(d.Events, chart.Event{Kind: chart.Noted, At: l.At, Note: "smoke started"})
		case course.Smoked:
			d.Events = append(d.Events, chart.Event{Kind: chart.Noted, At: l.At, Note: "out of the smoke" + letterIf(s, l.Piece)})
		}
		if notes && l.Kind == course.Note && s.InSmokeAt(l.At) {
			d.Events = append(d.Events, chart.Event{Kind: noteKind(l.Body.Text), At: l.At, Note: clip(l.Body.Text, 40)})
		}
	}
	return d
}

// curePicture draws how far the salt has come into a piece; nil if its thickness is
// not known.
func (t *Turn) curePicture(s course.State, letter string) (*reply.File, error) {
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter {
			continue
		}
		c, ok := t.curing(s, p.Piece)
		if !ok {
			continue
		}
		data, err := t.cureData(s, p.Piece, c)
		if err != nil {
			return nil, err
		}
		png, err := chart.Progress(data, t.style())
		if err != nil {
			return nil, err
		}
		return &reply.File{Name: fmt.Sprintf("batch-%d%s-cure.png", s.Number, letterOnly(s, p.Letter)), Type: "image/png",
			Alt: t.pieceName(s, p.Letter) + ": salt on its way in, an estimate. The day rule and firmness decide.", Data: png}, nil
	}
	return nil, nil
}

// profilePoints is how many places across a slab are drawn.
const profilePoints = 41

func (t *Turn) cureData(s course.State, p store.Piece, c curemath.Course) (chart.ProgressData, error) {
	today := int(t.Now.Sub(s.Opened) / (24 * time.Hour))
	d := chart.ProgressData{Batch: s.Number, Flavour: p.Flavouring, Piece: letterOnly(s, p.Letter), Thickness: p.Thickness, RindOn: p.RindOn, Today: today}
	days := []int{max(today, 1), max(today, 1) + 2, s.DaysOf(p.Letter)}
	last := 0
	for _, day := range days {
		if day <= last {
			continue
		}
		last = day
		profile, err := curemath.CureProfile(c, time.Duration(day)*24*time.Hour, profilePoints)
		if err != nil {
			return d, err
		}
		shares := make([]float64, len(profile))
		for i, pt := range profile {
			shares[i] = pt.Share.Typical.Proportion()
		}
		d.Profiles = append(d.Profiles, chart.Profile{Day: day, Share: shares})
	}
	now, err := curemath.CureProgress(c, t.Now.Sub(s.Opened))
	if err != nil {
		return d, err
	}
	d.Slowest = chart.Slowest{Low: now.Centre.Low.Proportion(), Typical: now.Centre.Typical.Proportion(), High: now.Centre.High.Proportion()}
	return d, nil
}

func (t *Turn) calendar(string) (reply.Reply, error) {
	var r reply.Reply
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	if len(open) == 0 {
		return r, &Error{Kind: NoSuch, Why: "No batch is running, so there is nothing to draw.", Example: "5 lb juniper 1.5 in"}
	}
	d := chart.CalendarData{Now: t.Now}
	for _, s := range open {
		row := chart.CalendarRow{Batch: s.Number, Flavour: flavours(s), Spans: t.spans(s)}
		chores, err := t.Tx.Chores(s.ID)
		if err != nil {
			return r, err
		}
		for _, c := range chores {
			if c.State == store.StateDue || c.State == store.StateRetry {
				row.Next = chart.Due{What: choreWord(c.Kind), At: c.Due}
				break
			}
		}
		d.Rows = append(d.Rows, row)
	}
	png, err := chart.Calendar(d, t.style())
	if err != nil {
		return r, err
	}
	r.Say(batchCount(len(open)), " at a glance.")
	r.Files = []reply.File{{Name: "calendar.png", Type: "image/png", Alt: "All running batches.", Data: png}}
	return r, nil
}

func choreWord(kind string) string {
	switch kind {
	case course.Flip:
		return "flip"
	case string(course.Firm):
		return "cure check"
	case course.AskReading, course.NearlyThere:
		return "reading"
	case course.WindowCloses, course.WindowOver:
		return "cooling"
	case course.AskTaste:
		return "taste"
	case course.UseByFridge, course.UseByFrozen:
		return "use by"
	}
	return kind
}

// spans are the times a batch has spent in its stages, with the cure's planned
// end.
func (t *Turn) spans(s course.State) []chart.Span {
	at := func(step course.Step) time.Time {
		var first time.Time
		for _, p := range s.Pieces {
			if m, ok := p.Marks[step]; ok && !m.Skipped && (first.IsZero() || m.At.Before(first)) {
				first = m.At
			}
		}
		return first
	}
	starts := []struct {
		stage chart.Stage
		at    time.Time
	}{{chart.Curing, s.Opened}, {chart.Drying, at(course.Drying)}, {chart.Smoking, at(course.Smoking)}, {chart.Cooling, at(course.Smoked)}, {chart.Packed, at(course.Packed)}}
	var out []chart.Span
	for _, st := range starts {
		if st.at.IsZero() {
			continue
		}
		if n := len(out); n > 0 {
			out[n-1].To = st.at
		}
		out = append(out, chart.Span{Stage: st.stage, From: st.at})
	}
	if len(out) == 1 {
		out[0].To = s.Opened.AddDate(0, 0, s.Days())
	}
	return out
}
