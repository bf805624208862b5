package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func weighCommands() []Command {
	return []Command{
		{Name: "weigh", Also: []string{"weight", "weighed"}, Group: groupSteps, Form: "weigh 3a smoked 2.1 kg", Help: "note a weight on the way; yields come out of it", Example: "weigh 1 cured 2.1 kg", Batch: true, Run: (*Turn).weigh},
		{Name: "cost", Also: []string{"price", "paid"}, Own: true, Group: groupSteps, Form: "cost 3 24.50", Help: "note what a batch cost; the cost by weight comes out of it", Example: "cost 1 24.50", Batch: true, Run: (*Turn).cost},
		{Name: "yield", Group: groupLook, Form: "yield 3", Help: "weights, losses, cost by weight", Example: "yield 1", Batch: true, Reads: true, Run: (*Turn).yield},
	}
}

// weighStages are the words for when a piece was on the scale.
func weighStages() map[string]curemath.WeighStage {
	return map[string]curemath.WeighStage{"green": curemath.WeighedGreen, "fresh": curemath.WeighedGreen, "cured": curemath.WeighedCured,
		"dried": curemath.WeighedDried, "dry": curemath.WeighedDried, "smoked": curemath.WeighedSmoked, "sliced": curemath.WeighedSliced, "packed": curemath.WeighedSliced}
}

// stageNow is the stage a weight told now is of.
func stageNow(s course.State, letter string) curemath.WeighStage {
	if letter == "" {
		letter = s.Pieces[0].Letter
	}
	p, _ := s.Find(letter)
	next, ok := p.Next()
	if !ok {
		return curemath.WeighedSliced
	}
	switch next.Step {
	case course.Firm:
		return curemath.WeighedGreen
	case course.Rinsed, course.Fried, course.Drying:
		return curemath.WeighedCured
	case course.Tacky, course.Season, course.Smoking:
		return curemath.WeighedDried
	case course.Packed:
		return curemath.WeighedSliced
	}
	return curemath.WeighedSmoked
}

func (t *Turn) weigh(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("weigh", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if len(p.Of) > 1 {
		return r, &Error{Kind: BadInput, Why: "One weight is of one piece: what does each weigh?", Example: fmt.Sprintf("weigh %d%s cured %s", s.Number, p.Of[0], t.units().meat(packedAbout(greenOf(s, p.Of[0]))))}
	}
	p.Letter = join(p.Of)
	if err := t.permit(logs, s); err != nil {
		return r, err
	}
	if err := ended(s); err != nil {
		return r, err
	}
	word, rest := firstWord(p.Rest)
	stage, named := weighStages()[strings.ToLower(word)]
	if !named {
		stage, rest = stageNow(s, p.Letter), p.Rest
	}
	if stage == curemath.WeighedGreen {
		return r, &Error{Kind: BadInput, Why: "The fresh weight is what the cure was worked out for and stays as it is. If it was wrong, close the batch and open it anew.", Example: fmt.Sprintf("weigh %d cured 2.1 kg", s.Number)}
	}
	w, err := parse.Weight(rest)
	if err != nil {
		return r, offering(err, fmt.Sprintf("weigh %d%s cured %s", s.Number, p.Letter, t.units().meat(packedAbout(greenOf(s, p.Letter)))))
	}
	green := greenOf(s, p.Letter)
	if w > green*3/2 {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("%s is far more than the fresh %s; nothing was noted.", t.units().meatExact(w), t.units().meatExact(green)), Example: fmt.Sprintf("weigh %d cured 2.1 kg", s.Number)}
	}
	if s, err = t.record(s.Batch, p.Letter, course.Weigh, t.Now, course.Body{Weight: w, Text: stage.String()}); err != nil {
		return r, err
	}
	r.Say(reply.B(t.pieceOrBatch(s, p.Letter)), ": ", stage.String(), " ", t.units().meatExact(w), ", ", trim(float64(w/green)*100, 1), " % of the fresh weight.")
	t.sayYieldRemarks(&r, s, p.Letter)
	return r, nil
}

func (t *Turn) pieceOrBatch(s course.State, letter string) string {
	if letter == "" {
		return name(s)
	}
	return t.pieceName(s, letter)
}

// greenOf is the fresh weight of a piece, or of the whole batch.
func greenOf(s course.State, letter string) curemath.Grams {
	if p, ok := s.Find(letter); ok {
		return p.Weight
	}
	return sum(s)
}

// weighings gathers the weights of a piece or of the whole batch. Pieces weighed
// one by one make the batch's weight once all of them are.
func weighings(s course.State, letter string) []curemath.Weighing {
	got := map[curemath.WeighStage]map[string]curemath.Grams{}
	put := func(stage curemath.WeighStage, piece string, w curemath.Grams) {
		if got[stage] == nil {
			got[stage] = map[string]curemath.Grams{}
		}
		got[stage][piece] = w
	}
	for _, l := range s.Log {
		if l.Body.Weight <= 0 {
			continue
		}
		switch {
		case l.Kind == course.Weigh:
			put(weighStages()[l.Body.Text], l.Piece, l.Body.Weight)
		case course.Step(l.Kind) == course.Packed:
			put(curemath.WeighedSliced, l.Piece, l.Body.Weight)
		}
	}
	out := []curemath.Weighing{{Stage: curemath.WeighedGreen, Weight: greenOf(s, letter)}}
	for stage := curemath.WeighedCured; stage <= curemath.WeighedSliced; stage++ {
		if w, ok := whole(s, got[stage], letter); ok {
			out = append(out, curemath.Weighing{Stage: stage, Weight: w})
		}
	}
	return out
}

