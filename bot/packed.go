package bot

import (
	"cmp"
	"fmt"
	"slices"
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
		t.sayPacked(r, s, letter, list[0].body)
		t.sayKeeping(r, s, list, at)
		return
	}
	for _, e := range list {
		line := letterFor(s, e.of[0]) + t.packedLine(e.body.Weight, greenOf(s, e.of[0]))
		if e.body.Text != "" {
			line += " Kept as a note: " + e.body.Text + "."
		}
		r.Say(line)
	}
	if line := t.costLine(s); line != "" {
		r.Say(line)
	}
	for _, e := range list {
		t.sayYieldRemarks(r, s, e.of[0])
	}
	t.sayKeeping(r, s, list, at)
}

func (t *Turn) packedLine(w, green curemath.Grams) string {
	return "Packed " + t.units().meatExact(w) + " from " + t.units().meatExact(green) + " fresh: " + trim(float64(w/green)*100, 1) + " % yield."
}

// sayPacked says yield and cost of a piece, or of the batch.
func (t *Turn) sayPacked(r *reply.Reply, s course.State, letter string, body course.Body) {
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
}

// sayKeeping says how long what was packed keeps, and where its label is.
func (t *Turn) sayKeeping(r *reply.Reply, s course.State, list []entry, at time.Time) {
	letter := ""
	if len(list) == 1 && len(list[0].of) == 1 {
		letter = list[0].of[0]
	}
	var cured, fresh []course.PieceState // in the fridge
	for _, p := range s.Pieces {
		for _, e := range list {
			switch {
			case e.body.Frozen || !slices.Contains(e.of, "") && !slices.Contains(e.of, p.Letter):
			case curemath.Cured(p.Ingoing):
				cured = append(cured, p)
			default:
				fresh = append(fresh, p)
			}
		}
	}
	_, freezer := course.UseBy(weakest(s.Pieces), at, t.Loc)
	if len(cured) > 0 {
		fridge, _ := course.UseBy(weakest(cured), at, t.Loc)
		r.Say("Keep refrigerated (40 °F, 4 °C): use by ", dateText(fridge), ".")
	}
	for _, p := range fresh {
		fridge, _ := course.UseBy(p.Ingoing, at, t.Loc)
		r.Say(letterFor(s, p.Letter), fmt.Sprintf("With %s of nitrite it keeps as fresh pork does, not as bacon: cook or freeze it by %s (40 °F, 4 °C; 3 to 5 days by the US cold storage chart, from memory, of which the fewer).", under(p.Ingoing), dateText(fridge)))
	}
	r.Say("Frozen (0 °F, −18 °C): best by ", dateText(freezer), "; after that still safe, less good (US cold storage chart).")
	r.Say("Label to print: ", reply.Type(fmt.Sprintf("label %d%s", s.Number, letter)), ". Slime, sour smell, green sheen or a blown bag: throw it away, do not taste.")
	r.Press(reply.Button{Label: "Label", Line: fmt.Sprintf("label %d%s", s.Number, letter)})
}

// weakest is the least nitrite any of some pieces holds.
func weakest(list []course.PieceState) curemath.PPM {
	return slices.MinFunc(list, func(a, b course.PieceState) int { return cmp.Compare(a.Ingoing, b.Ingoing) }).Ingoing
}
