package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/reply"
	"larderhand/curemath"
)

// unmeasured names the pieces without a thickness where others have one: "piece b".
func (c cured) unmeasured() string {
	var list []string
	for i, p := range c.line.Pieces {
		if p.Thickness == 0 {
			list = append(list, letter(i))
		}
	}
	switch {
	case len(list) == 0 || len(list) == len(c.line.Pieces):
		return ""
	case len(list) == 1:
		return "piece " + list[0]
	}
	return "each of pieces " + strings.Join(list, ", ")
}

// limits is what each piece is held to: one with its rind on is held to less.
func (c cured) limits() string {
	var texts []string
	of := map[string][]string{}
	for i, cure := range c.cures {
		text := cure.Limit.Text()
		if of[text] == nil {
			texts = append(texts, text)
		}
		of[text] = append(of[text], letter(i))
	}
	if len(texts) == 1 {
		return texts[0]
	}
	for i, text := range texts {
		texts[i] = text + " of " + strings.Join(of[text], ", ")
	}
	return strings.Join(texts, " and ")
}

// showCure writes what to weigh out, what it comes to, and what to do next.
func (t *Turn) showCure(c cured) reply.Reply {
	var r reply.Reply
	u := t.units()
	if len(c.cures) == 1 {
		t.onePiece(&r, c)
	} else {
		t.manyPieces(&r, c)
	}
	one := c.cures[0]
	r.Par(span(c.cures, func(c curemath.DryCure) float64 { return float64(c.Ingoing) }, "", 1), " ppm nitrite goes in; the limit is ", c.limits(), " for ", one.Limit.What, " [", one.Limit.Source.String(), "].")
	least, most := c.span()
	switch {
	case c.thick && len(c.cures) == 1:
		r.Say(fmt.Sprintf("%s in the bag at %s, cold (34 to 38 °F, 1 to 3 °C) and flipped every day; first check on day %d.", daysRange(least, most), u.thickness(c.line.Pieces[0].Thickness), least))
	case c.thick:
		r.Say(fmt.Sprintf("%s in the bag by the piece that needs longest, cold (34 to 38 °F, 1 to 3 °C) and flipped every day; first check on day %d.", daysRange(least, most), least))
	case c.unmeasured() != "":
		r.Say(fmt.Sprintf("How thick is %s at the thickest? Until I know it counts as 2 in (51 mm): %s in the bag by the piece that needs longest, cold (34 to 38 °F, 1 to 3 °C) and flipped every day.", c.unmeasured(), daysRange(least, most)))
	default:
		r.Say(fmt.Sprintf("How thick is it at the thickest? Until I know: %s in the bag, as for 2 in (51 mm), cold (34 to 38 °F, 1 to 3 °C) and flipped every day.", daysRange(least, most)))
	}
	if c.remark != "" {
		r.Say(c.remark)
	}
	sayWarnings(&r, c)
	if used := one.Targets.Mix.Nitrite; used != t.Conv.Settings.Mix {
		r.Say("The ", percent(used), " mix is for this cure only; for all to come: ", reply.Type("set mix "+trim(float64(used), 3)+"%"))
	}
	fine := "0.1 g"
	for _, cure := range c.cures {
		if cure.Step < 0.1 {
			fine = "0.01 g"
		}
	}
	r.Par("Weigh the curing mix on a ", fine, " scale, never by the spoon. Too much nitrite poisons; keep the mix labelled and locked away from children.")
	if t.Tx != nil {
		t.sayShort(&r, c.needs())
	}
	if w, ok := t.weakCure(c); ok {
		t.sayWeak(&r, w)
		return r
	}
	if t.Tx == nil {
		return r
	}
	next := []any{"Type ", reply.Type("open"), " to start it"}
	if !c.thick {
		next = append(next, ", ", reply.Type(t.exampleThickness()), " to say how thick")
	}
	r.Say(append(next, ", ", reply.Type("salt 2.25%"), " to change it, ", reply.Type("why"), " for the arithmetic.")...)
	r.Press(reply.Button{Label: "Open a batch", Line: "open"}, reply.Button{Label: "Why these numbers", Line: "why"})
	return r
}

