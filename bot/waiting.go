package bot

import (
	"cmp"
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

// mostAsked is how many questions about readings one person can have open.
const mostAsked = 6

// pending is readings that wait for a person's word.
type pending struct {
	N        int             `json:"n"`     // of the question, so that an old button answers no other one
	Batch    int             `json:"batch"` // number
	Readings []parse.Reading `json:"readings"`
	File     string          `json:"file,omitempty"` // they came in
}

// askAbout keeps readings aside until the person says that they are right.
func (t *Turn) askAbout(s course.State, list []parse.Reading, odd string) (reply.Reply, error) {
	var r reply.Reply
	p, others, err := t.setAside(pending{Batch: s.Number, Readings: list})
	if err != nil {
		return r, err
	}
	r.Say(odd)
	t.sayQuestion(&r, p, others)
	return r, nil
}

// setAside keeps readings aside, beside those that wait already: what someone said is
// not let go without their word. others are those.
func (t *Turn) setAside(p pending) (asked pending, others []pending, err error) {
	sl, err := t.slate()
	if err != nil {
		return p, nil, err
	}
	for i, w := range sl.Waiting {
		if w.Batch == p.Batch && w.File == p.File && slices.EqualFunc(w.Readings, p.Readings, alike) { // said, or sent, once more
			return w, slices.Delete(slices.Clone(sl.Waiting), i, i+1), nil
		}
	}
	if len(sl.Waiting) >= mostAsked {
		return p, nil, t.whichWaiting(sl.Waiting, "I keep no more of them aside, so this was not noted, being odd too; what is not odd still is. Were they all slips, say drop all; all right, keep all. Then this again.")
	}
	others = sl.Waiting
	if p.N, err = t.number(others); err != nil {
		return p, nil, err
	}
	sl.Waiting = append(slices.Clone(others), p)
	return p, others, t.saveSlate(sl)
}

// askedSetting is the number of the last question asked in a conversation.
const askedSetting = "asked"

// number is a number for a question, of which none is given twice in the conversation,
// whoever is asked: so pressing somebody else's button answers nothing.
func (t *Turn) number(waiting []pending) (n int, err error) {
	n, _ = strconv.Atoi(t.Conv.Settings.Named[askedSetting])
	for _, w := range waiting {
		n = max(n, w.N)
	}
	n++
	t.name(askedSetting, strconv.Itoa(n))
	t.Conv, err = t.Tx.SaveConversation(t.Conv)
	return n, err
}

// alike says whether two readings are of one instant and say the same.
func alike(a, b parse.Reading) bool {
	same := func(x, y *curemath.Fahrenheit) bool { return x == nil && y == nil || x != nil && y != nil && *x == *y }
	return a.Piece == b.Piece && a.At.Equal(b.At) && same(a.Pit, b.Pit) && same(a.Core, b.Core)
}

// sayQuestion asks for a word about readings set aside, and names the others.
func (t *Turn) sayQuestion(r *reply.Reply, p pending, others []pending) {
	say, counts, keep, drop, number := r.Say, "It counts", "It is right, keep it", "Drop it", ""
	if p.File != "" {
		say, counts, keep, drop = r.Par, "They count", "Right, keep them", "Drop them"
	}
	if len(others) > 0 {
		number = " " + strconv.Itoa(p.N)
	}
	say(counts, " only if you say so: ", reply.Type("keep"+number), " or ", reply.Type("drop"+number), ".")
	t.sayWaiting(r, others, "Waiting for your word too: ")
	r.Press(reply.Button{Label: keep, Line: fmt.Sprintf("keep %d", p.N)}, reply.Button{Label: drop, Line: fmt.Sprintf("drop %d", p.N)})
}

func (t *Turn) sayWaiting(r *reply.Reply, list []pending, head string) {
	line := []any{head}
	for i, w := range list {
		if i > 0 {
			line = append(line, "; ")
		}
		line = append(line, t.pendingText(w), " (", reply.Type(fmt.Sprintf("keep %d", w.N)), ")")
	}
	if len(list) > 0 {
		r.Say(append(line, ".")...)
	}
}

func (t *Turn) pendingText(p pending) string {
	return fmt.Sprintf("%s of batch %d", cmp.Or(p.File, t.readingsText(p.Readings)), p.Batch)
}

func (t *Turn) whichWaiting(list []pending, why string) error {
	e := &Error{Kind: NotNow, Example: fmt.Sprintf("keep %d", list[len(list)-1].N)}
	var all []string
	for _, w := range list {
		all = append(all, fmt.Sprintf("%d, %s", w.N, t.pendingText(w)))
	}
	e.Why = fmt.Sprintf("Waiting for your word: %s. %s", strings.Join(all, "; "), why)
	for _, w := range list[max(0, len(list)-2):] {
		e.Buttons = append(e.Buttons, reply.Button{Label: fmt.Sprintf("Keep %d", w.N), Line: fmt.Sprintf("keep %d", w.N)},
			reply.Button{Label: fmt.Sprintf("Drop %d", w.N), Line: fmt.Sprintf("drop %d", w.N)})
	}
	if len(list) > 2 {
		e.Buttons = append(e.Buttons, reply.Button{Label: "Drop all", Line: "drop all"}, reply.Button{Label: "Keep all", Line: "keep all"})
	}
	if len(list) >= mostAsked {
		e.Example = "drop all"
	}
	return e
}

var (
	everyWaiting = regexp.MustCompile(`(?i)\b(?:all|both|every)\b`)
	oneWaiting   = regexp.MustCompile(`\d+`)
)

// answered takes the readings a "keep" or a "drop" speaks of off the slate: the only
// ones that wait, or those of the numbers said.
func (t *Turn) answered(args string) (of, left []pending, err error) {
	sl, err := t.slate()
	if err != nil {
		return nil, nil, err
	}
	said := oneWaiting.FindAllString(args, -1)
	switch all := everyWaiting.MatchString(args); {
	case len(sl.Waiting) == 0:
		return nil, nil, &Error{Kind: NotNow, Why: "There are no readings I asked about.", Example: "pit 1 148 core 121"}
	case all || len(said) == 0 && len(sl.Waiting) == 1:
		of = sl.Waiting
	case len(said) == 0:
		return nil, nil, t.whichWaiting(sl.Waiting, "Which is meant?")
	default:
		for _, w := range sl.Waiting {
			if slices.Contains(said, strconv.Itoa(w.N)) {
				of = append(of, w)
			} else {
				left = append(left, w)
			}
		}
		if len(of) < len(said) {
			return nil, nil, t.whichWaiting(sl.Waiting, "Any other was answered before, or is not yours to answer.")
		}
	}
	sl.Waiting = left
	return of, left, t.saveSlate(sl)
}

// keep keeps what the line says: a batch as a recipe, or the readings that wait.
func (t *Turn) keep(args string) (reply.Reply, error) {
	if asRecipe.MatchString(args) {
		return t.saveRecipe(args)
	}
	return t.keepReadings(args)
}

func (t *Turn) keepReadings(args string) (reply.Reply, error) {
	var kept reply.Reply
	of, left, err := t.answered(args)
	if err != nil {
		return kept, err
	}
	for _, p := range of {
		s, err := t.waitingIn(p)
		if err == nil {
			err = cmp.Or(t.permit(logs, s), ended(s))
		}
		if err != nil {
			return kept, err
		}
		if p.File != "" { // what came in by another file since is there already
			p.Readings = slices.DeleteFunc(p.Readings, func(r parse.Reading) bool { return noted(s, r) })
		}
		if len(p.Readings) == 0 {
			kept.Say("All of ", p.File, " is noted already.")
			continue
		}
		kept.Say("Kept: ", t.readingsText(p.Readings), ".")
		r, err := t.log(s, p.Readings, p.File)
		if err != nil {
			return kept, err
		}
		kept.Append(r)
	}
	t.sayWaiting(&kept, left, "Waiting still: ")
	return kept, nil
}

func (t *Turn) dropReadings(args string) (reply.Reply, error) {
	var r reply.Reply
	of, left, err := t.answered(args)
	if err != nil {
		return r, err
	}
	for _, p := range of {
		s, err := t.waitingIn(p)
		if err != nil {
			return r, err
		}
		r.Say("Left out of ", name(s), ": ", t.readingsText(p.Readings), ".")
	}
	t.sayWaiting(&r, left, "Waiting still: ")
	return r, nil
}

func (t *Turn) waitingIn(p pending) (course.State, error) {
	b, err := t.Tx.Batch(t.Conv.ID, p.Batch)
	if err != nil {
		return course.State{}, err
	}
	return load(t.Tx, b)
}
