package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func tasteCommands() []Command {
	return []Command{
		{Name: "taste", Also: []string{"tasted", "score", "rate"}, Own: true, Group: groupTaste, Form: "taste 3 / taste 3 salt 4 smoke 2 nice crust", Help: "score how it tastes, 1 to 5, and what everyone found", Example: "taste 1 salt 4 smoke 3 nice crust", Batch: true, Files: true,
			Fields: []Field{{Name: "Scores and remark", Example: "salt 4 smoke 3 nice crust", Optional: true}}, Run: (*Turn).taste},
		{Name: "photos", Also: []string{"photo", "pictures"}, Group: groupTaste, Form: "photos 3", Help: "the pictures sent with notes and tastings", Example: "photos 1", Batch: true, Reads: true, Run: (*Turn).photos},
	}
}

// quality is one thing a taster scores. All are scored from too little to too much:
// 3 is right.
type quality struct {
	name        string
	little      string
	much        string
	littleScale string
	muchScale   string
}

func qualities() []quality {
	return []quality{
		{"salt", "too mild", "salty", "far too mild", "far too salty"},
		{"sweet", "not sweet enough", "too sweet", "not sweet at all", "far too sweet"},
		{"smoke", "too little smoked", "too smoky", "no smoke", "all smoke"},
		{"texture", "too soft", "too hard", "mushy", "like leather"},
	}
}

var scoreSaid = regexp.MustCompile(`(?i)\b(salty?|sweet(?:ness)?|smok[ey]|texture|bite)\s*[:=]?\s*(\d+)(?:\s*/\s*5)?\b[,;]?`)

// readScores parts the scores in a line from the remark beside them.
func readScores(text string) (scores map[string]string, remark string, err error) {
	scores = map[string]string{}
	for _, m := range scoreSaid.FindAllStringSubmatch(text, -1) {
		n, _ := strconv.Atoi(m[2])
		if n < 1 || n > 5 {
			return nil, "", &Error{Kind: BadInput, Why: fmt.Sprintf("Scores run from 1 to 5, with 3 just right; not %s.", clip(m[2], 10)), Example: "taste 1 salt 4 smoke 3"}
		}
		for _, q := range qualities() {
			if strings.HasPrefix(strings.ToLower(m[1]), q.name[:3]) || q.name == "texture" && strings.EqualFold(m[1], "bite") {
				scores[q.name] = strconv.Itoa(n)
			}
		}
	}
	return scores, clip(scoreSaid.ReplaceAllString(text, " "), maxText), nil
}

// taste notes someone's scores and remark, and shows what everyone found.
func (t *Turn) taste(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("taste", args, tastable)
	if err != nil {
		return r, err
	}
	s := p.State
	if !tastable(s) {
		e := &Error{Kind: NotNow, Why: fmt.Sprintf("%s is %s; there is nothing to score yet.", name(s), t.standing(s)), Example: fmt.Sprintf("batch %d", s.Number)}
		if s.End == course.Discarded {
			e.Why = name(s) + " was thrown away."
		}
		return r, e
	}
	if err := t.permit(note, s); err != nil {
		return r, err
	}
	scores, remark, err := readScores(p.Rest)
	if err != nil {
		return r, err
	}
	for _, q := range qualities() {
		if strings.EqualFold(remark, q.name) {
			return r, &Error{Kind: BadInput, Why: fmt.Sprintf("How is the %s, from 1 (%s) to 5 (%s)?", q.name, q.littleScale, q.muchScale), Example: fmt.Sprintf("taste %d %s 3", s.Number, q.name)}
		}
	}
	if len(scores) > 0 || remark != "" || hasPicture(t.Msg.Files) {
		body := course.Body{Text: remark, Extra: scores}
		if s, err = t.record(s.Batch, p.Letter, course.Taste, t.Now, body); err != nil {
			return r, err
		}
		r.Say(t.Me.Name, ", ", pieceOr(s, p.Letter), ": ", tasteText(body), ".")
	}
	r.Replace = t.Msg.Press != nil && len(scores) > 0
	t.sayTasting(&r, s, p.Letter)
	if err := t.sayImprove(&r, s, p.Letter); err != nil {
		return r, err
	}
	if len(scores) == 0 || t.Msg.Press != nil {
		tasteButtons(&r, s, p.Letter)
	}
	return r, nil
}

// tastable says whether there is something of a batch to fry and taste.
func tastable(s course.State) bool {
	if s.End == course.Discarded {
		return false
	}
	for _, p := range s.Pieces {
		if m, ok := p.Marks[course.Smoked]; ok && !m.Skipped {
			return true
		}
		if m, ok := p.Marks[course.Packed]; ok && !m.Skipped {
			return true
		}
	}
	return false
}

func pieceOr(s course.State, letter string) string {
	if n := pieceNames(s, letter); n != "" {
		return fmt.Sprintf("batch %d, %s", s.Number, n)
	}
	return fmt.Sprintf("batch %d", s.Number)
}

// tasteText says what a taster said: "salt 4, smoke 3; nice crust".
func tasteText(b course.Body) string {
	var list []string
	for _, q := range qualities() {
		if n := b.Extra[q.name]; n != "" {
			list = append(list, q.name+" "+n)
		}
	}
	text := strings.Join(list, ", ")
	switch {
	case text != "" && b.Text != "":
		return text + "; " + b.Text
	case text == "" && b.Text == "":
		return "a picture"
	}
	return text + b.Text
}

// sayTasting shows the means with their counts, and the remarks.
func (t *Turn) sayTasting(r *reply.Reply, s course.State, letter string) {
	rows := [][]string{{"", "mean", "tasters", "1", "5"}}
	for _, q := range qualities() {
		mean, n := scoresOf(s, letter, q.name).mean()
		shown := "–"
		if n > 0 {
			shown = trim(mean, 1)
		}
		rows = append(rows, []string{q.name, shown, fmt.Sprint(n), q.littleScale, q.muchScale})
	}
	title := "How " + name(s) + " tastes; 3 is just right:"
	if n := pieceNames(s, letter); n != "" {
		title = "How " + n + " of batch " + fmt.Sprint(s.Number) + " tastes; 3 is just right:"
	}
	r.Par(reply.B(title))
	r.Table(rows)
	first := true
	for _, l := range s.Log {
		if l.Kind != course.Taste || l.Body.Text == "" || letter != "" && l.Piece != "" && l.Piece != letter {
			continue
		}
		line := []any{t.memberName(l.Member), ": ", l.Body.Text}
		if first {
			r.Par(line...)
			first = false
			continue
		}
		r.Say(line...)
	}
}

func (t *Turn) memberName(id int64) string {
	m, err := t.Tx.MemberByID(id)
	if err != nil || m.Name == "" {
		return "someone"
	}
	return m.Name
}

// tasteButtons are a row of five for each quality; four rows are as many as every
// platform shows.
func tasteButtons(r *reply.Reply, s course.State, letter string) {
	for _, q := range qualities() {
		var row []reply.Button
		for n := 1; n <= 5; n++ {
			row = append(row, reply.Button{Label: fmt.Sprintf("%s %d", q.name, n), Line: fmt.Sprintf("taste %d%s %s %d", s.Number, letter, q.name, n)})
		}
		r.Press(row...)
	}
	r.Par("A remark: ", reply.Type(fmt.Sprintf("taste %d%s nice crust", s.Number, letter)), ". What changed since last time: ", reply.Type(fmt.Sprintf("changed %d", s.Number)))
}
