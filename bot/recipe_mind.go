package bot

import (
	"errors"
	"fmt"

	"larderhand/bot/course"
	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// The most hours in the smoke and days in the cure that a recipe names without being
// doubted: sense, common practice, no source. A batch is not opened later than that
// many days into its cure either.
const (
	mostSmoke = 72.0
	mostCure  = 30
)

// sayMinds says what has to be minded about a recipe wherever it is shown: what the
// sums say of it under the rules here, and what it says of itself that is not to be
// followed.
func (t *Turn) sayMinds(r *reply.Reply, rec exchange.Recipe) {
	c, err := t.checkRecipe(rec)
	if err != nil {
		r.Say("Mind: ", t.refusedHere(err))
	}
	for _, w := range c.warnings {
		switch w.Kind {
		case curemath.WarnThicknessUnknown, curemath.WarnFinerScale, curemath.WarnScaleTooCoarse, curemath.WarnRoundedUnderFloor:
			continue // of the kilogram it was worked out on, not of the recipe
		}
		r.Say("Mind: ", w.Text)
	}
	t.sayOwnMinds(r, rec)
}

// refusedHere says why a recipe that is kept cannot be used under the rules here.
func (t *Turn) refusedHere(err error) string {
	why := sentence(err.Error())
	refused := &Error{}
	if errors.As(err, &refused) {
		why = refused.Why
	} else if refused = fromRefusal(err); refused != nil {
		why = refused.Why
	}
	return fmt.Sprintf("under the rules here (%s) it is refused. %s", t.rules().ID, why)
}

// sayOwnMinds says what is wrong with the days, the smoke and the core temperature a
// recipe names. A batch made by it goes by the day rule and its own readings.
func (t *Turn) sayOwnMinds(r *reply.Reply, rec exchange.Recipe) {
	least := 0
	if rec.Thickness > 0 {
		if d, err := curemath.DayRule(rec.Thickness, rec.RindOn); err == nil {
			least = d.Min
		}
	} else if d, err := curemath.DayRule(curemath.Inch, rec.RindOn); err == nil { // a thin belly
		least = d.Min
	}
	switch {
	case rec.Days > 0 && rec.Days < least && rec.Thickness > 0:
		r.Say(fmt.Sprintf("Mind: %s in the cure: too few at %s. The day rule asks for %d at least, and I go by that. What is not cured through is raw pork.", count(rec.Days, "day"), t.units().thickness(rec.Thickness), least))
	case rec.Days > 0 && rec.Days < least:
		r.Say(fmt.Sprintf("Mind: %s in the cure: too few even for a belly an inch (25 mm) thick. The day rule asks for %d at least, and I go by that. What is not cured through is raw pork.", count(rec.Days, "day"), least))
	case rec.Days > mostCure:
		r.Say(fmt.Sprintf("Mind: %d days in the cure are past a belly's days (%d is the most I open one at).", rec.Days, mostCure))
	}
	if rec.Core != nil && rec.Core.Fahrenheit() < course.CoreTarget {
		r.Say("Mind: smoked to ", t.units().temp(rec.Core.Fahrenheit()), " at the core it is raw bacon: cook it before eating, to 145 °F (63 °C) and 3 minutes' rest (USDA).")
	}
	if rec.SmokeHours > mostSmoke {
		r.Say("Mind: ", trim(rec.SmokeHours, 1), " h of smoke looks like a slip; smoke between 4 and 60 °C (40 and 140 °F) is warm and airless, where botulism starts (from memory). Go by your own readings.")
	}
}
