package bot

import (
	"fmt"

	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func pickleRows(p curemath.Pickle, mix curemath.Mix, step curemath.Grams) [][]string {
	rows := [][]string{
		{"water", grams(p.Water, 0)},
		{mix.Name, grams(p.Mix, decimals(step))},
		{"salt", grams(p.Salt, 0)},
		{"sugar", grams(p.Sugar, 0)},
	}
	if p.Ascorbate > 0 {
		rows = append(rows, []string{"sodium ascorbate", grams(p.Ascorbate, 2)})
	}
	return append(rows, []string{"all in", grams(p.Weight(), 0)})
}

// sayCheck says what a wet cure comes to each way it is counted, and which way the
// limit was held against.
func (t *Turn) sayCheck(r *reply.Reply, c curemath.Check) {
	rows := [][]string{{"counted", "nitrite", "salt", "sugar"}}
	for _, way := range c.Readings {
		rows = append(rows, []string{way.Name, ppm(round1(way.Nitrite)), percent(round2(way.Salt)), percent(round2(way.Sugar))})
	}
	r.Table(rows)
	r.Par("Held to the limit: ", ppm(round1(c.Held.Nitrite)), " (", c.Held.Name, "); the limit is ", c.Limit.Text(), " for ", c.Limit.What, " [", c.Limit.Source.String(), "].")
	for _, w := range c.Warnings {
		if w.Kind == curemath.WarnRoundedUnderFloor { // said at the end
			continue
		}
		r.Say("Mind: ", w.Text)
	}
}

func round1(p curemath.PPM) curemath.PPM { return curemath.PPM(float64(int(float64(p)*10+0.5)) / 10) }

// days is how long a wet or box cure lies until it is felt, by thickness: a brine by the
// weight of the belly too, a box cure from its last rub on.
func (s *wetSum) days() (curemath.Days, error) {
	days, err := curemath.DaysFor(s.method, s.line.Pieces[0].Thickness, s.targets.RindOn, s.targets.Green)
	if n := len(s.rubs); err == nil && n > 0 {
		days = days.AfterRub(s.rubs[n-1].Day)
	}
	return days, err
}

// sayWetEnd says how long, how cold, the caution and what to do next.
func (t *Turn) sayWetEnd(s *wetSum, asked string) {
	r, line := &s.card, s.line
	days, err := s.days()
	if err != nil {
		r.Say("Mind: ", sentence(err.Error()))
		return
	}
	thick := "as for 2 in (51 mm); measure it at the thickest"
	if mm := line.Pieces[0].Thickness; mm > 0 {
		thick = "at " + t.units().thickness(mm)
	}
	if n := len(s.rubs); n > 1 {
		thick += fmt.Sprintf(", as the last rub is on day %d", s.rubs[n-1].Day)
	}
	r.Say(daysRange(days.Min, days.Max), " ", thick, ", cold (34 to 38 °F, 1 to 3 °C), turned or restacked every day; firmness all through decides.")
	r.Par("Weigh the curing mix on a 0.1 g scale, never by the spoon. Too much nitrite poisons; keep the mix labelled and locked away from children.")
	if w, ok := t.weakWet(*s, asked); ok {
		t.sayWeak(r, w)
	} else if t.Tx != nil {
		r.Say("Type ", reply.Type("open"), " to start it, ", reply.Type("why"), " for the arithmetic.")
		r.Press(reply.Button{Label: "Open a batch", Line: "open"}, reply.Button{Label: "Why these numbers", Line: "why"})
	}
}

// openedWet opens a batch of one piece from a wet or box cure.
func (t *Turn) openedWet(of draft) (reply.Reply, error) {
	var r reply.Reply
	asked := of.Asked
	c, err := t.solveWet(asked)
	if err != nil {
		return r, err
	}
	if of.Line.From != nil {
		c.line.From = of.Line.From
	}
	from, err := t.since(c.line)
	if err != nil {
		return r, err
	}
	p := c.line.Pieces[0]
	days, err := c.days()
	if err != nil {
		return r, err
	}
	d := c.targets
	s, err := t.begin(store.Batch{Opened: from,
		Plan: store.Plan{Method: c.method.String(), Asked: asked, Nitrite: d.Nitrite, Salt: d.Salt, Sugar: d.Sugar, Mix: d.Mix.Nitrite,
			Ascorbate: d.Ascorbate, Rules: d.Rules.ID, Days: days.Min, DaysMax: days.Max, Rubs: c.rubs, Recipe: of.Recipe},
		Pieces: []store.Piece{{Letter: "a", Weight: d.Green, Thickness: p.Thickness, RindOn: d.RindOn, Flavouring: p.Flavouring,
			MixWeight: c.portion.Mix, SaltWeight: c.portion.Salt, Sugar: c.portion.Sugar, Ingoing: c.ingoing, Days: days.Min}}})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), " is open, ", s.Plan.Method, ", in the cure since ", t.dayHour(s.Opened), ".")
	r.Append(c.card)
	r.Par("Keep it under the brine or well rubbed, at 34 to 38 °F (1 to 3 °C). Write ", reply.B(fmt.Sprintf("batch %d", s.Number)), " on it.")
	r.Say("Cure check: ", dateText(s.CheckDate(t.Loc)), ".")
	t.sayLow(&r, takes(s.Batch))
	return r, t.sayNextPing(&r, s)
}
