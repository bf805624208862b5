package bot

import (
	"math"
	"strconv"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// dosedPiece is meat that curing mix was put on.
type dosedPiece struct {
	who    string
	green  curemath.Grams
	weighs curemath.Grams // of mix, as worked out; 0 if it was not
	rind   bool
	mix    curemath.Percent
	rules  curemath.RuleSet
	wet    bool
	number int
	letter string
}

// dosedPieces is the meat a line may be about: what it weighs as the line says, or
// the pieces of running batches and of the cure just worked out, fewer where the line
// says which, or what should have gone on.
func (t *Turn) dosedPieces(line string) []dosedPiece {
	mix := t.Conv.Settings.Mix
	if m := onMeat.FindStringSubmatch(line); m != nil {
		if w, err := parse.Weight(m[1]); err == nil && w >= 200 {
			return []dosedPiece{{who: "that", green: w, mix: mix, rules: t.rules()}}
		}
	}
	all := t.running()
	if d, ok, err := t.draft(); err == nil && ok && d.Asked == "" && len(d.Line.Pieces) > 0 {
		if c, err := t.solve(d.Line); err == nil {
			for i, cure := range c.cures {
				all = append(all, dosedPiece{who: "the cure just worked out", green: cure.Targets.Green, weighs: cure.Weigh.Mix, rind: cure.Targets.RindOn, mix: cure.Targets.Mix.Nitrite, rules: c.rules, letter: letter(i)})
			}
		}
	}
	fits := func(keep func(dosedPiece) bool) {
		var some []dosedPiece
		for _, p := range all {
			if keep(p) {
				some = append(some, p)
			}
		}
		if len(some) > 0 {
			all = some
		}
	}
	if m := ofBatch.FindStringSubmatch(line); m != nil {
		n, _ := strconv.Atoi(m[1])
		fits(func(p dosedPiece) bool { return p.number == n && (m[2] == "" || p.letter == strings.ToLower(m[2])) })
	}
	if m := mixAmount.FindStringSubmatch(line); m != nil && len(insteadOf.FindString(line)) == 0 {
		said, unit := m[1], m[2]
		if said == "" {
			said, unit = m[3], m[4]
		}
		g, err := decimal(said)
		if err == nil && strings.HasPrefix(strings.ToLower(unit), "g") { // just what was worked out for some
			fits(func(p dosedPiece) bool { return p.weighs > 0 && math.Abs(float64(p.weighs)-g) < 0.15 })
		}
	}
	if m := insteadOf.FindStringSubmatch(line); m != nil {
		if should, err := decimal(m[1]); err == nil {
			fits(func(p dosedPiece) bool { return math.Abs(float64(p.weighs)-should) < 0.15 })
		}
	}
	return all[:min(len(all), mostHeld)]
}

// running lists the pieces of the batches that run, one's own if there are any.
func (t *Turn) running() []dosedPiece {
	open, err := t.openBatches()
	if err != nil {
		return nil
	}
	var mine, all []dosedPiece
	for _, s := range open {
		if s.Stage() == course.Done {
			continue
		}
		rules, _ := t.bot.Rules.ByID(s.Plan.Rules)
		for _, p := range s.Pieces {
			who := name(s)
			if len(s.Pieces) > 1 {
				who = t.pieceOrBatch(s, p.Letter)
			}
			one := dosedPiece{who: who, green: p.Weight, weighs: p.MixWeight, rind: p.RindOn, mix: s.Plan.Mix, rules: rules,
				wet: s.Plan.Method != "" && s.Plan.Method != curemath.DryRub.String(), number: s.Number, letter: p.Letter}
			all = append(all, one)
			if s.Keeper == t.Me.ID {
				mine = append(mine, one)
			}
		}
	}
	if len(mine) > 0 {
		return mine
	}
	return all
}
