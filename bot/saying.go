package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
)

// saying is an everyday way to say what a command says. The whole line has to match.
type saying struct {
	said *regexp.Regexp
	line string // the command it stands for; $1 is what the pattern found
	run  func(t *Turn, found []string) (reply.Reply, error)
}

func sayings() []saying {
	s := func(pattern, line string) saying {
		return saying{said: regexp.MustCompile(`(?i)^(?:` + pattern + `)[\s.!]*$`), line: line}
	}
	does := func(pattern string, run func(*Turn, []string) (reply.Reply, error)) saying {
		return saying{said: regexp.MustCompile(`(?i)^(?:` + pattern + `)[\s.!?]*$`), run: run}
	}
	const done = `(?:i |we |i've |i have |just |ok |okay )*`
	return []saying{
		s(`(?:ok(?:ay)?,? |so,? |and )?(?:what'?s|what is) (?:up )?next\??|(?:ok(?:ay)?,? |so,? |and )(?:what now|now what|what do i do now)\??|now what\??`, "what now?"),
		s(`(?:i'?m|i am|we'?re|we are) (?:back|home)(?: again| now| home)?`, "set away no"),
		s(`(?:i'?m|i am|i'?ll be|i will be|we'?re|we are|we'?ll be) (?:away|gone|out of town|travelling|on (?:holiday|vacation)) (?:from now )?((?:until|till?|for) .+)`, "set away $1"),
		s(`(?:ok(?:ay)?,? |please |yes,? )?(?:open|start) (?:it|that|this|one)(?: now| please)?`, "open"),
		s(done+`(?:flipped|flip|turned|turn) (?:(?:them |it )?all(?: of (?:them|it))?|all (?:of )?(?:the )?(?:two|three|four|five|six|\d+|bags|batches|pieces)(?: of them)?|everything|both(?: of them)?)(?: now| today)?|all (?:are )?(?:flipped|turned)`, "flip all"),
		s(done+`(?:flipped|flip|turned|turn) (?:it|them|that)(?: over)?(?: now| just now)?`, "flip"),
		s(`(?:i |we |i've |i have |just )+(?:flipped|turned)(?: (?:batch )?(\d+))?(?: now| just now)?`, "flip $1"),
		s(`(?:it'?s|it is|they'?re|they are|surface is|its) (tacky|firm|rinsed|chilled|sliced|packed)(?: (?:now|already|all through|enough))*`, "$1"),
		s(`(?:it'?s |it is |its |they'?re |i |we |have |just |put (?:it|them) |now )*(?:on (?:a|the) rack|uncovered)(?:,? uncovered| on a rack)? in (?:the|my) fridge(?: now)?`, "dry"),
		s(`(?:(?:it'?s|it is|they'?re|they are|its|belly is|i |we |have |just |put (?:it|them|the belly)) ?)*(?:in|into|on) the (?:smoke|smoker|smokehouse|pit)(?: now)?|(?:(?:i|we|have|just|now) )*(?:started|starting|start) (?:(?:to|the|its|with the) )?smok(?:e|ing)(?: (?:it|them|now))*|smoking(?: (?:it|them|now))*`, "smoke"),
		s(`(?:(?:it'?s|it is|they'?re|they are|its|i|we|have|just|now|took (?:it|them)|pulled (?:it|them)) )*(?:out of|off) the (?:smoke|smoker|smokehouse|pit)(?: now)?`, "smoked"),
		does(`(?:(?:it'?s|it is|they'?re|they are|surface is|its|is|feels) )+dry(?: (?:now|already|enough))*|(?:(?:it'?s|it is|they'?re|they are|its|i|we|have|just|is) )*dried(?: (?:now|already|enough|it|them))*`, (*Turn).driedOrDrying),
		s(`dry[- ]?(?:cured?|rub)[,:]? (?:of |for )?(\d.*)`, "cure $1"),
		s(`how (?:much|many (?:g|grams|ounces|oz) of) (?:the )?(?:cur(?:e|ing) ?(?:mix|salts?|powder)?|pink (?:curing )?salt|mix|nitrite|salt|sugar)(?: (?:do (?:i|we) (?:need|use|put)|(?:should|must|shall) (?:i|we) (?:use|take|put|weigh)|goes|is needed|to (?:use|put)|on|in))* (?:for|on|in|to) (?:a |an |my |the |about |this )*(\d[\d.,]* ?(?:lbs?|pounds?|kg|kilos?|kilograms?|g|grams?)\b[^?]*)\??`, "cure $1"),
		does(`(?:cure )?(\d+|two|three|four|five|six) (?:pork )?(?:bellies|pieces|slabs|bits)[,:]? ((?:(?:and )?\d+(?:[.,]\d+)? ?(?:lbs?|pounds?|kg|kilos?|kilograms?|g|grams?)[\s,]*){2,6})`, (*Turn).cureEach),
		s(`same (?:as|like) (?:batch )?#?(\d+ ?[a-z]?)[,:]? (?:but |with |for |at |only )*(\d.*)`, "again $1 $2"),
		does(`(?:is|are) (?:the |my |our |it |this |that |they )?(?:cure|batch|bacon|belly|meat)?(?: ?#?\d+)? ?(?:done|cured|cured through|through|finished)(?: curing)?(?: yet| now)?|(?:done|cured) yet`, (*Turn).curedYet),
		does(`(?:so,? |and )?(?:how (?:much )?long(?:er)?(?: (?:now|left|still|to go|more|is left|does it take|will it take|until (?:it'?s|it is) (?:done|ready)))*|how much time(?: is)?(?: left)?|when (?:will|is|does) (?:it|the (?:bacon|smoke|belly|meat|core))(?: be)?(?: (?:ready|done|finished|out|there|at (?:its|the) target))(?: be)?|when'?s (?:it|the (?:bacon|smoke|belly|meat)) (?:ready|done|finished))`, (*Turn).howLongStill),
		does(`(?:oops|no|nope|sorry|actually|wait|i mean|i meant)[,:!. ]+(?:it'?s |it is |it was |that'?s |thats |i mean |i meant |make (?:it|that) )*((?:\d|[½¼¾])[^%]*?\d*\s*(?:lbs?|pounds?|kg|kilos?|kilograms?|g|grams?|oz|ounces?)\b.*)`, (*Turn).mendWeight),
		does(`(?:so,? |and )?what(?: else)? (?:(?:should|shall|do|must|can) (?:i|we) (?:have to |need to )?|to )(?:buy|shop for|get)(?: for (?:christmas|xmas|easter|the (?:club|party|weekend|holidays?)|[\w ]+)| then| now| today| tomorrow)*`, func(t *Turn, _ []string) (reply.Reply, error) { return t.shopping("") }),
		does(`(?:please |can you |could you |will you |would you )*remind (?:me|us)(?: .+)?`, (*Turn).remindMe),
	}
}

