package curemath

import (
	"fmt"
	"math"
)

// BoxTargets is what a dry box cure with overhauls aims at: a dry cure rubbed on
// in several goes, the pieces restacked each time.
type BoxTargets struct {
	DryTargets
	// Rubs is how many goes, 1 to MaxRubs; zero means DefaultRubs.
	Rubs int
	// Gap is the days between rubs; zero means DefaultGap.
	Gap int
}

// Rub is one go: on which day of the cure (0 is the first), and with what.
type Rub struct {
	Day     int
	Portion Portion
}

// BoxCure is a dry cure split into rubs. The rubs sum to Weigh exactly.
type BoxCure struct {
	DryCure
	Rubs []Rub
}

// An extension bulletin has rubs three to five days apart, three for hams up to
// 20 lb and two for picnics (Mississippi State extension P2648: found). For a
// belly two, four days apart, are taken.
const (
	DefaultRubs = 2
	DefaultGap  = 4
	MaxRubs     = 6
	maxGap      = 14
)

// SolveBox gives the grams for a dry box cure. All of every rub counts, by the formula
// of SolveDry (FSIS Directive 7620.3, chapter 3), and nothing is taken off for liquor
// that drains away. Errors are *Refusal.
func SolveBox(t BoxTargets) (BoxCure, error) {
	if t.Rubs == 0 {
		t.Rubs = DefaultRubs
	}
	if t.Gap == 0 {
		t.Gap = DefaultGap
	}
	if t.Rubs < 1 || t.Rubs > MaxRubs {
		return BoxCure{}, &Refusal{Kind: RubsOutOfRange, Count: t.Rubs}
	}
	if t.Gap < 1 || t.Gap > maxGap {
		return BoxCure{}, &Refusal{Kind: RubsOutOfRange, Count: t.Gap, Field: "days between rubs"}
	}
	dry, err := solveDry(t.DryTargets, DryBox)
	if err != nil {
		return BoxCure{}, err
	}
	c := BoxCure{DryCure: dry}
	c.Rubs = splitRubs(dry.Weigh, dry.Step, t.Green, t.Rubs, t.Gap)
	l := newLedger(t.Rubs)
	for i, r := range c.Rubs {
		l.step(fmt.Sprintf("Rub %d of %d, day %d", i+1, t.Rubs, r.Day), Source{Document: "Mississippi State extension P2648", Section: "rubs 3 to 5 days apart", Status: Found}).
			grams(r.Portion.Mix).say(" mix, ").grams(r.Portion.Salt).say(" salt, ").grams(r.Portion.Sugar).say(" sugar")
	}
	c.Trail = append(c.Trail, l.trail()...)
	c.Warnings = append(c.Warnings, drained())
	return c, nil
}

func drained() Warning {
	return Warning{Kind: WarnDrained, Source: handbook("ch. 3, dry products", SecondHand),
		Text: "Every rub counts in full, also what drains away with the liquor. Never rub on more than is weighed here."}
}

// splitRubs deals the weighed portion out in whole scale steps, the odd steps
// going to the first rubs, so that the rubs add up to what was weighed.
func splitRubs(p Portion, step, meat Grams, rubs, gap int) []Rub {
	out := make([]Rub, rubs)
	for i := range out {
		out[i].Day = i * gap
		out[i].Portion = Portion{
			Mix:       deal(p.Mix, step, rubs, i),
			Salt:      deal(p.Salt, coarseStep(meat), rubs, i),
			Sugar:     deal(p.Sugar, coarseStep(meat), rubs, i),
			Ascorbate: deal(p.Ascorbate, mixStep(p.Ascorbate, meat), rubs, i),
		}
	}
	return out
}

func deal(all, step Grams, rubs, i int) Grams {
	n := perGram(step)
	steps := int(math.Round(float64(all) * n))
	each := steps / rubs
	if i < steps%rubs {
		each++
	}
	return Grams(float64(each) / n)
}

// BoxRecipe is a dry box cure already written by weight.
type BoxRecipe struct {
	Green  Grams
	RindOn bool
	Rubs   []Portion
	Mix    Mix
	Rules  RuleSet
}

// CheckBox says what a dry box cure comes to, every rub counted in full (see
// SolveDry for the formula and its source). Errors are *Refusal.
func CheckBox(r BoxRecipe) (Check, error) {
	var all Portion
	for _, p := range r.Rubs {
		all = all.Plus(p)
	}
	c, err := checkDry(DryRecipe{Green: r.Green, RindOn: r.RindOn, Portion: all, Mix: r.Mix, Rules: r.Rules}, DryBox, "every rub counted")
	if err != nil {
		return Check{}, err
	}
	c.Warnings = append(c.Warnings, drained())
	return c, nil
}

// BlendMix is the mix that comes of blending that much salt, sugar, sodium nitrite and
// sodium nitrate, as older bulletins write a dry cure: each its share of the sum
// (computed).
func BlendMix(name string, salt, sugar, nitrite, nitrate Grams) (Mix, error) {
	all := salt + sugar + nitrite + nitrate
	if err := checkWeight("weight of the blend", all, 1); err != nil {
		return Mix{}, err
	}
	m := Mix{Name: name, Nitrite: shareOn(nitrite, all), Nitrate: shareOn(nitrate, all), Sugar: shareOn(sugar, all)}
	return m, m.check()
}
