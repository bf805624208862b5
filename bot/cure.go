package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func cureCommands() []Command {
	amend := func(name, form, help, example string) Command {
		return Command{Name: name, Group: groupCure, Form: form, Help: help, Example: example,
			Fields: []Field{{Name: sentence(name), Example: strings.TrimPrefix(example, name+" ")}},
			Run:    func(t *Turn, args string) (reply.Reply, error) { return t.amend(name + " " + args) }}
	}
	return []Command{
		{Name: "cure", Group: groupCure, Form: "5 lb / cure 5 lb juniper 1.5 in", Help: "work out a cure from a weight", Example: "cure 5 lb juniper 1.5 in",
			Sums: true, Run: (*Turn).cure, Fields: []Field{{Name: "Weight", Example: "5 lb"}, {Name: "Thickness", Example: "1.5 in", Optional: true}, {Name: "Flavouring", Example: "juniper", Optional: true, Suggest: SuggestFlavouring}}},
		amend("salt", "salt 2.25%", "change the salt of the cure just worked out", "salt 2.25%"),
		amend("sugar", "sugar 1.5%", "change its sugar", "sugar 1.5%"),
		amend("nitrite", "nitrite 110 ppm", "change its nitrite target", "nitrite 110 ppm"),
		amend("mix", "mix 0.6%", "name the nitrite percent on your packet", "mix 6.25%"),
		amend("rind", "rind on", "say that the rind is on", "rind on"),
	}
}

// draft is a cure worked out but not yet opened. It keeps what the person said,
// so that changing one thing works the whole out anew.
type draft struct {
	Line    parse.CureLine `json:"line"`
	Opening bool           `json:"opening,omitempty"` // waits only for the word about the scale
	Bare    string         `json:"bare,omitempty"`    // a number that waits for its unit
	Asked   string         `json:"asked,omitempty"`   // a wet or box cure as it was asked for
	Higher  curemath.PPM   `json:"higher,omitempty"`  // the aim asked about before a weak cure is opened
	Recipe  string         `json:"recipe,omitempty"`  // what it was made of: "winter juniper v2"
}

func (d draft) empty() bool {
	return len(d.Line.Pieces) == 0 && d.Bare == "" && d.Asked == "" && !d.Opening
}

// cured is a cure line worked out: one cure a piece.
type cured struct {
	line   parse.CureLine
	cures  []curemath.DryCure
	days   []curemath.Days
	thick  bool // every thickness is known
	rules  curemath.RuleSet
	remark string
}

// cure answers a weight with what to weigh out.
func (t *Turn) cure(args string) (reply.Reply, error) {
	line, err := parse.Cure(args, t.Now)
	if err != nil {
		return reply.Reply{}, err
	}
	if line.Bare != nil {
		return t.askUnit(*line.Bare)
	}
	if len(line.Pieces) == 0 {
		return t.amendWith(line)
	}
	return t.workOut(line)
}

func (t *Turn) workOut(line parse.CureLine) (reply.Reply, error) { return t.workOutAs(line, "") }

// workOutAs works a line out that was made of a recipe.
func (t *Turn) workOutAs(line parse.CureLine, recipe string) (reply.Reply, error) {
	c, err := t.solve(line)
	if err != nil {
		return reply.Reply{}, err
	}
	if err := t.saveDraft(draft{Line: line, Recipe: recipe}); err != nil {
		return reply.Reply{}, err
	}
	return t.showCure(c), nil
}

// askUnit asks what a bare number is; it is never guessed.
func (t *Turn) askUnit(n float64) (reply.Reply, error) {
	said := trim(n, 4)
	if err := t.saveDraft(draft{Bare: said}); err != nil {
		return reply.Reply{}, err
	}
	var r reply.Reply
	r.Say(said, " what? Pounds and kilograms are more than twofold apart, so I don't guess.")
	r.Say("Type ", reply.Type(said+" lb"), " or ", reply.Type(said+" kg"), ".")
	r.Press(reply.Button{Label: said + " lb", Line: said + " lb"}, reply.Button{Label: said + " kg", Line: said + " kg"})
	return r, nil
}

// targets are the conversation's settings with what the line says over them.
func (t *Turn) targets(line parse.CureLine) (curemath.DryTargets, error) {
	s := t.Conv.Settings
	d := curemath.DryTargets{Nitrite: s.Nitrite, Salt: s.Salt, Sugar: curemath.DefaultSugar, Rules: t.rules()}
	share := s.Mix
	given(&d.Sugar, s.Sugar)
	given(&d.Nitrite, line.Nitrite)
	given(&d.Salt, line.Salt)
	given(&d.Sugar, line.Sugar)
	given(&d.Ascorbate, line.Ascorbate)
	given(&share, line.Mix)
	d.Mix = curemath.StandardMix()
	if share != d.Mix.Nitrite || line.MixNitrate != nil {
		mix, err := curemath.MixOf(share)
		if err != nil {
			return d, err
		}
		d.Mix = mix
	}
	given(&d.Mix.Nitrate, line.MixNitrate)
	return d, nil
}