// saidPlainly takes an everyday line to the command it stands for, without the smile
// at its end.
func (b *Bot) saidPlainly(line string) (Command, string, bool) {
	bare := withoutSmile(line)
	for _, s := range b.plain {
		m := s.said.FindStringSubmatch(bare)
		if m == nil {
			continue
		}
		if s.run != nil {
			return Command{Run: func(t *Turn, _ string) (reply.Reply, error) { return s.run(t, m) }}, line, true
		}
		to := string(s.said.ExpandString(nil, s.line, bare, s.said.FindStringSubmatchIndex(bare)))
		if cmd, args, ok := b.find(to); ok {
			return cmd, args, true
		}
		return Command{Run: func(t *Turn, _ string) (reply.Reply, error) { return t.guess(to) }}, line, true
	}
	if cmd, args, ok := b.find(bare); ok && cmd.Batch && !ownWords(cmd, args) {
		return cmd, args, true
	}
	return Command{}, line, false
}

// withoutSmile takes the pictures off the end of a line.
func withoutSmile(line string) string {
	return strings.TrimRightFunc(line, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.In(r, unicode.So, unicode.Sk) && r != '°' || r == '\u200d' || r == '\ufe0f'
	})
}

// howLongStill says how long each batch will take to the end of what it is in: the
// smoke, the cooling, the cure.
func (t *Turn) howLongStill(found []string) (reply.Reply, error) {
	var r reply.Reply
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	for _, s := range open {
		if !hot(s) {
			continue
		}
		rest, err := t.smokeAnswer(s, nil)
		if err != nil {
			return r, err
		}
		r.Append(rest)
	}
	if r.Empty() {
		return t.curedYet(found)
	}
	return r, nil
}

// driedOrDrying asks whether the surface is tacky or was only now set to dry.
func (t *Turn) driedOrDrying([]string) (reply.Reply, error) {
	return reply.Reply{}, &Error{Kind: BadInput, Why: "Dried until it feels tacky, or set to dry only now? Smoke takes to a tacky surface; a wet one turns sour and streaky.", Example: "tacky",
		Buttons: []reply.Button{{Label: "Tacky", Line: "tacky"}, {Label: "Set to dry now", Line: "dry"}}}
}

// curedYet says where the batches in their cure stand by the day rule, and that the
// hand decides.
func (t *Turn) curedYet(found []string) (reply.Reply, error) {
	var r reply.Reply
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	for _, s := range open {
		if !inBag(s) {
			continue
		}
		r.Par(reply.B(name(s)), ": ", t.standing(s), "; cure check ", t.checkDates(s), ".")
		due := t.checkDue(s)
		if len(due) == 0 {
			r.Say("Not before then by the day rule. Then press it in the middle and at the edges: firm all through is cured.")
			continue
		}
		n, over := targetOf(s, course.Firm, due), "Its days are over"
		if of := pieceNames(s, join(due)); of != "" {
			over = "The days of " + of + " are over"
		}
		firm, longer := "firm "+n, "longer "+n+" 2 days"
		r.Say(over, ". Press it in the middle and at the edges. Firm all through: ", reply.Type(firm), ". Soft in the middle: ", reply.Type(longer), ", and keep flipping.")
		r.Press(reply.Button{Label: "Firm all through", Line: firm, Version: s.Version}, reply.Button{Label: "Soft: 2 more days", Line: longer, Version: s.Version})
	}
	if r.Empty() {
		return t.guess(found[0])
	}
	r.Par("The day rule and your own hand decide this; no model does. Cured is not cooked: cook before eating (FSIS).")
	return r, nil
}

