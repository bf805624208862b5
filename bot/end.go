package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// end closes or discards a batch; single pieces of it are discarded too.
func (t *Turn) end(cmd, kind, args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which(cmd, args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.permit(end, s); err != nil {
		return r, err
	}
	if err := ended(s); err != nil {
		return r, err
	}
	of, rest, _, left := severalPieces(cmd, p)
	if left != "" {
		return r, t.severalSaid(cmd, s, of, p.Rest, left)
	}
	if wrong, ok := notAPiece(cmd, s, rest, len(of) > 0); ok {
		return r, t.noPiece(cmd, s, wrong)
	}
	first, more := firstWord(rest)
	all := strings.EqualFold(strings.Trim(first, ",:"), "all")
	if all {
		rest = more
		if butSome.MatchString(rest) {
			return r, &Error{Kind: BadInput, Why: fmt.Sprintf("Name the pieces that are thrown away, not those that stay; %s has %s. Nothing was recorded.", name(s), letters(s)),
				Example: fmt.Sprintf("discard %d%s %s", s.Number, s.Pieces[0].Letter, "fell on the floor")}
		}
	}
	why := clip(rest, 300)
	packed := s.Stage() == course.Done
	if why == "" && !packed {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("%s is %s. Say why it ends here, so that you know next time.", name(s), t.standing(s)),
			Example: fmt.Sprintf("%s %d%s fridge failed overnight", cmd, s.Number, p.Letter)}
	}
	if len(of) > 0 && len(of) < len(s.Pieces) {
		if kind == course.Discard {
			return t.discardPieces(s, of, why)
		}
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("%s ends as a whole; pieces %s have their say. A single piece is thrown away with its letter.", name(s), letters(s)),
			Example: fmt.Sprintf("discard %d%s fell on the floor", s.Number, of[0])}
	}
	if kind == course.Discard && len(of) == 0 && len(s.Pieces) > 1 && !all {
		return r, whichToDiscard(s, why)
	}
	was := t.standing(s)
	if s, err = t.record(s.Batch, "", kind, t.Now, course.Body{Text: why}); err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), " is ", strings.ToLower(string(s.Stage())), "; it was ", was, ". No more pings for it.")
	if kind == course.Discard {
		r.Say(throwAway)
	} else if !packed {
		r.Say("What is not cured through is raw pork: keep it cold, cook it to 145 °F (63 °C) and rest it 3 minutes (USDA), or throw it away if in doubt.")
	}
	if kind == course.Close {
		t.sayBack(&r, s)
	}
	r.Say("To take it back: ", reply.Type(fmt.Sprintf("undo %d", s.Number)))
	return r, nil
}

// whichToDiscard asks before a whole batch goes: "a bit sour" may speak of piece a.
func whichToDiscard(s course.State, why string) error {
	e := &Error{Kind: BadInput, Why: fmt.Sprintf("%s has pieces %s. Is all of it thrown away, or one?", name(s), letters(s)), Example: fmt.Sprintf("discard %d all %s", s.Number, why)}
	for _, p := range s.Pieces[:min(len(s.Pieces), 4)] {
		e.Buttons = append(e.Buttons, onlyPiece("discard", s, p, why))
	}
	e.Buttons = append(e.Buttons, reply.Button{Label: "All of it", Line: fmt.Sprintf("discard %d all %s", s.Number, why), Version: s.Version})
	return e
}

var butSome = regexp.MustCompile(`(?i)^(?:but|except|save|bar|apart|not|other than)\b`)

const throwAway = "Wrap it well and keep it away from animals; wash hands, board and sink."

// discardPieces records that some pieces were thrown away while the others go on.
func (t *Turn) discardPieces(s course.State, of []string, why string) (reply.Reply, error) {
	var r reply.Reply
	gone := pieceNames(s, join(of))
	s, err := t.recordOf(s, of, course.Discard, course.Body{Text: why})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": ", gone, " thrown away (", why, "). Left: ", letters(s), ".")
	r.Say(throwAway)
	r.Say("To take it back: ", reply.Type(fmt.Sprintf("undo %d", s.Number)))
	return r, t.sayNext(&r, s)
}
