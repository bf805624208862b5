package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/label"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
)

func labelCommands() []Command {
	return []Command{{Name: "label", Also: []string{"labels"}, Own: true, Group: groupSteps, Form: "label 3 / label 3a sheet", Help: "the label of what was packed, to print", Example: "label 1", Batch: true, Reads: true, Run: (*Turn).label}}
}

func (t *Turn) label(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("label", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if p.Letter = ""; len(p.Of) == 1 {
		p.Letter = p.Of[0]
	}
	var labels []label.Label
	for _, piece := range s.Pieces {
		if len(p.Of) > 0 && !slices.Contains(p.Of, piece.Letter) {
			continue
		}
		if l, ok := t.lossOf(s, piece); ok {
			why := l.said + " and has to be thrown away; it gets no label."
			if !l.slow {
				why = t.pieceName(s, piece.Letter) + ": " + l.said + ". It gets no label."
			}
			return r, &Error{Kind: Dangerous, Why: why, Example: fmt.Sprintf("discard %d%s %s", s.Number, letterOnly(s, piece.Letter), l.why)}
		}
		if m, ok := piece.Marks[course.Packed]; ok && !m.Skipped {
			if l := t.labelOf(s, piece, m); l.Net <= 0 {
				return r, &Error{Kind: NotNow, Why: fmt.Sprintf("I don't know what %s weighs packed, and a label must say it.", t.pieceName(s, piece.Letter)), Example: fmt.Sprintf("weigh %d%s packed %s", s.Number, letterOnly(s, piece.Letter), t.units().meat(packedAbout(piece.Weight)))}
			}
			labels = append(labels, t.labelOf(s, piece, m))
		}
	}
	if len(labels) == 0 {
		return r, &Error{Kind: NotNow, Why: t.pieceOrBatch(s, p.Letter) + " is not packed yet, so it has no label.", Example: fmt.Sprintf("pack %d%s %s", s.Number, p.Letter, t.units().meat(packedAbout(greenOf(s, p.Letter))))}
	}
	_, sheet := cutWord(p.Rest, "sheet")
	r.Say(reply.B(name(s)), ": ", count(len(labels), "label"), ".")
	for _, l := range labels {
		for i, line := range strings.Split(strings.TrimSpace(label.Text(l)), "\n") {
			if i == 0 {
				r.Par(line)
				continue
			}
			r.Say(line)
		}
	}
	if sheet || len(labels) > 1 {
		paper := label.A4
		if t.units() == us {
			paper = label.Letter
		}
		pdf, err := label.Sheet(labels, paper)
		if err != nil {
			return r, err
		}
		r.Files = append(r.Files, reply.File{Name: fmt.Sprintf("batch-%d-labels.pdf", s.Number), Type: "application/pdf", Data: pdf})
		return r, nil
	}
	pdf, err := label.PDF(labels[0])
	if err != nil {
		return r, err
	}
	r.Files = append(r.Files, reply.File{Name: fmt.Sprintf("batch-%d%s-label.pdf", s.Number, p.Letter), Type: "application/pdf", Data: pdf})
	return r, nil
}

// labelOf makes the label of one packed piece.
func (t *Turn) labelOf(s course.State, p course.PieceState, packed course.Mark) label.Label {
	fridge, freezer := course.UseBy(p.Ingoing, packed.At, t.Loc)
	l := label.Label{Product: product(p), Statement: t.statement(s, p), Ingredients: ingredients(s, p), Allergens: allergens(p.Flavouring + " " + seasoned(p)),
		Packed: packed.At.In(t.Loc), UseByFreezer: noon(freezer, t.Loc), Batch: s.Number, Piece: letterOnly(s, p.Letter), Net: packed.Body.Weight}
	if !packed.Body.Frozen {
		l.UseByFridge = noon(fridge, t.Loc)
	}
	if len(s.Pieces) > 1 { // the weight of all of them is no weight of one
		l.Net = 0
	}
	for _, w := range weighings(s, p.Letter) {
		if w.Stage == curemath.WeighedSliced {
			l.Net = w.Weight
		}
	}
	if len(s.Pieces) == 1 {
		if w, ok := packedWeight(s); ok {
			l.Net = w
		}
	}
	return l
}

func product(p course.PieceState) string {
	what := "Bacon"
	if !curemath.Cured(p.Ingoing) {
		what = "Pork belly"
	}
	if p.Flavouring == "" {
		return what
	}
	return what + ", " + p.Flavouring
}

// statement is what the label says about cooking. A cooling that no readings show to
// have been in time is told of after it.
func (t *Turn) statement(s course.State, p course.PieceState) string {
	return remarked(t.cookWord(s, p), t.unshown(s, p))
}

func remarked(word, remark string) string {
	if remark == "" {
		return word
	}
	return word + ". " + strings.Replace(remark, cookIt, "", 1)
}

// cookWord is the statement without what its cooling adds.
func (t *Turn) cookWord(s course.State, p course.PieceState) string {
	smoked, ok := p.Marks[course.Smoking]
	switch {
	case !curemath.Cured(p.Ingoing):
		return fmt.Sprintf("Only %s nitrite, not fully cured; cook before eating, as fresh pork", under(p.Ingoing))
	case !ok && !p.Has(course.Firm):
		return "Raw pork still in its cure"
	case !ok || smoked.Skipped:
		return "Cured, not smoked; cook before eating"
	case t.unshown(s, p) == "" && heatedThrough(s, p, smoked):
		return "Cured, smoked, heated through by the keeper's readings"
	}
	return label.DefaultStatement
}

// heatedThrough says whether "cook before eating" may be left off: only readings that
// meet both the 6.5-log table and the 160 °F of the home-preservation review take it
// off; a dry surface is covered by neither, so the word stays careful.
func heatedThrough(s course.State, p course.PieceState, smoked course.Mark) bool {
	h, err := curemath.HeatSoFar(believable(course.Since(s.OwnCores(p.Letter), smoked.At)))
	shown := err == nil && !slices.Contains(h.Remarks, curemath.HeatOneReading) && !slices.Contains(h.Remarks, curemath.HeatLongGap)
	return shown && h.Table6_5.Met && h.Home.Met && h.Home.Held > 0 && h.ComeUp.State != curemath.ComeUpOver
}

// believable leaves out what no core of meat can read: a slip that was kept must
// not take a caution off a label.
func believable(list []curemath.CoreReading) []curemath.CoreReading {
	return slices.DeleteFunc(slices.Clone(list), func(r curemath.CoreReading) bool { return r.Temp > mostCore })
}

// ingredients are what went in, at the weight it went in: the mix's own salt counts
// as salt.
func ingredients(s course.State, p course.PieceState) []label.Ingredient {
	nitrite := s.Plan.Mix.Of(p.MixWeight)
	list := []label.Ingredient{
		{Name: "pork belly", Weight: p.Weight},
		{Name: "salt", Weight: p.SaltWeight + p.MixWeight - nitrite},
	}
	if p.Sugar > 0 {
		list = append(list, label.Ingredient{Name: "sugar", Weight: p.Sugar})
	}
	list = append(list, label.Ingredient{Name: "preservative: sodium nitrite", Weight: nitrite})
	if s.Plan.Ascorbate > 0 {
		list = append(list, label.Ingredient{Name: "antioxidant: sodium ascorbate", Weight: s.Plan.Ascorbate.Of(p.Weight)})
	}
	for _, f := range []string{p.Flavouring, seasoned(p)} {
		if f != "" && !strings.EqualFold(f, "plain") && !strings.EqualFold(f, "none") {
			list = append(list, label.Ingredient{Name: f})
		}
	}
	return list
}

// seasoned is what a piece was seasoned with; why it was not is no ingredient.
func seasoned(p course.PieceState) string {
	m := p.Marks[course.Season]
	if m.Skipped || notSeasoned.MatchString(strings.TrimSpace(m.Body.Text)) {
		return ""
	}
	return m.Body.Text
}

var notSeasoned = regexp.MustCompile(`(?i)^(?:nothing(?: at all| on it)?|none|no|plain|unseasoned|without|left plain|no glaze|no seasoning)[.!]?$`)

// allergenWords are words of seasonings that hold one of the substances food law
// wants to stand out (Regulation (EU) 1169/2011 annex II; from memory).
var allergenWords = regexp.MustCompile(`(?i)\b(mustard|soy|soya|sesame|celery|celeriac|wheat|barley|rye|milk|butter|cream|egg|fish|anchov(?:y|ies)|oyster|shrimp|crab|peanuts?|almonds?|hazelnuts?|walnuts?|pecans?|cashews?|pistachios?|lupin|worcester(?:shire)?)\b`)

func allergens(text string) []string {
	var out []string
	seen := map[string]bool{}
	for _, w := range allergenWords.FindAllString(text, -1) {
		if w = strings.ToLower(w); !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return out
}

func noon(d plan.Date, loc *time.Location) time.Time {
	return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, loc)
}