// mendWeight changes the weight of the cure just worked out, of one piece, and keeps
// the rest of what was said of it.
func (t *Turn) mendWeight(found []string) (reply.Reply, error) {
	said := found[len(found)-1]
	line, err := parse.Cure(said, t.Now)
	if err != nil && pounds.MatchString(said) { // 5 lb 8: ounces, what else
		if ounces, again := parse.Cure(said+" oz", t.Now); again == nil {
			line, err = ounces, nil
		}
	}
	if err != nil {
		return reply.Reply{}, err
	}
	d, ok, err := t.draft()
	if err != nil {
		return reply.Reply{}, err
	}
	if !ok || d.Asked != "" || len(d.Line.Pieces) != 1 || len(line.Pieces) != 1 {
		return t.cure(said)
	}
	was, now := d.Line.Pieces[0], line.Pieces[0]
	if now.Thickness == 0 {
		now.Thickness = was.Thickness
	}
	if now.RindOn == nil {
		now.RindOn = was.RindOn
	}
	now.Flavouring = orElse(now.Flavouring, was.Flavouring)
	merge(&d.Line, line)
	d.Line.Pieces = []parse.PieceLine{now}
	return t.workOutAs(d.Line, d.Recipe)
}

var oneWeight = regexp.MustCompile(`(?i)\d+(?:[.,]\d+)? ?[a-z]+`)

// cureEach works a cure out for pieces whose weights stand in a row: as many as there
// are pieces, else the line is read as it stands.
func (t *Turn) cureEach(found []string) (reply.Reply, error) {
	weights := oneWeight.FindAllString(strings.ReplaceAll(found[2], "and ", ""), -1)
	if n := strings.ToLower(found[1]); n != fmt.Sprint(len(weights)) && n != []string{"", "", "two", "three", "four", "five", "six"}[min(len(weights), 6)] {
		return t.cure(strings.TrimPrefix(found[0], "cure "))
	}
	return t.cure(strings.Join(weights, ", "))
}

var pounds = regexp.MustCompile(`(?i)^\s*\d+\s*(?:lbs?|pounds?)\s+\d{1,2}\s*$`)

// sameAgain works a cure out like that of a batch, or of one of its pieces, for
// another weight.
func (t *Turn) sameAgain(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("again", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	letter := orElse(p.Letter, s.Pieces[0].Letter)
	like := fmt.Sprintf("batch %d%s", s.Number, p.Letter)
	if p.Letter == "" && len(s.Pieces) > 1 && slices.ContainsFunc(s.Pieces, func(o course.PieceState) bool {
		return o.Flavouring != s.Pieces[0].Flavouring || o.RindOn != s.Pieces[0].RindOn
	}) {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("Like which piece of %s? It has %s.", name(s), letters(s)), Example: strings.TrimSpace(fmt.Sprintf("again %d%s %s", s.Number, letter, orElse(p.Rest, t.exampleWeight())))}
	}
	rec, err := t.recipeOf(s, letter)
	if err != nil {
		return r, err
	}
	line, err := parse.Cure(orElse(p.Rest, "?"), t.Now)
	if err != nil || line.Bare != nil || len(line.Pieces) == 0 {
		return r, &Error{Kind: BadInput, Why: "For how much meat? I need a weight with its unit.", Understood: "the same as " + like, Example: fmt.Sprintf("again %d%s %s", s.Number, p.Letter, t.exampleWeight())}
	}
	r.Say("Like ", reply.B(t.pieceOrBatch(s, p.Letter)), ":")
	cure, err := t.workOutBy(rec, line, "")
	if err != nil {
		return r, err
	}
	r.Append(cure)
	return r, nil
}

// remindMe says what is reminded of without being asked, and what of it can be set.
func (t *Turn) remindMe([]string) (reply.Reply, error) {
	var r reply.Reply
	r.Say("I remind you by myself of each flip, check and step of your batches, of the smoke and the cooling, and of the days of what you planned. I keep no other reminders.")
	r.Say("At another hour: ", reply.Type("set hour 07:30"), ". The next one later: ", reply.Type("later 2h"), ". Bacon for a date: ", reply.Type("plan 5 lb juniper 1.5 in for 24 December"))
	open, err := t.openBatches()
	if err != nil {
		return r, err
	}
	for _, s := range open[:min(len(open), 3)] {
		r.Par(reply.B(name(s)), ": ", t.standing(s), ".")
		if err := t.sayNextPing(&r, s); err != nil {
			return r, err
		}
	}
	return r, nil
}

// checkDue are the pieces in their cure whose days are over.
func (t *Turn) checkDue(s course.State) []string {
	var due []string
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == course.Firm && !plan.DateOf(t.Now, t.Loc).Before(s.CheckDateOf(p.Letter, t.Loc)) {
			due = append(due, p.Letter)
		}
	}
	return due
}