func whole(s course.State, by map[string]curemath.Grams, letter string) (curemath.Grams, bool) {
	if letter != "" && len(s.Pieces) > 1 {
		w, ok := by[letter]
		return w, ok
	}
	if w, ok := by[""]; ok {
		return w, true
	}
	var total curemath.Grams
	for _, p := range s.Pieces {
		w, ok := by[p.Letter]
		if !ok {
			return 0, false
		}
		total += w
	}
	return total, true
}

func (t *Turn) sayYieldRemarks(r *reply.Reply, s course.State, letter string) {
	y, err := curemath.Yields(weighings(s, letter))
	if err != nil {
		return
	}
	if y.FreshBelly == curemath.FreshBellyOver {
		r.Say("Mind: that is ", grams(y.Excess, 0), " over the fresh belly. Bacon ready to slice may not weigh more than the fresh belly did (9 CFR 319.107; second-hand, not checked against the text).")
	}
	for _, m := range y.Remarks {
		switch m {
		case curemath.YieldGained:
			r.Say("Mind: it gained weight where it can only lose; check the scale and the stage.")
		case curemath.YieldUnusual:
			r.Say("Mind: under 75 % of fresh is unusual; 85 to 95 % is planned with (common practice, no source).")
		}
	}
}

var amount = regexp.MustCompile(`^\s*([$€£]|CHF|USD|EUR|GBP)?\s*(\d{1,6}(?:[.,]\d{1,2})?)\s*([$€£]|CHF|USD|EUR|GBP|kr|zł)?\s*$`)

var onlyDigits = regexp.MustCompile(`^\d{1,5}$`)

func (t *Turn) cost(args string) (reply.Reply, error) {
	var r reply.Reply
	of, text := "", args
	if ref, rest, ok, err := parse.Batch(args); err == nil && ok && rest != "" && !amount.MatchString(args) {
		of, text = fmt.Sprint(ref.Number), rest
	}
	if n := strings.TrimSpace(text); of == "" && onlyDigits.MatchString(n) { // rather a batch than what it cost
		if open, err := t.openBatches(); err == nil && slices.ContainsFunc(open, func(s course.State) bool { return fmt.Sprint(s.Number) == n }) {
			return r, &Error{Kind: BadInput, Why: "What did batch " + n + " cost? Nothing was noted.", Example: "cost " + n + " 24.50"}
		}
	}
	p, err := t.which("cost", of, nil)
	if err != nil {
		return r, withValue(err, text)
	}
	if err := ended(p.State); err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(logs, s); err != nil {
		return r, err
	}
	m := amount.FindStringSubmatch(text)
	if m == nil {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as what it cost.", clip(text, 30)), Example: fmt.Sprintf("cost %d 24.50", s.Number)}
	}
	body := course.Body{Extra: map[string]string{"cost": strings.Replace(m[2], ",", ".", 1), "currency": m[1] + m[3]}}
	if s, err = t.record(s.Batch, "", course.Cost, t.Now, body); err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": cost ", moneyText(s), " noted.")
	if with := t.withCure(s); with != "" {
		r.Say(with)
	}
	if line := t.costLine(s); line != "" {
		r.Say(line)
	} else {
		low, typical, high, err := curemath.PlannedYield(sum(s))
		if err == nil {
			r.Say("Planned with ", t.units().meat(typical), " of bacon (", t.units().meat(low), " to ", t.units().meat(high), "; common practice, no source), that is ", t.perWeight(s, typical), ".")
		}
	}
	return r, nil
}

// paid is what a batch cost, as last told.
func paid(s course.State) (amount curemath.Money, currency string, ok bool) {
	for _, l := range s.Log {
		if l.Kind == course.Cost {
			x, err := strconv.ParseFloat(l.Body.Extra["cost"], 64)
			amount, currency, ok = curemath.Money(x), l.Body.Extra["currency"], err == nil
		}
	}
	return amount, currency, ok
}

func money(x curemath.Money, currency string) string {
	return strings.TrimSpace(fmt.Sprintf("%.2f %s", float64(x), currency))
}

func moneyText(s course.State) string {
	x, currency, _ := paid(s)
	return money(x, currency)
}

// perWeight is the cost by weight in the conversation's unit.
func (t *Turn) perWeight(s course.State, packed curemath.Grams) string {
	x, currency, ok := t.spent(s)
	if !ok {
		return ""
	}
	c, err := curemath.CostOf(x, packed)
	if err != nil {
		return ""
	}
	if t.units() == metric {
		return money(c.PerKilogram, currency) + " a kilo"
	}
	return money(c.PerPound, currency) + " a pound"
}

// costLine is the cost by weight of what was packed, or "".
func (t *Turn) costLine(s course.State) string {
	w, ok := packedWeight(s)
	if !ok {
		return ""
	}
	if per := t.perWeight(s, w); per != "" {
		return "Cost: " + per + " packed."
	}
	return ""
}

func packedWeight(s course.State) (curemath.Grams, bool) {
	for _, w := range weighings(s, "") {
		if w.Stage == curemath.WeighedSliced {
			return w.Weight, true
		}
	}
	return 0, false
}
