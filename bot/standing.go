package bot

import (
	"fmt"
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
		return string(stage)
	}
	if next, _, ok := s.Next(); ok && next.Step != course.Firm {
		return "cured; next: " + next.Ask
	}
	return "curing, " + day(s, t.Now, t.Loc)
}

// sayNext says what comes next for a batch, with its button.
func (t *Turn) sayNext(r *reply.Reply, s course.State) error {
	next, pieces, ok := s.Next()
	if !ok {
		return nil
	}
	of := ""
	if n := pieceNames(s, strings.Join(pieces, "")); n != "" {
		of = n + ": "
	}
	if next.Step == course.Firm {
		return t.sayNextPing(r, s)
	}
	r.Say("Next: ", of, stop(next.Ask))
	r.Say(next.How)
	target := fmt.Sprint(s.Number)
	if len(pieces) == 1 && len(s.Pieces) > 1 {
		target += pieces[0]
	}
	buttons := []reply.Button{{Label: next.Press, Line: fmt.Sprintf("%s %s", next.Step, target), Version: s.Version}}
	if next.Step == course.Fried {
		buttons = append(buttons, reply.Button{Label: "Too salty", Line: fmt.Sprintf("fry %s too salty", target), Version: s.Version})
	}
	r.Press(buttons...)
	return t.sayNextPing(r, s)
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

// sayCore says what the core temperature at the end of the smoke means.
func (t *Turn) sayCore(r *reply.Reply, s course.State, body course.Body) {
	u := t.units()
	if body.Core == nil {
		r.Say("No core temperature noted with it, so the label says: cook before eating.")
		return
	}
	if *body.Core < s.Target() {
		r.Say("Core ", u.temp(*body.Core), ", under the ", u.temp(s.Target()), " target: it is raw bacon. Cook before eating.")
		return
	}
	r.Say("Core ", u.temp(*body.Core), ", at the ", u.temp(s.Target()), " target. One reading is no proof of heat treatment; unless your readings show enough, the label says: cook before eating.")
}

// sayPacked says yield, use-by dates and the label.
func (t *Turn) sayPacked(r *reply.Reply, s course.State, letter string, body course.Body, at time.Time) {
	green := sum(s)
	if p, ok := s.Find(letter); ok {
		green = p.Weight
	}
	if body.Weight > 0 {
		r.Say("Packed ", t.units().meatExact(body.Weight), " from ", t.units().meatExact(green), " fresh: ", trim(float64(body.Weight/green)*100, 1), " % yield.")
	}
	if line := t.costLine(s); line != "" {
		r.Say(line)
	}
	t.sayYieldRemarks(r, s, letter)
	fridge, freezer := course.UseBy(at, t.Loc)
	if !body.Frozen {
		r.Say("Keep refrigerated (40 °F, 4 °C): use by ", dateText(fridge), ".")
	}
	r.Say("Frozen (0 °F, −18 °C): best by ", dateText(freezer), "; after that still safe, less good (US cold storage chart).")
	r.Say("Label to print: ", reply.Type(fmt.Sprintf("label %d%s", s.Number, letter)), ". Slime, sour smell, green sheen or a blown bag: throw it away, do not taste.")
	r.Press(reply.Button{Label: "Label", Line: fmt.Sprintf("label %d%s", s.Number, letter)})
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
