package bot

import (
	"fmt"
	"slices"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// slowComeUp says that a core took longer through the warm than the guideline for
// cooked meat allows; "" where it did not, or where the readings do not show it.
func (t *Turn) slowComeUp(h curemath.Heat) string {
	if h.ComeUp.State != curemath.ComeUpOver {
		return ""
	}
	u := t.units()
	return fmt.Sprintf("From %s to %s it took %s, over the %s of the rule for cooked meat [%s]: so cook it before eating.",
		u.temp(h.ComeUp.From), u.temp(h.ComeUp.To), howLong(h.ComeUp.Took), howLong(h.ComeUp.Limit), h.ComeUp.Source.String())
}

// sayComeUp says which of the pieces that came out of the smoke was slowest to come up,
// where that was too slow.
func (t *Turn) sayComeUp(r *reply.Reply, s course.State, list []entry) {
	var slowest curemath.Heat
	which := ""
	for _, e := range list {
		for _, p := range s.Pieces {
			if !slices.Contains(e.of, "") && !slices.Contains(e.of, p.Letter) {
				continue
			}
			h, err := curemath.HeatSoFar(course.Since(s.OwnCores(p.Letter), p.Marks[course.Smoking].At))
			if err == nil && h.ComeUp.State == curemath.ComeUpOver && h.ComeUp.Took > slowest.ComeUp.Took {
				slowest, which = h, p.Letter
			}
		}
	}
	if slow := t.slowComeUp(slowest); slow != "" {
		if of := letterFor(s, which); of != "" {
			slow = of + lowerFirst(slow)
		}
		r.Say(slow)
	}
}