func (t *Turn) rules() curemath.RuleSet {
	r, _ := t.bot.Rules.ByID(t.Conv.Settings.Rules)
	return r
}

// solve works out every piece of a line.
func (t *Turn) solve(line parse.CureLine) (cured, error) {
	c := cured{line: line, thick: true, rules: t.rules()}
	if line.Method != "" && line.Method != "dry" {
		return c, &Error{Kind: BadInput, Why: "This sum is for a dry rub in a bag; a brine, a pumped or a box cure has a sum of its own.", Example: map[string]string{"brine": "brine 5 lb 1.5 in, 2 l water", "pump": "pump 10% 5 lb 1.5 in", "box": "box 5 lb 1.5 in"}[line.Method]}
	}
	var err error
	if c.remark, err = meatOf(line); err != nil {
		return c, err
	}
	base, err := t.targets(line)
	if err != nil {
		return c, err
	}
	for _, p := range line.Pieces {
		d := base
		d.Green, d.RindOn = p.Weight, rindOn(line, p)
		cure, err := curemath.SolveDry(d)
		if err != nil {
			return c, err
		}
		days := curemath.DaysUnknown(d.RindOn)
		if p.Thickness == 0 {
			c.thick = false
		} else if days, err = curemath.DayRule(p.Thickness, d.RindOn); err != nil {
			return c, err
		}
		if line.Days != nil && *line.Days > days.Min {
			days.Min, days.Max = *line.Days, max(*line.Days, days.Max)
		}
		c.cures, c.days = append(c.cures, cure), append(c.days, days)
	}
	if least, most := c.span(); line.Days != nil && *line.Days < least {
		short := fmt.Sprintf("You said %s; the day rule asks for %s, and I keep the longer.", count(*line.Days, "day"), daysRange(least, most))
		c.remark = strings.TrimSpace(c.remark + " " + short)
	}
	return c, nil
}

func rindOn(line parse.CureLine, p parse.PieceLine) bool {
	if p.RindOn != nil {
		return *p.RindOn
	}
	return line.RindOn != nil && *line.RindOn
}

// span is the days until the cure check, by the piece that needs longest.
func (c cured) span() (least, most int) {
	for _, d := range c.days {
		least, most = max(least, d.Min), max(most, d.Max)
	}
	return least, most
}

// amend changes the draft by what a line says: "salt 2.25%", "1.5 in".
func (t *Turn) amend(text string) (reply.Reply, error) {
	line, err := parse.Cure(text, t.Now)
	if err != nil {
		if thick, terr := parse.Thickness(text); terr == nil {
			return t.amendThickness(thick)
		}
		return reply.Reply{}, err
	}
	if len(line.Pieces) > 0 && line.Pieces[0].Weight > 0 {
		return t.workOut(line)
	}
	return t.amendWith(line)
}

func (t *Turn) amendThickness(thick curemath.Millimetres) (reply.Reply, error) {
	d, err := t.toAmend()
	if err != nil {
		return reply.Reply{}, err
	}
	if d.Asked != "" {
		return t.wet(amended(d.Asked, parse.CureLine{Thickness: thick}))
	}
	for i := range d.Line.Pieces {
		if d.Line.Pieces[i].Thickness == 0 || len(d.Line.Pieces) == 1 {
			d.Line.Pieces[i].Thickness = thick
		}
	}
	return t.workOutAs(d.Line, d.Recipe)
}

func (t *Turn) amendWith(line parse.CureLine) (reply.Reply, error) {
	d, err := t.toAmend()
	if err != nil {
		return reply.Reply{}, err
	}
	if d.Asked != "" {
		return t.wet(amended(d.Asked, line))
	}
	merge(&d.Line, line)
	return t.workOutAs(d.Line, d.Recipe)
}

// toAmend is the draft that a line changes.
func (t *Turn) toAmend() (draft, error) {
	d, _, err := t.draft()
	if err == nil && len(d.Line.Pieces) == 0 {
		err = &Error{Kind: NotNow, Why: "There is no cure worked out yet to change; start with a weight. To change it for every cure, use set.", Example: "5 lb salt 2.25% sugar 1%"}
	}
	return d, err
}

func merge(to *parse.CureLine, from parse.CureLine) {
	over(&to.Salt, from.Salt)
	over(&to.Sugar, from.Sugar)
	over(&to.Nitrite, from.Nitrite)
	over(&to.Mix, from.Mix)
	over(&to.MixNitrate, from.MixNitrate)
	over(&to.Ascorbate, from.Ascorbate)
	over(&to.Days, from.Days)
	over(&to.From, from.From)
	over(&to.Fridge, from.Fridge)
	over(&to.RindOn, from.RindOn)
	if from.RindOn != nil {
		for i := range to.Pieces {
			to.Pieces[i].RindOn = from.RindOn
		}
	}
}

// given takes a value over where one was said.
func given[T any](to, said *T) {
	if said != nil {
		*to = *said
	}
}

func over[T any](to **T, from *T) {
	if from != nil {
		*to = from
	}
}
