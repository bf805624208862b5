package bot

import (
	"errors"
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/store"
)

// sides finds what a line wants compared. One batch of several pieces compares its
// first two; one batch alone is compared with the one before it.
func (t *Turn) sides(args string) (one, other side, err error) {
	args = strings.NewReplacer(" with ", " ", " and ", " ", " vs ", " ", " versus ", " ", " to ", " ", ",", " ", "&", " ", "+", " ").Replace(" " + args + " ")
	args = strings.Join(strings.Fields(args), " ")
	first, err := t.which("compare", args, nil)
	if err != nil {
		return one, other, err
	}
	s := first.State
	one = side{s, first.Letter}
	if of := lettersAlone(s, strings.TrimSpace(first.Letter+" "+first.Rest)); len(of) > 1 {
		if len(of) > 2 {
			return one, other, twoAtATime(s, of)
		}
		return side{s, of[0]}, side{s, of[1]}, nil
	}
	if strings.TrimSpace(first.Rest) == "" {
		if first.Letter == "" && len(s.Pieces) > 1 {
			return side{s, s.Pieces[0].Letter}, side{s, s.Pieces[1].Letter}, nil
		}
		last, _, err := t.before(s)
		if errors.Is(err, store.ErrNotFound) {
			return one, other, &Error{Kind: NotNow, Why: name(s) + " has nothing before it to compare with. Which two?", Example: t.compareExample(s)}
		}
		return one, side{last, ""}, err
	}
	ref, rest, ok, err := parse.Batch(first.Rest)
	if err != nil || !ok {
		return one, other, &Error{Kind: BadInput, Why: "Compare it with which batch or piece?", Understood: t.sideName(one), Example: t.compareExample(s)}
	}
	if rest != "" {
		return one, other, &Error{Kind: BadInput, Why: fmt.Sprintf("I compare two at a time, and there is “%s” besides.", clip(rest, 30)),
			Example: fmt.Sprintf("compare %s %d%s", one.title(), ref.Number, ref.Piece)}
	}
	second, err := t.which("compare", first.Rest, nil)
	if err != nil {
		return one, other, err
	}
	other = side{second.State, second.Letter}
	if one.title() == other.title() {
		return one, other, &Error{Kind: BadInput, Why: "Those are the same.", Example: t.compareExample(s)}
	}
	return one, other, nil
}

// compareExample is a line that compares something that is there.
func (t *Turn) compareExample(s course.State) string {
	if len(s.Pieces) > 1 {
		return fmt.Sprintf("compare %d%s %d%s", s.Number, s.Pieces[0].Letter, s.Number, s.Pieces[1].Letter)
	}
	return "compare 1 2"
}

// lettersAlone reads "a b", "a 1b": pieces of one batch and nothing else.
func lettersAlone(s course.State, text string) (of []string) {
	for _, w := range strings.Fields(strings.ToLower(text)) {
		w = strings.TrimPrefix(strings.TrimPrefix(w, "#"), fmt.Sprint(s.Number))
		if !hasPiece(s, w) {
			return nil
		}
		of = add(of, w)
	}
	return of
}

func twoAtATime(s course.State, of []string) error {
	e := &Error{Kind: BadInput, Why: "I compare two at a time. Which two?", Example: fmt.Sprintf("compare %d%s %d%s", s.Number, of[0], s.Number, of[1])}
	for i := range of {
		for _, b := range of[i+1:] {
			if len(e.Buttons) < 6 {
				e.Buttons = append(e.Buttons, reply.Button{Label: of[i] + " and " + b, Line: fmt.Sprintf("compare %d%s %d%s", s.Number, of[i], s.Number, b)})
			}
		}
	}
	return e
}

// before is what "last time" means for a batch: the one before it that was made by
// the same recipe; else with the same flavouring; else by the same keeper. why says
// which.
func (t *Turn) before(s course.State) (last course.State, why string, err error) {
	list, err := t.Tx.Batches(t.Conv.ID, true)
	if err != nil {
		return last, "", err
	}
	best := 0
	for _, b := range list {
		if b.Number >= s.Number || b.Stage == string(course.Discarded) {
			continue
		}
		o, err := load(t.Tx, b)
		if err != nil {
			return last, "", err
		}
		likeness, because := 0, ""
		switch {
		case recipeName(o.Plan.Recipe) != "" && recipeName(o.Plan.Recipe) == recipeName(s.Plan.Recipe):
			likeness, because = 3, "made by the same recipe"
		case flavours(o) != "" && strings.EqualFold(flavours(o), flavours(s)):
			likeness, because = 2, "flavoured the same"
		case o.Keeper == s.Keeper:
			likeness, because = 1, "by the same keeper"
		}
		if likeness >= best && likeness > 0 {
			best, last, why = likeness, o, because
		}
	}
	if best == 0 {
		return last, "", store.ErrNotFound
	}
	return last, why, nil
}

// recipeName is a recipe's name without its version: "winter juniper v2".
func recipeName(titled string) string {
	if i := strings.LastIndex(titled, " v"); i > 0 {
		return fold(titled[:i])
	}
	return fold(titled)
}
