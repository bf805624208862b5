package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// whatOf finds which sum of a batch is asked about, before or after its number.
var whatOf = regexp.MustCompile(`(?is)^(?:(heat|cooling|cooled|chill|estimate|progress|salt|yield|cost)\b\s*)?(.*?)(?:\s*\b(heat|cooling|cooled|chill|estimate|progress|salt|yield|cost))?$`)

var whyCheck = regexp.MustCompile(`(?is)^check\b\s*(\S.*)$`)

// whyOther gives the arithmetic of what is no cure: a recipe checked, the heat, the
// cooling, the estimate of the salt, the yield. ok is false where a cure is meant.
func (t *Turn) whyOther(args string) (r reply.Reply, ok bool, err error) {
	args = strings.TrimSpace(args)
	if m := whyCheck.FindStringSubmatch(args); m != nil {
		r, err = t.whyChecked(m[1])
		return r, true, err
	}
	s, err := t.slate()
	if err != nil {
		return r, false, err
	}
	if s.Checked != "" && (args == "" || strings.EqualFold(args, "check")) {
		r, err = t.whyChecked(s.Checked)
		return r, true, err
	}
	m := whatOf.FindStringSubmatch(args)
	if m == nil {
		return r, false, nil
	}
	what := strings.ToLower(cmp.Or(m[1], m[3]))
	if what == "" {
		return r, false, nil
	}
	p, err := t.which("why", m[2], nil)
	if err != nil {
		return r, true, err
	}
	if trail := t.costTrail(p.State); what == "cost" && len(trail) > 0 { // of the batch, whichever piece was named
		t.sayTrail(&r, name(p.State), trail)
	}
	for i, piece := range p.State.Pieces {
		if what == "cost" || (p.Letter != "" && piece.Letter != p.Letter) {
			continue
		}
		if trail := t.trailOf(what, p.State, piece); len(trail) > 0 {
			t.sayTrail(&r, pieceTitle(i, piece.Flavouring, len(p.State.Pieces)), trail)
		}
	}
	if r.Empty() {
		return r, true, &Error{Kind: NotNow, Why: fmt.Sprintf("There is nothing told of %s yet to work that out from.", name(p.State)), Example: fmt.Sprintf("why %d", p.State.Number)}
	}
	return r, true, nil
}

// trailOf is how a figure of a piece came about; empty where there is none yet.
func (t *Turn) trailOf(what string, s course.State, p course.PieceState) curemath.Trail {
	switch what {
	case "heat":
		if h, err := curemath.HeatSoFar(course.Since(s.OwnCores(p.Letter), p.Marks[course.Smoking].At)); err == nil && p.Has(course.Smoking) {
			return h.Trail
		}
	case "cooling", "cooled", "chill":
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok {
			return c.Trail
		}
	case "estimate", "progress", "salt":
		if c, ok := t.curing(s, p.Piece); ok {
			until := t.Now
			if firm, done := p.Marks[course.Firm]; done {
				until = firm.At
			}
			if got, err := curemath.CureProgress(c, until.Sub(s.Opened)); err == nil {
				return got.Trail
			}
		}
	default:
		if y, err := curemath.Yields(weighings(s, p.Letter)); err == nil && len(y.Lines) > 1 {
			return y.Trail
		}
	}
	return nil
}

// costTrail is how the cost of a batch came about; empty where it is not known yet.
func (t *Turn) costTrail(s course.State) curemath.Trail {
	x, _, paid := t.spent(s)
	packed, done := packedWeight(s)
	if c, err := curemath.CostOf(x, packed); paid && done && err == nil {
		return c.Trail
	}
	return nil
}

// whyChecked gives the arithmetic of a recipe that was checked.
func (t *Turn) whyChecked(recipe string) (reply.Reply, error) {
	var r reply.Reply
	c, _, err := t.checked(recipe)
	if err != nil {
		return r, err
	}
	t.sayTrail(&r, "The recipe as it is written", c.Trail)
	return r, nil
}
