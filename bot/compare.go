package bot

import (
	"errors"
	"fmt"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func compareCommands() []Command {
	return []Command{
		{Name: "compare", Also: []string{"versus", "vs"}, Own: true, Group: groupTaste, Form: "compare 3 5 / compare 3a 3b", Help: "two batches, or two pieces of one, side by side", Example: "compare 1 2", Reads: true,
			Fields: []Field{{Name: "One", Example: "3", Suggest: SuggestBatch}, {Name: "Other", Example: "5", Optional: true, Suggest: SuggestBatch}}, Run: (*Turn).compare},
		{Name: "changed", Also: []string{"changes"}, Own: true, Group: groupTaste, Form: "changed 5", Help: "what changed since last time", Example: "changed 2", Batch: true, Reads: true, Run: (*Turn).changed},
	}
}

// side is one of the two things compared.
type side struct {
	state  course.State
	letter string // empty: the batch as a whole
}

func (s side) title() string {
	return fmt.Sprintf("%d%s", s.state.Number, s.letter)
}

// piece is the piece whose own figures stand for a side.
func (s side) piece() course.PieceState {
	if p, ok := s.state.Find(s.letter); ok {
		return p
	}
	return s.state.Pieces[0]
}

// compare sets two batches, or pieces, side by side.
func (t *Turn) compare(args string) (reply.Reply, error) {
	var r reply.Reply
	one, other, err := t.sides(args)
	if err != nil {
		return r, err
	}
	rows := [][]string{{"", one.title(), other.title()}}
	for _, f := range t.figures(one, other) {
		rows = append(rows, []string{f.what, orElse(f.one, "–"), orElse(f.other, "–")})
	}
	r.Say(reply.B(t.sideName(one)), " and ", reply.B(t.sideName(other)), ":")
	r.Table(rows)
	t.sayRemarks(&r, one)
	t.sayRemarks(&r, other)
	return r, nil
}

func (t *Turn) sideName(s side) string {
	if s.letter == "" || len(s.state.Pieces) == 1 {
		return name(s.state)
	}
	return t.pieceName(s.state, s.letter)
}

// changed says what is different from last time, and how that was scored.
func (t *Turn) changed(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("changed", args, nil)
	if err != nil {
		return r, err
	}
	last, why, err := t.before(p.State)
	if errors.Is(err, store.ErrNotFound) {
		return r, &Error{Kind: NotNow, Why: fmt.Sprintf("%s is the first of its kind here; there is no last time.", name(p.State)), Example: "compare 1 2"}
	}
	if err != nil {
		return r, err
	}
	now := side{p.State, p.Letter}
	rows := [][]string{{"", fmt.Sprint("last, ", last.Number), fmt.Sprint("now, ", p.State.Number)}}
	same := 0
	for _, f := range t.figures(side{last, ""}, now) {
		switch {
		case f.one == "" || f.other == "":
		case f.one == f.other:
			same++
		default:
			rows = append(rows, []string{f.what, f.one, f.other})
		}
	}
	r.Say(reply.B(t.sideName(now)), " against last time, ", reply.B(name(last)), " (", why, "):")
	if len(rows) == 1 {
		r.Say("Nothing that is known of both is different; ", count(same, "figure"), " the same.")
		return r, nil
	}
	r.Table(rows)
	r.Par("The same: ", count(same, "figure"), ". All of them: ", reply.Type(fmt.Sprintf("compare %d %d", last.Number, p.State.Number)))
	return r, nil
}

// shownFigure is one line of a comparison.
type shownFigure struct{ what, one, other string }

// figures are what is known of two sides, by line; empty where it is not.
func (t *Turn) figures(one, other side) []shownFigure {
	var out []shownFigure
	add := func(what string, of func(side) string) {
		f := shownFigure{what, of(one), of(other)}
		if f.one != "" || f.other != "" {
			out = append(out, f)
		}
	}
	add("flavouring", func(s side) string {
		if s.letter != "" {
			return s.piece().Flavouring
		}
		return flavours(s.state)
	})
	add("recipe", func(s side) string { return s.state.Plan.Recipe })
	add("cure", func(s side) string { return orElse(s.state.Plan.Method, curemath.DryRub.String()) })
	add("salt", func(s side) string { return percent(s.state.Plan.Salt) })
	add("sugar", func(s side) string { return percent(s.state.Plan.Sugar) })
	add("nitrite", func(s side) string { return ppm(s.piece().Ingoing) })
	add("fresh", func(s side) string { return t.units().meat(greenOf(s.state, s.letter)) })
	add("thickness", func(s side) string {
		if s.piece().Thickness == 0 {
			return ""
		}
		return t.units().thickness(s.piece().Thickness)
	})
	add("days in cure", t.daysCured)
	add("flips", func(s side) string { return fmt.Sprint(len(s.state.Flips)) })
	add("seasoning", func(s side) string { return clip(seasoned(s.piece()), 30) })
	add("smoke", func(s side) string {
		if h := smokeHours(s.state, s.piece().Letter); h > 0 {
			return trim(h, 1) + " h"
		}
		return ""
	})
	add("pit, highest", t.hottestPit)
	add("core at the end", func(s side) string {
		if c, ok := coreAtSmoked(s.state, s.piece().Letter); ok {
			return t.units().temp(c.Temp)
		}
		return ""
	})
	add("yield", yieldText)
	for _, q := range qualities() {
		add(q.name+", by taste", func(s side) string {
			mean, n := scoresOf(s.state, s.letter, q.name).mean()
			if n == 0 {
				return ""
			}
			return fmt.Sprintf("%s (%d)", trim(mean, 1), n)
		})
	}
	return out
}

// daysCured is how long a side was in its cure, from its start to the rinse.
func (t *Turn) daysCured(s side) string {
	p := s.piece()
	for _, step := range []course.Step{course.Rinsed, course.Firm} {
		if m, ok := p.Marks[step]; ok && !m.Skipped {
			return trim(m.At.Sub(s.state.Opened).Hours()/24, 1)
		}
	}
	return ""
}

func (t *Turn) hottestPit(s side) string {
	var top curemath.Fahrenheit
	for _, p := range s.state.Pits() {
		top = max(top, p.Temp)
	}
	if top == 0 {
		return ""
	}
	return t.units().temp(top)
}

func yieldText(s side) string {
	for _, w := range weighings(s.state, s.letter) {
		if w.Stage == curemath.WeighedSliced {
			return trim(float64(w.Weight/greenOf(s.state, s.letter))*100, 1) + " %"
		}
	}
	return ""
}

// sayRemarks writes the notes and remarks of a side, the newest few.
func (t *Turn) sayRemarks(r *reply.Reply, s side) {
	const most = 4
	var list []string
	for _, l := range s.state.Log {
		if l.Kind != course.Note && l.Kind != course.Taste || l.Body.Text == "" || s.letter != "" && l.Piece != "" && l.Piece != s.letter {
			continue
		}
		list = append(list, t.memberName(l.Member)+": "+clip(l.Body.Text, 120))
	}
	for i, text := range list[max(0, len(list)-most):] {
		if i == 0 {
			r.Par(reply.B("Said of "+s.title()+": "), text)
			continue
		}
		r.Say(text)
	}
}
