package bot

import (
	"fmt"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// sayPackedAll says what was packed: with one entry at length, with one for each piece
// a line each and the dates once.
func (t *Turn) sayPackedAll(r *reply.Reply, s course.State, list []entry, at time.Time) {
	if len(list) == 1 {
		if note := list[0].body.Text; note != "" {
			r.Say("Kept as a note: ", note, ".")
		}
		letter := list[0].of[0]
		if len(list[0].of) > 1 {
			letter = ""
		}
		t.sayPacked(r, s, letter, list[0].body, at)
		return
	}
	frozen := true
	for _, e := range list {
		line := letterFor(s, e.of[0]) + t.packedLine(e.body.Weight, greenOf(s, e.of[0]))
		if e.body.Text != "" {
			line += " Kept as a note: " + e.body.Text + "."
		}
		r.Say(line)
		frozen = frozen && e.body.Frozen
	}
	if line := t.costLine(s); line != "" {
		r.Say(line)
	}
	for _, e := range list {
		t.sayYieldRemarks(r, s, e.of[0])
	}
	t.sayKeeping(r, s, "", frozen, at)
}

func (t *Turn) packedLine(w, green curemath.Grams) string {
	return "Packed " + t.units().meatExact(w) + " from " + t.units().meatExact(green) + " fresh: " + trim(float64(w/green)*100, 1) + " % yield."
}

// sayPacked says yield, use-by dates and the label.
func (t *Turn) sayPacked(r *reply.Reply, s course.State, letter string, body course.Body, at time.Time) {
	green := sum(s)
	if p, ok := s.Find(letter); ok {
		green = p.Weight
	}
	if body.Weight > 0 {
		r.Say(t.packedLine(body.Weight, green))
	}
	if line := t.costLine(s); line != "" {
		r.Say(line)
	}
	t.sayYieldRemarks(r, s, letter)
	t.sayKeeping(r, s, letter, body.Frozen, at)
}

// sayKeeping says how long what was packed keeps, and where its label is.
func (t *Turn) sayKeeping(r *reply.Reply, s course.State, letter string, frozen bool, at time.Time) {
	fridge, freezer := course.UseBy(at, t.Loc)
	if !frozen {
		r.Say("Keep refrigerated (40 °F, 4 °C): use by ", dateText(fridge), ".")
	}
	r.Say("Frozen (0 °F, −18 °C): best by ", dateText(freezer), "; after that still safe, less good (US cold storage chart).")
	r.Say("Label to print: ", reply.Type(fmt.Sprintf("label %d%s", s.Number, letter)), ". Slime, sour smell, green sheen or a blown bag: throw it away, do not taste.")
	r.Press(reply.Button{Label: "Label", Line: fmt.Sprintf("label %d%s", s.Number, letter)})
}
