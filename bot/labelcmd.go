package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/label"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
)

func labelCommands() []Command {
	return []Command{{Name: "label", Also: []string{"labels"}, Group: groupSteps, Form: "label 3 / label 3a sheet", Help: "the label of what was packed, to print", Example: "label 1", Batch: true, Reads: true, Run: (*Turn).label}}
}

func (t *Turn) label(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("label", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	var labels []label.Label
	for _, piece := range s.Pieces {
		if p.Letter != "" && piece.Letter != p.Letter {
			continue
		}
		if m, ok := piece.Marks[course.Packed]; ok && !m.Skipped {
			labels = append(labels, t.labelOf(s, piece, m))
		}
	}
	if len(labels) == 0 {
		return r, &Error{Kind: NotNow, Why: name(s) + " is not packed yet, so it has no label.", Example: fmt.Sprintf("pack %d %s", s.Number, t.units().meat(sum(s)*9/10))}
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
	fridge, freezer := course.UseBy(packed.At, t.Loc)
	l := label.Label{Product: product(p), Statement: statement(s, p), Ingredients: ingredients(s, p), Allergens: allergens(p.Flavouring + " " + seasoned(p)),
		Packed: packed.At.In(t.Loc), UseByFreezer: noon(freezer, t.Loc), Batch: s.Number, Piece: letterOnly(s, p.Letter), Net: packed.Body.Weight}
	if !packed.Body.Frozen {
		l.UseByFridge = noon(fridge, t.Loc)
	}
	if len(s.Pieces) > 1 {
		l.Net = 0
		if w, ok := whole(s, packedBy(s), p.Letter); ok {
			l.Net = w
		}
	}
	return l
}

func packedBy(s course.State) map[string]curemath.Grams {
	by := map[string]curemath.Grams{}
	for _, l := range s.Log {
		if course.Step(l.Kind) == course.Packed && l.Piece != "" && l.Body.Weight > 0 {
			by[l.Piece] = l.Body.Weight
		}
	}
	return by
}

func product(p course.PieceState) string {
	if p.Flavouring == "" {
		return "Bacon"
	}
	return "Bacon, " + p.Flavouring
}

// statement is what the label says about cooking. Only readings that meet both the
// 6.5-log table and the 160 °F of the home-preservation review take "cook before
// eating" off it; a dry surface is covered by neither, so the word stays careful.
func statement(s course.State, p course.PieceState) string {
	smoked, ok := p.Marks[course.Smoking]
	if !ok || smoked.Skipped {
		return "Cured, not smoked; cook before eating"
	}
	h, err := curemath.HeatSoFar(course.Since(s.Cores(p.Letter), smoked.At))
	if err == nil && h.Table6_5.Met && h.Home.Met {
		return "Cured, smoked, heated through by the keeper's readings"
	}
	return label.DefaultStatement
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
	for _, f := range []string{p.Flavouring, seasoned(p)} {
		if f != "" && !strings.EqualFold(f, "plain") && !strings.EqualFold(f, "none") {
			list = append(list, label.Ingredient{Name: f})
		}
	}
	return list
}

func seasoned(p course.PieceState) string { return p.Marks[course.Season].Body.Text }

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
