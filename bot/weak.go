package bot

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/reply"
	"larderhand/curemath"
)

// weak is a cure that weighs out, rounded down to the scale, under what counts as
// cured.
type weak struct {
	least  curemath.PPM
	pieces []string     // the letters of several
	rind   bool         // reckoned with the rind
	higher curemath.PPM // the aim that comes out over it; 0 if no lawful one does
}

// weakCure says whether any piece of a dry cure is weak.
func (t *Turn) weakCure(c cured) (weak, bool) {
	var w weak
	for i, cure := range c.cures {
		if curemath.Cured(cure.Ingoing) {
			continue
		}
		if len(w.pieces) == 0 || cure.Ingoing < w.least {
			w.least = cure.Ingoing
		}
		w.pieces, w.rind = append(w.pieces, letter(i)), w.rind || cure.Targets.RindOn
	}
	if len(w.pieces) == 0 {
		return w, false
	}
	w.higher = higherAim(func(aim curemath.PPM) (bool, error) {
		line := c.line
		line.Nitrite = &aim
		at, err := t.solve(line)
		return !slices.ContainsFunc(at.cures, func(d curemath.DryCure) bool { return !curemath.Cured(d.Ingoing) }), err
	})
	if len(c.cures) == 1 {
		w.pieces = nil
	}
	return w, true
}

// weakWet says the same of a wet or box cure.
func (t *Turn) weakWet(s wetSum, asked string) (weak, bool) {
	if curemath.Cured(s.ingoing) {
		return weak{}, false
	}
	return weak{least: s.ingoing, rind: s.targets.RindOn, higher: higherAim(func(aim curemath.PPM) (bool, error) {
		at, err := t.solveWet(aimed(asked, aim))
		return curemath.Cured(at.ingoing), err
	})}, true
}

// aimed is a wet cure as it was asked for, with another aim in place of what it names.
func aimed(asked string, aim curemath.PPM) string {
	rest, _ := take(asked, aimOf)
	return rest + "; aim for " + num(float64(aim)) + " ppm"
}

var aimOf = regexp.MustCompile(`;\s*aim for ([\d.]+) ppm`)

// higherAim looks for the lowest aim in steps of 5 ppm that comes out as cured.
func higherAim(cures func(curemath.PPM) (bool, error)) curemath.PPM {
	const step = 5
	for aim := curemath.CuredFrom + step; aim <= 2*curemath.CuredFrom; aim += step {
		ok, err := cures(aim)
		if err != nil {
			return 0 // over the limit, or refused for another cause
		}
		if ok {
			return aim
		}
	}
	return 0
}

// text says what is wrong with it.
func (w weak) text() string {
	of, rind := "Rounded down to the scale, what is weighed comes", ""
	if len(w.pieces) > 0 {
		of = "Rounded down to the scale, what is weighed for " + strings.Join(w.pieces, ", ") + " comes"
	}
	if w.rind {
		rind = " on the weight with its rind"
	}
	return fmt.Sprintf("%s to %s of nitrite%s, under the %s from which meat counts as cured [%s]. It must not be smoked so, warm or cold.", of, under(w.least), rind, ppm(curemath.CuredFrom), curemath.CuredSource().String())
}

func (w weak) none() string {
	return "No aim under the limit weighs out higher: cure a larger piece, or use a mix with less nitrite in it."
}

// sayWeak ends a card in place of the word to open it.
func (t *Turn) sayWeak(r *reply.Reply, w weak) {
	r.Par(reply.B("Stop: "), lowerFirst(w.text()))
	if t.Tx == nil { // nothing can be kept, so nothing can be changed
		if w.higher > 0 {
			r.Say("Say it all once more with a little more: ", ppm(w.higher), ".")
		}
		return
	}
	why := reply.Button{Label: "Why these numbers", Line: "why"}
	if w.higher == 0 {
		r.Say(w.none())
		r.Press(why)
		return
	}
	aim := "nitrite " + num(float64(w.higher)) + " ppm"
	r.Say("Aim a little higher? ", reply.Type(aim))
	r.Press(reply.Button{Label: "Aim for " + ppm(w.higher), Line: aim}, why)
}

// askHigher asks before a weak cure is opened, and keeps it for the answer.
func (t *Turn) askHigher(d draft, w weak) (reply.Reply, error) {
	var r reply.Reply
	if w.higher == 0 {
		return r, &Error{Kind: Dangerous, Why: w.text() + " Nothing is open. " + w.none(), Example: "5 lb juniper 1.5 in"}
	}
	d.Opening, d.Higher = false, w.higher
	if err := t.saveDraft(d); err != nil {
		return r, err
	}
	open := "open nitrite " + num(float64(w.higher)) + " ppm"
	r.Say(w.text(), " Nothing is open yet.")
	r.Say("Shall I aim for ", ppm(w.higher), " and open it so? ", reply.Type("yes"), " or ", reply.Type("no"), ". If the mix is on already, weigh out the difference and add it.")
	r.Press(reply.Button{Label: "Aim for " + ppm(w.higher) + " and open", Line: open}, reply.Button{Label: "No", Line: "no"})
	return r, nil
}

// raised is a draft with the aim that was asked about.
func (d draft) raised() draft {
	aim := d.Higher
	d.Higher, d.Line.Nitrite = 0, &aim
	if d.Asked != "" {
		d.Asked = aimed(d.Asked, aim)
	}
	return d
}

// twoAsked is the answer to a word that could be of two questions.
func twoAsked(d draft, word string) error {
	if d.Opening {
		return &Error{Kind: NotNow, Why: "I asked you two things: whether you weigh the mix on a scale, and whether a reading is right. Nothing was done; say keep or drop for the reading first, then yes or no for the scale.",
			Example: word}
	}
	return &Error{Kind: NotNow, Why: fmt.Sprintf("I asked you two things: whether to open at %s, and whether a reading is right. Nothing was done; say %s for the reading.", ppm(d.Higher), word),
		Example: "open nitrite " + num(float64(d.Higher)) + " ppm"}
}

// under writes a figure that is under what counts as cured, so that it reads so: 99.96
// ppm is not 100 ppm.
func under(p curemath.PPM) string {
	if said := ppm(p); said != ppm(curemath.CuredFrom) {
		return said
	}
	return ppm(curemath.PPM(math.Floor(float64(p)*10) / 10))
}
