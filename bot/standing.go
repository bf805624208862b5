package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// standing says in a few words where a batch stands: "curing, day 4 of 9".
func (t *Turn) standing(s course.State) string {
	stage := s.Stage()
	if stage != course.Curing {
		if s.EndWhy != "" {
			return string(stage) + " (" + s.EndWhy + ")"
		}
		if words := sliceOrPack(s); words != "" {
			return words
		}
		return string(stage)
	}
	if next, _, ok := s.Next(); ok && next.Step != course.Firm {
		return "cured; next: " + next.Ask
	}
	return "curing, " + day(s, t.Now, t.Loc)
}

// sliceOrPack says how far the slicing and packing are, where pieces have got to it.
func sliceOrPack(s course.State) string {
	next, _, ok := s.Next()
	if !ok || next.Stage != course.Cooling {
		return ""
	}
	sliced, packed := 0, 0
	for _, p := range s.Pieces {
		if p.Has(course.Sliced) {
			sliced++
		}
		if p.Has(course.Packed) {
			packed++
		}
	}
	of := fmt.Sprintf(" of %d", len(s.Pieces))
	switch {
	case packed > 0:
		return "being packed: " + fmt.Sprint(packed) + of
	case next.Step == course.Packed:
		return "sliced, to be packed"
	case sliced > 0:
		return "slicing: " + fmt.Sprint(sliced) + of
	case next.Step == course.Sliced:
		return "to be sliced"
	}
	return ""
}

// sayNext says what comes next for a batch, with its button.
func (t *Turn) sayNext(r *reply.Reply, s course.State) error {
	if s.End != "" {
		return nil
	}
	t.sayNoStep(r, s)
	next, pieces, ok := t.goesOn(s).Next()
	if !ok {
		return nil
	}
	if next.Step != course.Firm {
		sayNextStep(r, s, next, pieces)
	}
	return t.sayNextPing(r, s)
}

// sayNextAfter says what comes next after a step of some pieces, "" for all: of those
// first, where others of the batch lag behind them.
func (t *Turn) sayNextAfter(r *reply.Reply, s course.State, of []string) error {
	all := t.goesOn(s)
	those := all
	if s.End == "" && len(of) > 0 && of[0] != "" {
		those.Pieces = slices.DeleteFunc(slices.Clone(all.Pieces), func(p course.PieceState) bool { return !slices.Contains(of, p.Letter) })
	}
	first, _, _ := all.Next()
	if next, pieces, ok := those.Next(); ok && next.Step != first.Step && next.Step != course.Firm {
		sayNextStep(r, s, next, pieces)
	}
	return t.sayNext(r, s)
}

// sayNextStep says the step pieces wait for, with its button.
func sayNextStep(r *reply.Reply, s course.State, next course.Info, pieces []string) {
	of := ""
	if n := pieceNames(s, strings.Join(pieces, "")); n != "" {
		of = n + ": "
	}
	r.Say("Next: ", of, stop(next.Ask))
	sayHow(r, next, s, pieces)
	target := targetOf(s, next.Step, pieces)
	buttons := []reply.Button{{Label: next.Press, Line: fmt.Sprintf("%s %s", next.Step, target), Version: s.Version}}
	if next.Step == course.Fried {
		buttons = append(buttons, reply.Button{Label: "Too salty", Line: fmt.Sprintf("fry %s too salty", target), Version: s.Version})
	}
	r.Press(buttons...)
}

// sayNextPing says when the person hears from us next about a batch.
func (t *Turn) sayNextPing(r *reply.Reply, s course.State) error {
	chores, err := t.Tx.Chores(s.ID)
	if err != nil {
		return err
	}
	for _, c := range chores {
		if c.State != "due" && c.State != "retry" {
			continue
		}
		if !c.Due.After(t.Now) {
			r.Say("A ping is on its way.")
			return nil
		}
		r.Say("I'll ", pingFor(c.Kind), " ", t.dayHour(c.Due), ".")
		return nil
	}
	return nil
}

// pingFor says what a ping of a kind is for, after "I'll".
func pingFor(kind string) string {
	switch kind {
	case course.Flip:
		return "ping you for the next flip"
	case course.Rub:
		return "ping you for the next rub"
	case string(course.Firm):
		return "ping you for the cure check"
	case course.AskReading:
		return "ask for a reading"
	case course.NearlyThere:
		return "say when it should be nearly there,"
	case string(course.Smoked):
		return "ask whether it is done"
	case string(course.Cooled):
		return "ask for the core"
	case course.WindowCloses, course.WindowOver:
		return "ask for the core before its cooling time is up,"
	case course.AskTaste:
		return "ask how it tastes"
	case course.UseByFridge, course.UseByFrozen:
		return "remind you of the use-by date"
	}
	return "ask again"
}

func sum(s course.State) curemath.Grams {
	var g curemath.Grams
	for _, p := range s.Pieces {
		g += p.Weight
	}
	return g
}

func (t *Turn) units() units { return unitsOf(t.Conv.Settings) }

func (t *Turn) tempUnit() parse.TempUnit {
	if t.units() == metric {
		return parse.CelsiusUnit
	}
	return parse.FahrenheitUnit
}

// smokeStart is when the first piece still in the smoke went in.
func (t *Turn) smokeStart(s course.State) time.Time {
	var start time.Time
	for _, p := range s.Pieces {
		if m, ok := p.Marks[course.Smoking]; ok && (start.IsZero() || m.At.Before(start)) {
			start = m.At
		}
	}
	return start
}
