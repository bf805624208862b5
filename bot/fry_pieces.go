package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// sliceTastes is how the slices of a batch were: the letters of the pieces.
type sliceTastes struct {
	salty, right []string
	clear        bool // every clause that names a piece says how it was
	named        bool // a piece is named at all
}

var (
	clauses     = regexp.MustCompile(`(?i)\s*(?:[,;.\n]|\bbut\b|\bwhile\b)\s*`)
	clauseOf    = regexp.MustCompile(`(?i)^(?:and |the |piece |pieces |slab |slabs )*([a-z](?:(?: and |\s*&\s*|\s*\+\s*|/)[a-z])*)(?:\s*[:=]\s*|\s+(?:is |are |was |were |tastes? |tasted |a bit |a little |both |too )*|$)(.*)$`)
	lone        = regexp.MustCompile(`(?i)(?:^|[\s,;:&+/(])([a-z])(?:$|[\s,;:.&+/)!])`)
	oneLetter   = regexp.MustCompile(`(?i)\b[a-z]\b`)
	andList     = regexp.MustCompile(`(?i)[a-z]\s*(?:\band\b|[&+/])\s*[a-z]$`)
	ofOne       = regexp.MustCompile(`(?i)^(?:piece |slab )?[a-z] (?:is|was|tastes)\b`)
	articleThen = regexp.MustCompile(`(?i)^(?:a|i) (?:` + smallAmount + `|slice|piece|think|fried|tried|tasted|thin|test|fr)`)
)

// tastedPieces reads "b is a bit salty, a and c good". Letters in a row share what is
// said after the last of them.
func tastedPieces(s course.State, text string) sliceTastes {
	var t sliceTastes
	if len(s.Pieces) < 2 {
		return t
	}
	t.clear = true
	var open []string // named, and nothing said of them yet
	listOver := false // the letters so far ended with "and"
	for _, clause := range clauses.Split(strings.TrimSpace(text), -1) {
		m := clauseOf.FindStringSubmatch(clause)
		if m == nil || articleThen.MatchString(clause) {
			if slices.ContainsFunc(lone.FindAllStringSubmatch(clause, -1), func(l []string) bool { return hasPiece(s, strings.ToLower(l[1])) && !strings.EqualFold(l[1], "a") }) {
				t.named, t.clear = true, false
			}
			continue
		}
		if len(open) > 0 && (listOver || ofOne.MatchString(clause)) { // "a and b, c too salty", "b, c is salty"
			t.clear = false
		}
		listOver = m[2] == "" && andList.MatchString(m[1])
		for _, l := range oneLetter.FindAllString(m[1], -1) {
			if l = strings.ToLower(l); !hasPiece(s, l) {
				t.clear = false
			}
			t.named, open = true, append(open, l)
		}
		said := m[2]
		for _, l := range lone.FindAllStringSubmatch(said, -1) { // "a good b too salty"
			if l := strings.ToLower(l[1]); l != "a" && hasPiece(s, l) {
				t.clear = false
			}
		}
		switch {
		case said == "":
		case soundsRight.MatchString(said):
			t.right, open = append(t.right, open...), nil
		case soundsSalty.MatchString(said):
			t.salty, open = append(t.salty, open...), nil
		default:
			t.clear = false
		}
	}
	t.clear = t.clear && len(open) == 0 && !slices.ContainsFunc(t.right, func(l string) bool { return slices.Contains(t.salty, l) })
	return t
}

// fryPieces records each piece's slice as it was said to be.
func (t *Turn) fryPieces(s course.State, said sliceTastes, text string, at time.Time) (reply.Reply, error) {
	var r reply.Reply
	if !said.clear {
		first, second := s.Pieces[0].Letter, s.Pieces[1].Letter
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("I can't tell from “%s” which slice was right and which too salty; nothing was recorded. Say it piece by piece.", clip(text, 60)),
			Example: fmt.Sprintf("fry %d %s too salty, %s good", s.Number, second, first)}
	}
	for _, l := range said.salty {
		if err := t.write(s.Batch, l, course.Note, at, course.Body{Text: tooSalty}); err != nil {
			return r, err
		}
	}
	var right []string
	for _, l := range said.right {
		if _, done := s.Marked(course.Fried, l); done {
			continue
		}
		if err := t.gate(course.Fried, s, l, at, ""); err != nil {
			return r, err
		}
		if err := t.write(s.Batch, l, string(course.Fried), at, course.Body{}); err != nil {
			return r, err
		}
		right = append(right, l)
	}
	s, err := replan(t.Tx, t.Conv, t.Loc, s.Batch)
	if err != nil {
		return r, err
	}
	for _, l := range right {
		r.Say(reply.B(t.pieceOrBatch(s, l)), ": ", stepDone(course.Fried), ".")
	}
	for _, l := range said.salty {
		r.Say(reply.B(t.pieceOrBatch(s, l)), ": too salty.")
	}
	if len(said.salty) > 0 {
		t.saySoak(&r, s, said.salty)
		return r, nil
	}
	return r, t.sayNext(&r, s)
}

const tooSalty = "test slice too salty"

// saySoak says what helps a piece that is too salty, with its buttons; letters has
// one "" for the whole batch.
func (t *Turn) saySoak(r *reply.Reply, s course.State, letters []string) {
	r.Say("Soak it in cold water in the fridge for 30 minutes to 2 hours, change the water half-way, then fry another slice (common practice, no source).")
	r.Say("The next one can start with less salt: this cure had ", percent(s.Plan.Salt), " on the meat.")
	for _, l := range letters {
		n := fmt.Sprintf("%d%s", s.Number, l)
		label := ""
		if l != "" && len(letters) > 1 {
			label = " " + l
		}
		r.Press(reply.Button{Label: "Soak" + label + " 45 min", Line: "soak " + n + " 45 min", Version: s.Version},
			reply.Button{Label: "Tastes right after all", Line: "fry " + n, Version: s.Version})
	}
}