func (t *Turn) exampleThickness() string {
	if t.units() == metric {
		return "38 mm"
	}
	return "1.5 in"
}

func daysRange(least, most int) string {
	if least == most {
		return count(least, "day")
	}
	return fmt.Sprintf("%d to %d days", least, most)
}

func (t *Turn) onePiece(r *reply.Reply, c cured) {
	p, cure := c.line.Pieces[0], c.cures[0]
	r.Say(reply.B(t.units().meatExact(p.Weight)), t.flavoured(p.Flavouring), ", dry rub in a bag", rindText(cure.Targets.RindOn), ":")
	r.Table(weighRows(cure))
}

func weighRows(c curemath.DryCure) [][]string {
	rows := [][]string{
		{c.Targets.Mix.Name, mixGrams(c)},
		{"salt", saltGrams(c.Weigh.Salt, c), "(" + percent(round2(c.TotalSalt)) + " with the mix's own)"},
		{"sugar", saltGrams(c.Weigh.Sugar, c), "(" + percent(round2(c.TotalSugar)) + ")"},
	}
	if c.Weigh.Ascorbate > 0 {
		rows = append(rows, []string{"sodium ascorbate", grams(c.Weigh.Ascorbate, 2)})
	}
	return rows
}

func round2(p curemath.Percent) curemath.Percent {
	return curemath.Percent(float64(int(float64(p)*100+0.5)) / 100)
}

func (t *Turn) manyPieces(r *reply.Reply, c cured) {
	r.Say(reply.B(count(len(c.cures), "piece")), ", dry rub in a bag each:")
	rows := [][]string{{"", "weight", c.cures[0].Targets.Mix.Name, "salt", "sugar", "ppm"}}
	for i, cure := range c.cures {
		p := c.line.Pieces[i]
		rows = append(rows, []string{letter(i) + " " + orElse(p.Flavouring, "plain") + rindText(cure.Targets.RindOn), t.units().meat(p.Weight), mixGrams(cure),
			saltGrams(cure.Weigh.Salt, cure), saltGrams(cure.Weigh.Sugar, cure), trim(float64(cure.Ingoing), 1)})
	}
	r.Table(rows)
}

// sayWarnings says each warning once, however many pieces have it.
func sayWarnings(r *reply.Reply, c cured) {
	said := map[string]bool{}
	for i := range c.cures {
		warnings := append(c.cures[i].Warnings[:len(c.cures[i].Warnings):len(c.cures[i].Warnings)], c.days[i].Warnings...)
		for _, w := range warnings {
			if w.Kind == curemath.WarnThicknessUnknown || w.Kind == curemath.WarnRoundedUnderFloor || said[w.Text] {
				continue // said in words of our own
			}
			said[w.Text] = true
			r.Say("Mind: ", w.Text)
		}
	}
}

func (t *Turn) flavoured(f string) string {
	if f == "" {
		return ""
	}
	return ", " + f
}

func rindText(on bool) string {
	if on {
		return ", rind on"
	}
	return ""
}

// mixGrams is the curing mix as it goes on the scale: 0.1 g, or finer where the
// dose is so small that 0.1 g would be too coarse.
func mixGrams(c curemath.DryCure) string { return grams(c.Weigh.Mix, decimals(c.Step)) }

func saltGrams(g curemath.Grams, c curemath.DryCure) string {
	if g == curemath.Grams(int(g)) {
		return grams(g, 0)
	}
	return grams(g, 1)
}

func decimals(step curemath.Grams) int {
	if step < 0.1 {
		return 2
	}
	return 1
}

func letter(i int) string { return string(rune('a' + i)) }
