package bot

import (
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/reply"
)

// plainly answers what people say who don't speak in commands: thanks, a question, a
// flavouring for the cure just worked out. ok is false if it is none of these.
func (t *Turn) plainly(line string) (r reply.Reply, ok bool, err error) {
	words := strings.Fields(strings.ToLower(strings.Trim(line, " .!?")))
	if len(words) == 0 || t.Tx == nil {
		return r, false, nil
	}
	if slices.Contains([]string{"thanks", "thank", "thx", "ok", "okay", "great", "nice"}, strings.Trim(words[0], ",.!")) && len(words) <= 3 {
		r.Say("You're welcome.")
		r.Private = true
		return r, true, nil
	}
	if r, ok, err := t.flavour(line); ok || err != nil {
		return r, ok, err
	}
	asks := strings.HasSuffix(strings.TrimSpace(line), "?") ||
		slices.Contains([]string{"how", "what", "when", "where", "which", "who", "should", "can", "do", "does", "is", "am", "i"}, strings.Trim(words[0], "',"))
	if !asks || len(words) < 2 && !strings.HasSuffix(line, "?") && words[0] != "what" && words[0] != "how" {
		return r, false, nil
	}
	r, err = t.question(words)
	return r, err == nil, err
}

// question answers with the command or heading a question names, and with where
// things stand; a newcomer is welcomed.
func (t *Turn) question(words []string) (reply.Reply, error) {
	var r reply.Reply
	named := t.named(words)
	if named != nil {
		r.Append(*named)
	}
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	switch {
	case len(open) > 0:
		for _, s := range open[:min(len(open), 3)] {
			r.Par(reply.B(name(s)), ": ", t.standing(s), ".")
			if err := t.sayNext(&r, s); err != nil {
				return r, err
			}
		}
	case named == nil:
		return t.welcome("")
	}
	r.Par("Everything I can do: ", reply.Type("help"))
	return r, nil
}

// named is the help for the first command or heading that words name; nil if they
// name none.
func (t *Turn) named(words []string) *reply.Reply {
	small := []string{"how", "what", "when", "where", "which", "who", "do", "does", "is", "it", "i", "my", "the", "a", "to", "of", "in", "on", "no", "yes", "now", "this", "that", "with", "back", "help", "hi", "hey", "use", "set", "list", "start", "stop", "can", "should", "keep"}
	for _, w := range words {
		w = strings.Trim(w, ",.;:!?'\"")
		if slices.Contains(small, w) {
			continue
		}
		for i, g := range groups() {
			if strings.EqualFold(g, w) || strings.EqualFold(g, w+"s") {
				r := t.helpPage(i)
				r.Buttons = nil
				return &r
			}
		}
		if c, _, ok := t.bot.find(w); ok {
			r := t.helpCommand(c)
			return &r
		}
	}
	return nil
}

var flavourSaid = regexp.MustCompile(`(?i)^(?:it'?s|it is|it will be|it'll be|make it|with|flavou?r(?:ed)?(?: it)?(?: with)?)\s+(.+)$`)

// flavour takes up a flavouring for the cure just worked out.
func (t *Turn) flavour(line string) (r reply.Reply, ok bool, err error) {
	m := flavourSaid.FindStringSubmatch(strings.Trim(line, " .!"))
	if m == nil || !plainFlavour(m[1]) {
		return r, false, nil
	}
	d, has, err := t.draft()
	if err != nil || !has || len(d.Line.Pieces) != 1 || d.Asked != "" {
		return r, false, err
	}
	d.Line.Pieces[0].Flavouring = clip(m[1], 60)
	r, err = t.workOutAs(d.Line, d.Recipe)
	return r, err == nil, err
}
