package bot

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// guess answers a line that starts with no command: a weight, a change to the
// cure just worked out, the unit a number waits for, or a batch number first.
func (t *Turn) guess(line string) (reply.Reply, error) {
	if line == "" {
		for _, f := range t.Msg.Files {
			if isJSON(f) && t.Tx != nil {
				return t.importRecipe("")
			}
		}
		if !t.Msg.Direct && len(t.Msg.Files) == 0 { // called by name in a group, and nothing said
			if t.Me.Confirmed.IsZero() {
				return t.welcome("")
			}
			return t.helpShort(), nil
		}
		return reply.Reply{}, &Error{Kind: BadInput, Why: "That was empty. Tell me a weight and I work out the cure.", Example: "5 lb juniper 1.5 in"}
	}
	d, ok, err := t.draft()
	if err != nil {
		return reply.Reply{}, err
	}
	if ok && d.Bare != "" && isUnit(line) {
		return t.cure(d.Bare + " " + line)
	}
	if r, err, ok := t.bareReading(line); ok {
		return r, err
	}
	if r, err, ok := t.numberFirst(line); ok {
		return r, err
	}
	if r, ok := t.pasted(line); ok {
		return r, nil
	}
	if parse.LooksLikeCure(line) {
		return t.cure(line)
	}
	if thick, err := parse.Thickness(line); err == nil && ok && len(d.Line.Pieces) > 0 {
		return t.amendThickness(thick)
	}
	if ok && len(d.Line.Pieces) > 0 {
		if l, err := parse.Cure(line, t.Now); err == nil && len(l.Pieces) == 0 && l.Bare == nil {
			return t.amendWith(l)
		}
	}
	if r, err, ok := t.settingFirst(line); ok {
		return r, err
	}
	if r, ok := t.worried(line); ok {
		return r, nil
	}
	if r, ok, err := t.plainly(line); ok || err != nil {
		return r, err
	}
	return reply.Reply{}, t.unknown(line)
}

func isUnit(s string) bool {
	_, err := parse.Weight("1 " + s)
	return err == nil && !strings.ContainsAny(s, "0123456789")
}

// numberFirst reads "3 flip" as "flip 3": a batch number and then a command.
func (t *Turn) numberFirst(line string) (reply.Reply, error, bool) {
	ref, rest, ok, err := parse.Batch(line)
	if err != nil || !ok || rest == "" {
		return reply.Reply{}, nil, false
	}
	cmd, more, found := t.bot.find(rest)
	if !found || !cmd.Batch || (t.Tx == nil && !cmd.Sums) {
		return reply.Reply{}, nil, false
	}
	r, err := cmd.Run(t, strings.TrimSpace(fmt.Sprintf("%d%s %s", ref.Number, ref.Piece, more)))
	return r, err, true
}

// unknown names the nearest command, or says how to begin.
func (t *Turn) unknown(line string) error {
	word, rest := firstWord(line)
	word = strings.ToLower(strings.TrimPrefix(word, "/"))
	if strings.ContainsAny(word, "0123456789") {
		if _, err := parse.Cure(line, t.Now); err != nil {
			return err
		}
	}
	if word == "stop" || word == "cancel" || word == "pause" {
		e := &Error{Kind: BadInput, Why: "Stop what? set away holds all pings back until you are there again, pings ends the asking about a batch, undo takes back the last record, close ends a batch.", Example: "set away until Sunday 18:00"}
		if open, err := t.openBatches(); err == nil && len(open) > 0 {
			e.Example = fmt.Sprintf("pings %d off", open[0].Number)
		}
		return e
	}
	e := &Error{Kind: BadInput, Why: fmt.Sprintf("I don't know “%s”.", clip(word, 30)), Example: "help"}
	if near, ok := t.bot.nearest(word); ok && slip(rest) && t.bot.mayOffer(word, near) {
		e.Why += fmt.Sprintf(" Did you mean “%s”?", near)
		e.Example = strings.TrimSpace(near + " " + clip(rest, 60))
	} else if t.newcomer() {
		e.Why += " New here? welcome shows how to begin."
		e.Example = "welcome"
		e.Buttons = []reply.Button{{Label: "Show me", Line: "welcome"}}
	}
	return e
}

// slip says whether what follows a word that is no command looks like what follows
// one: nothing, one word, or two with a number or a letter of a piece. A sentence is
// not offered back as a command.
func slip(rest string) bool {
	words := strings.Fields(rest)
	return len(words) <= 1 || len(words) == 2 && (strings.ContainsAny(rest, "0123456789") || len(words[0]) == 1) || parse.LooksLikeCure(rest)
}

// mayOffer says whether the nearest command may be offered for a word: what records
// something or ends a batch only for one letter's slip in a word of some length, so
// that it is never taken up for "dog" or "one".
func (b *Bot) mayOffer(word, near string) bool {
	c, ok := b.byWord[near]
	if !ok || c.Reads || c.Sums {
		return true
	}
	return slices.ContainsFunc(append([]string{c.Name}, c.Also...), func(w string) bool {
		return slips(word, w) <= 1 && utf8.RuneCountInString(word) > 3
	})
}

// slips is how many letters were mistyped; two that changed places are one slip.
func slips(word, w string) int {
	d := levenshtein.ComputeDistance(word, w)
	a, b := []byte(word), []byte(w)
	slices.Sort(a)
	slices.Sort(b)
	if d == 2 && slices.Equal(a, b) {
		return 1
	}
	return d
}

// nearest is the command word with the fewest letters to change, if that is few
// enough to be a slip: a name or another word that happens to lie near is none, so
// two letters may differ only where the first is right.
func (b *Bot) nearest(word string) (string, bool) {
	best, least := "", 3
	if utf8.RuneCountInString(word) < 3 { // as near to one as to another
		return "", false
	}
	for _, c := range b.table {
		for _, w := range append([]string{c.Name}, c.Also...) {
			if d := slips(word, w); d < least && d*2 <= len(w) && (d == 1 || word[0] == w[0]) {
				best, least = c.Name, d
			}
		}
	}
	return best, best != ""
}
