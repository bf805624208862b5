package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/exchange"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// recipeOf is what a piece was cured by, as a share of its green weight.
func (t *Turn) recipeOf(s course.State, letter string) (exchange.Recipe, error) {
	p, _ := s.Find(letter)
	rec := exchange.Recipe{Method: orElse(s.Plan.Method, curemath.DryRub.String()), Nitrite: s.Plan.Nitrite, Salt: s.Plan.Salt, Sugar: s.Plan.Sugar,
		Ascorbate: s.Plan.Ascorbate, Mix: s.Plan.Mix, RindOn: p.RindOn, Flavouring: p.Flavouring, Thickness: p.Thickness, Days: s.DaysOf(letter), SmokeHours: smokeHours(s, letter)}
	if m, ok := p.Marks[course.Season]; ok && !m.Skipped {
		rec.Seasoning = clip(m.Body.Text, 200)
	}
	if end, ok := coreAtSmoked(s, letter); ok {
		c := end.Temp.Celsius()
		rec.Core = &c
	}
	if s.Plan.Asked == "" {
		return rec, nil
	}
	return rec, t.asOpened(s).wetRecipe(&rec, s.Plan.Asked)
}

// wetRecipe adds what a wet or box cure was asked for, by the weight of the meat.
func (t *Turn) wetRecipe(rec *exchange.Recipe, asked string) error {
	c, err := t.solveWet(asked)
	if err != nil {
		return err
	}
	share := func(said string) curemath.Percent {
		w, err := water(said)
		if err != nil { // it was read when the batch was opened
			return 0
		}
		return curemath.Percent(100 * float64(w/c.targets.Green))
	}
	word, rest := firstWord(asked)
	rec.Nitrite, rec.Salt, rec.Sugar, rec.Mix = t.wetAim(c.line, c.targets, c.method), c.targets.Salt, c.targets.Sugar, c.targets.Mix.Nitrite
	var said string
	switch word {
	case "brine":
		if rest, said = take(rest, waterOf); said != "" {
			rec.Water = share(said)
		}
		_, said = take(rest, pickupOf)
		rec.Pickup, err = shareSaid(said)
	case "pump":
		rest, said = take(rest, pumpOf)
		if rec.Pump, err = shareSaid(said); err != nil {
			return err
		}
		if rest, said = take(rest, coverOf); said != "" {
			rec.Cover = share(said)
		}
		_, said = take(rest, pickupOf)
		rec.Pickup, err = shareSaid(said)
	default:
		rest, said = take(rest, gapOf)
		_, _ = fmt.Sscan(said, &rec.Gap)
		_, said = take(rest, rubsOf)
		_, _ = fmt.Sscan(said, &rec.Rubs)
	}
	return err
}

// wetLine writes a wet or box recipe for a piece the way a person would ask for it.
func wetLine(rec exchange.Recipe, p parse.PieceLine) string {
	g := func(share curemath.Percent) string { return trim(float64(share.Of(p.Weight)), 0) + " g" }
	parts := []string{trim(float64(p.Weight), 1) + " g"}
	if p.Thickness > 0 {
		parts = append(parts, trim(float64(p.Thickness), 1)+" mm")
	}
	if f := p.Flavouring; plainFlavour(f) {
		parts = append(parts, f)
	}
	line := strings.Join(parts, " ")
	line += fmt.Sprintf(", salt %s%%, sugar %s%%, nitrite %s ppm, mix %s%%", num(float64(rec.Salt)), num(float64(rec.Sugar)), num(float64(rec.Nitrite)), num(float64(rec.Mix)))
	if rec.Ascorbate > 0 {
		line += fmt.Sprintf(", ascorbate %s%%", num(float64(rec.Ascorbate.Percent())))
	}
	if rec.RindOn {
		line += ", rind on"
	}
	switch rec.Method {
	case curemath.Immersion.String():
		line = "brine " + line + ", " + g(rec.Water) + " water"
	case curemath.Injection.String():
		line = "pump " + num(float64(rec.Pump)) + "% " + line
		if rec.Cover > 0 {
			line += ", with " + g(rec.Cover) + " cover"
		}
	default:
		line = "box " + line
		if rec.Rubs > 0 {
			line += fmt.Sprintf(", %d rubs", rec.Rubs)
		}
		if rec.Gap > 0 {
			line += fmt.Sprintf(" %d days apart", rec.Gap)
		}
	}
	if rec.Pickup > 0 {
		line += fmt.Sprintf(", pickup %s%%", num(float64(rec.Pickup)))
	}
	return line
}

func num(x float64) string { return trim(x, 4) }

// plainFlavour says whether a flavouring said in a line is read as that and as
// nothing else: a name that came in a file may say "nitrite 900 ppm".
func plainFlavour(f string) bool {
	if f == "" || strings.ContainsAny(f, "0123456789%") {
		return false
	}
	for _, word := range []string{"water", "brine", "cover", "rind", "salt", "sugar", "mix", "ppm", "pick", "pump", "rub", "day", "nitr", "cure"} {
		if strings.Contains(strings.ToLower(f), word) {
			return false
		}
	}
	return true
}
