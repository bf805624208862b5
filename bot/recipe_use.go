package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/exchange"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// use works a recipe out for a weight, as a cure that waits to be opened.
func (t *Turn) use(args string) (reply.Reply, error) {
	var r reply.Reply
	kept, rest, err := t.findRecipe("use", args)
	if err != nil {
		return r, err
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	line, err := t.recipeWeight(kept, rest)
	if err != nil {
		return r, err
	}
	r.Say("By ", reply.B(title(kept)), byWhom(rec, kept, t.Me.Key), ":")
	cure, err := t.workOutBy(rec, line, title(kept))
	if err != nil {
		return r, err
	}
	r.Append(cure)
	if rec.Seasoning != "" {
		r.Par("Before the smoke: ", stop(rec.Seasoning))
	}
	t.sayOwnMinds(&r, rec)
	return r, nil
}

// workOutBy works a line out by a recipe; called is the recipe's name, or "".
func (t *Turn) workOutBy(rec exchange.Recipe, line parse.CureLine, called string) (reply.Reply, error) {
	line.Pieces = piecesBy(rec, line)
	if rec.Method == curemath.DryRub.String() {
		return t.workOutAs(dryLine(rec, line), called)
	}
	return t.useWet(rec, line, called)
}

// piecesBy are a line's pieces, flavoured and with their rind as in a recipe where
// nothing else is said.
func piecesBy(rec exchange.Recipe, line parse.CureLine) []parse.PieceLine {
	list := slices.Clone(line.Pieces)
	for i := range list {
		p := &list[i]
		p.Flavouring = orElse(p.Flavouring, rec.Flavouring)
		if p.RindOn == nil && line.RindOn == nil {
			p.RindOn = &rec.RindOn
		}
	}
	return list
}

// recipeWeight reads what a recipe is to be used on.
func (t *Turn) recipeWeight(kept store.Recipe, said string) (parse.CureLine, error) {
	e := &Error{Kind: BadInput, Why: "For how much meat? I need a weight with its unit.", Understood: "recipe " + title(kept), Example: fmt.Sprintf(`use "%s" %s`, kept.Name, t.exampleWeight())}
	if strings.TrimSpace(said) == "" {
		return parse.CureLine{}, e
	}
	line, err := parse.Cure(said, t.Now)
	if err != nil {
		return line, err
	}
	if line.Bare != nil || len(line.Pieces) == 0 {
		return line, e
	}
	return line, nil
}

// byWhom says whose a recipe is, and from whom it came.
func byWhom(rec exchange.Recipe, kept store.Recipe, me string) string {
	list := rec.Credit
	if kept.Owner != me {
		list = credit(list, kept.OwnerName)
	}
	if len(list) == 0 {
		return ""
	}
	return ", from " + strings.Join(list, ", then ")
}

// dryLine is a cure line with a recipe's shares where the line names none.
func dryLine(rec exchange.Recipe, line parse.CureLine) parse.CureLine {
	said := line
	line.Salt, line.Sugar, line.Nitrite, line.Mix = &rec.Salt, &rec.Sugar, &rec.Nitrite, &rec.Mix
	if rec.MixNitrate > 0 {
		line.MixNitrate = &rec.MixNitrate
	}
	if rec.Ascorbate > 0 {
		line.Ascorbate = &rec.Ascorbate
	}
	merge(&line, said)
	return line
}

// useWet works a wet or box recipe out as if it had been asked for in words.
func (t *Turn) useWet(rec exchange.Recipe, line parse.CureLine, recipe string) (reply.Reply, error) {
	if len(line.Pieces) != 1 {
		return reply.Reply{}, &Error{Kind: BadInput, Why: "A wet or box cure is worked out for one piece at a time.", Example: t.exampleWeight()}
	}
	given(&rec.Salt, line.Salt)
	given(&rec.Sugar, line.Sugar)
	given(&rec.Nitrite, line.Nitrite)
	given(&rec.Mix, line.Mix)
	rec.RindOn = rindOn(line, line.Pieces[0])
	asked := wetLine(rec, line.Pieces[0])
	s, err := t.solveWet(asked)
	if err != nil {
		return reply.Reply{}, err
	}
	t.sayWetEnd(&s, asked)
	return s.card, t.saveDraft(draft{Line: s.line, Asked: asked, Recipe: recipe})
}

// checked is a recipe worked out on a kilogram of meat.
type checked struct {
	weigh    curemath.Portion
	ingoing  curemath.PPM
	limit    string
	warnings []curemath.Warning
}

// checkRecipe works a recipe out on a kilogram under the rules of this
// conversation. An unsafe one is an error that says why; nothing it says of itself
// is believed.
func (t *Turn) checkRecipe(rec exchange.Recipe) (checked, error) {
	kilo := parse.PieceLine{Weight: curemath.Kilogram, Thickness: rec.Thickness, RindOn: &rec.RindOn}
	if rec.MixNitrate > 0 {
		mix, err := curemath.MixOf(rec.Mix)
		if err != nil {
			return checked{}, err
		}
		mix.Nitrate = rec.MixNitrate
		return checked{}, &curemath.Refusal{Kind: curemath.NitrateInBacon, Mix: mix}
	}
	if rec.Thickness > 0 {
		if _, err := curemath.DayRule(rec.Thickness, rec.RindOn); err != nil {
			return checked{}, err
		}
	}
	if rec.Method == curemath.DryRub.String() {
		c, err := t.solve(dryLine(rec, parse.CureLine{Pieces: []parse.PieceLine{kilo}}))
		if err != nil {
			return checked{}, err
		}
		one := c.cures[0]
		return checked{weigh: one.Weigh, ingoing: one.Ingoing, limit: one.Limit.Text() + " for " + one.Limit.What,
			warnings: append(slices.Clone(one.Warnings), c.days[0].Warnings...)}, nil
	}
	if rec.Method == curemath.Immersion.String() && rec.Water == 0 || rec.Method == curemath.Injection.String() && rec.Pump == 0 {
		return checked{}, &Error{Kind: BadInput, Why: "The recipe does not say how much water or pickle it takes.", Example: "import"}
	}
	kilo.RindOn = nil
	s, err := t.solveWet(wetLine(rec, kilo))
	if err != nil {
		return checked{}, err
	}
	limit := t.rules().BaconLimit(s.method, rec.RindOn)
	return checked{weigh: s.portion, ingoing: s.ingoing, limit: limit.Text() + " for " + limit.What, warnings: s.minds}, nil
}
