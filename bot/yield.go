package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func (t *Turn) yield(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.pieces("yield", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if len(p.Of) == 1 {
		p.Letter = p.Of[0]
	}
	y, err := curemath.Yields(weighings(s, p.Letter))
	if err != nil {
		return r, &Error{Kind: NotNow, Why: sentence(err.Error()), Example: fmt.Sprintf("weigh %d cured 2.1 kg", s.Number)}
	}
	if len(y.Lines) < 2 && p.Letter == "" && t.yieldByPiece(&r, s) {
		return r, nil
	}
	if len(y.Lines) < 2 {
		return r, &Error{Kind: NotNow, Why: name(s) + " was not weighed on the way yet.", Example: fmt.Sprintf("weigh %d cured 2.1 kg", s.Number)}
	}
	rows := [][]string{{"", "weight", "of fresh", "since before"}}
	for i, l := range y.Lines {
		change := ""
		if i > 0 {
			change = gained(-l.Lost)
		}
		rows = append(rows, []string{l.Stage.String(), t.units().meat(l.Weight), trim(float64(l.OfGreen), 1) + " %", change})
	}
	sum := trim(float64(y.Loss), 1) + " % lost so far"
	if y.Loss < 0 { // a brine or a pump weighs more than the smoke took
		sum = trim(float64(-y.Loss), 1) + " % over the fresh weight so far"
	}
	r.Say(reply.B(t.pieceOrBatch(s, p.Letter)), ": ", sum, ".")
	r.Table(rows)
	t.sayYieldRemarks(&r, s, p.Letter)
	if line := t.costLine(s); line != "" {
		r.Par(line)
	}
	return r, nil
}

// gained writes a change of weight with its sign.
func gained(g curemath.Grams) string {
	switch text := strings.TrimPrefix(grams(g, 0), "-"); {
	case text == "0 g":
		return text
	case g < 0:
		return "−" + text
	default:
		return "+" + text
	}
}

// yieldByPiece says what the pieces weighed so far give, each held to its own fresh
// weight; false where none was weighed.
func (t *Turn) yieldByPiece(r *reply.Reply, s course.State) bool {
	var green, now curemath.Grams
	rows, missing := [][]string{{"", "last weighed", "weight", "of fresh"}}, []string{}
	for _, p := range s.Pieces {
		y, err := curemath.Yields(weighings(s, p.Letter))
		if err != nil || len(y.Lines) < 2 {
			missing = append(missing, p.Letter)
			continue
		}
		last := y.Lines[len(y.Lines)-1]
		green, now = green+p.Weight, now+last.Weight
		rows = append(rows, []string{strings.TrimSpace(p.Letter + " " + clip(p.Flavouring, 20)), last.Stage.String(), t.units().meat(last.Weight), trim(float64(last.OfGreen), 1) + " %"})
	}
	if len(rows) < 2 {
		return false
	}
	line := trim(float64(now/green)*100, 1) + " % of the fresh weight so far"
	if len(missing) > 0 {
		line += "; not weighed yet: " + strings.Join(missing, ", ")
	}
	r.Say(reply.B(name(s)), ": ", line, ".")
	r.Table(rows)
	return true
}
