package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
)

// stepWords are the words that record each step besides the step's own name.
func stepWords(s course.Step) []string {
	switch s {
	case course.Rinsed:
		return []string{"rinsed"}
	case course.Fried:
		return []string{"fried"}
	case course.Drying:
		return []string{"drying"}
	case course.Season:
		return []string{"seasoned", "glaze", "glazed"}
	case course.Cooled:
		return []string{"cool"}
	case course.Chilled:
		return []string{"chill"}
	case course.Sliced:
		return []string{"sliced", "square"}
	case course.Packed:
		return []string{"packed"}
	}
	return nil
}

func stepCommands() []Command {
	var rows []Command
	for _, info := range course.Steps() {
		step := info.Step
		rows = append(rows, Command{Name: string(step), Also: stepWords(step), Group: groupSteps, Batch: true,
			Form: stepForm(step), Help: info.Ask, Example: string(step) + " 1", Fields: stepFields(step),
			Run: func(t *Turn, args string) (reply.Reply, error) { return t.step(step, args) }})
	}
	return append(rows,
		Command{Name: "done", Also: []string{"next"}, Group: groupSteps, Form: "done 3", Help: "record whatever step is next", Example: "done 1", Batch: true, Fields: []Field{whenField("at")}, Run: (*Turn).done},
		Command{Name: "skip", Group: groupSteps, Form: "skip 3 season, plain this time", Help: "pass over a step, with the reason", Example: "skip 1 season, plain this time", Batch: true, Fields: []Field{{Name: "Step", Example: "season", Choices: stepNames()}, {Name: "Reason", Example: "plain this time"}}, Run: (*Turn).skip},
		Command{Name: "soak", Group: groupSteps, Form: "soak 3 45 min", Help: "soak it because the slice was too salty; then fry again", Example: "soak 1 45 min", Batch: true, Fields: []Field{{Name: "How long", Example: "45 min", Optional: true}}, Run: (*Turn).soak},
		Command{Name: "longer", Group: groupSteps, Form: "longer 3 2 days", Help: "give the cure more days", Example: "longer 1 2 days", Batch: true, Fields: []Field{{Name: "Days", Example: "2 days", Optional: true}}, Run: (*Turn).longer},
	)
}

func stepForm(s course.Step) string {
	switch s {
	case course.Fried:
		return "fry 3 / fry 3 too salty"
	case course.Smoked:
		return "smoked 3 core 151"
	case course.Smoking:
		return "smoke 3 hanging, oak, 40 °F outside"
	case course.Sliced:
		return "slice 3 4 mm, 24 cm long"
	case course.Packed:
		return "pack 3 4 lb 2 oz frozen"
	}
	return string(s) + " 3"
}

func waitsFor(step course.Step) func(course.State) bool {
	return func(s course.State) bool {
		next, _, ok := s.Next()
		return ok && next.Step == step
	}
}

// done records the step a batch waits for.
func (t *Turn) done(args string) (reply.Reply, error) {
	p, err := t.which("done", args, func(s course.State) bool { _, _, ok := s.Next(); return ok })
	if err != nil {
		return reply.Reply{}, err
	}
	next, _, ok := p.State.Next()
	if !ok {
		if err := ended(p.State); err != nil {
			return reply.Reply{}, err
		}
		return reply.Reply{}, &Error{Kind: NotNow, Why: name(p.State) + " is packed; nothing is left to do but eat it.", Example: fmt.Sprintf("batch %d", p.State.Number)}
	}
	return t.step(next.Step, args)
}

// step records that a step was done: now or at the time said, for the batch or
// one piece of it.
func (t *Turn) step(step course.Step, args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which(string(step), args, waitsFor(step))
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return r, err
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	if err := ended(s); err != nil {
		return r, err
	}
	if m, ok := s.Marked(step, p.Letter); ok {
		r.Say(name(s), ": ", stepDone(step), " was recorded ", t.dayHour(m.At), "; nothing changed.")
		r.Say("To take it back: ", reply.Type(fmt.Sprintf("undo %d", s.Number)))
		r.Private = t.Msg.Press != nil
		return r, nil
	}
	if err := t.otherBatch(step, s, p.Rest); err != nil {
		return r, err
	}
	text, at, err := t.timeAtEnd(s, p.Rest)
	if err != nil {
		return r, err
	}
	for _, letter := range t.meant(step, s, p.Letter) {
		if err := t.gate(step, s, letter, at, text); err != nil {
			return r, err
		}
	}
	if step == course.Fried {
		if said, done, err := t.tasted(s, p.Letter, text, at); done || err != nil {
			return said, err
		}
	}
	of := t.meant(step, s, p.Letter)
	body, err := t.stepBody(step, s, of, text)
	if err != nil {
		return r, err
	}
	if body.Core != nil {
		if err := t.gateCore(step, s, of, *body.Core, at); err != nil {
			return r, err
		}
	}
	for _, letter := range of {
		if err := t.write(s.Batch, letter, string(step), at, body); err != nil {
			return r, err
		}
	}
	if s, err = replan(t.Tx, t.Conv, t.Loc, s.Batch); err != nil {
		return r, err
	}
	r.Replace = t.Msg.Press != nil
	who := reply.B(name(s))
	if n := pieceNames(s, join(of)); n != "" {
		r.Say(who, ", ", n, ": ", stepDone(step), ".")
	} else {
		r.Say(who, ": ", stepDone(step), ".")
	}
	t.afterStep(&r, step, s, p.Letter, body, at)
	if step == course.Smoked {
		if err := t.smokeEnded(&r, s); err != nil {
			return r, err
		}
	}
	return r, t.sayNext(&r, s)
}

// meant are the pieces a step without a letter is recorded of: those that wait for
// it, where others do not yet or no more; else the batch as a whole.
func (t *Turn) meant(step course.Step, s course.State, letter string) []string {
	if letter != "" {
		return []string{letter}
	}
	var waiting []string
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == step {
			waiting = append(waiting, p.Letter)
		}
	}
	if len(waiting) == 0 || len(waiting) == len(s.Batch.Pieces) { // what was thrown away may come back by undo
		return []string{""}
	}
	return waiting
}

func stepDone(step course.Step) string {
	info, _ := course.Describe(step)
	return info.Done
}

// stepBody reads what a step's record says besides that it was done.
func (t *Turn) stepBody(step course.Step, s course.State, of []string, text string) (course.Body, error) {
	body := course.Body{Text: clip(text, 500)}
	switch step {
	case course.Smoking:
		return t.smokeBody(body, text), nil
	case course.Smoked, course.Cooled:
		return t.coreAtEnd(body, text)
	case course.Sliced:
		return sliceBody(s, body, text)
	case course.Packed:
		return packBody(s, of, body, text)
	}
	return body, nil
}

func (t *Turn) coreAtEnd(body course.Body, text string) (course.Body, error) {
	text = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(text), "core"))
	if text == "" {
		return body, nil
	}
	core, err := parse.Temperature(text, t.tempUnit())
	if err != nil {
		return body, err
	}
	if core < frozen || core > mostCore {
		return body, &Error{Kind: BadInput, Why: fmt.Sprintf("A core of %s can't be right after the smoke; nothing was noted.%s", t.units().temp(core), t.otherUnit(core, 100)), Example: "smoked 1 core " + t.plainTemp(152)}
	}
	body.Core, body.Text = &core, ""
	return body, nil
}

// packBody reads what a piece, or those meant together, weighed in the packet.
func packBody(s course.State, of []string, body course.Body, text string) (course.Body, error) {
	text, body.Frozen = cutWord(text, "frozen")
	body.Text = ""
	if text == "" {
		return body, nil
	}
	w, err := parse.Weight(text)
	if err != nil {
		return body, err
	}
	if len(of) > 1 {
		return body, &Error{Kind: BadInput, Why: fmt.Sprintf("Pieces %s are to be packed: tell me what each weighs.", strings.Join(of, " and ")),
			Example: fmt.Sprintf("pack %d%s %s", s.Number, of[0], parse.FormatWeight(greenOf(s, of[0])*0.9))}
	}
	var fresh curemath.Grams
	for _, letter := range of {
		fresh += greenOf(s, letter)
	}
	if w > fresh*scaleSlack {
		return body, &Error{Kind: BadInput, Why: fmt.Sprintf("That is more than the fresh belly weighed (%s). Bacon may not weigh more than the belly it came from (9 CFR 319.107; second-hand, not checked against the text).", us.meatExact(fresh)),
			Example: fmt.Sprintf("pack %d%s %s", s.Number, join(of), parse.FormatWeight(fresh*0.9))}
	}
	body.Weight = w
	return body, nil
}

// scaleSlack is how far two weighings of one piece may differ by the scales alone:
// our own choice, common practice, no source.
const scaleSlack = 1.02

// cutWord takes a word out of a text and says whether it was there.
func cutWord(text, word string) (string, bool) {
	fields := strings.Fields(text)
	for i, f := range fields {
		if strings.EqualFold(strings.Trim(f, ",.;"), word) {
			return strings.Trim(strings.Join(append(fields[:i:i], fields[i+1:]...), " "), " ,;"), true
		}
	}
	return strings.TrimSpace(text), false
}

func (t *Turn) afterStep(r *reply.Reply, step course.Step, s course.State, letter string, body course.Body, at time.Time) {
	switch step {
	case course.Firm:
		r.Say("The day rule and your own hand decide this; no model does.")
	case course.Smoking:
		t.saySmokeStart(r, s, body)
	case course.Smoked:
		t.sayCore(r, s, body)
	case course.Cooled:
		t.sayCooled(r, s, letter)
	case course.Sliced:
		t.saySlices(r, s, letter, body)
	case course.Packed:
		t.sayPacked(r, s, letter, body, at)
	}
}

// skip passes over a step with a reason.
func (t *Turn) skip(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("skip", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return r, err
	}
	if err := ended(s); err != nil {
		return r, err
	}
	info, why, err := t.stepNamed(s, p.Rest)
	if err != nil {
		return r, err
	}
	if why == "" {
		return r, &Error{Kind: BadInput, Why: "Say why, so that you know next time.", Understood: "skip “" + string(info.Step) + "” of batch " + fmt.Sprint(s.Number),
			Example: fmt.Sprintf("skip %d %s, plain this time", s.Number, info.Step)}
	}
	if _, ok := s.Marked(info.Step, p.Letter); ok {
		return r, &Error{Kind: NotNow, Why: fmt.Sprintf("%s: that step is behind it already.", name(s)), Example: fmt.Sprintf("batch %d", s.Number)}
	}
	if err := t.gateSkip(info.Step, s, p.Letter, why); err != nil {
		return r, err
	}
	s, err = t.record(s.Batch, p.Letter, course.Skip, t.Now, course.Body{Step: info.Step, Text: clip(why, 300)})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": skipped “", string(info.Step), "” (", clip(why, 300), ").")
	if info.Step == course.Firm {
		r.Say("Mind: without a cure check nobody knows that the middle is cured. Keep it cold, and cook it through before eating.")
	}
	if info.Step == course.Cooled || info.Step == course.Chilled {
		r.Say("Mind: slow cooling is where spores wake up; if it stood warm for hours, throw it away.")
	}
	return r, t.sayNext(&r, s)
}

// stepNamed reads the step a text starts with; none means the next one.
func (t *Turn) stepNamed(s course.State, text string) (course.Info, string, error) {
	word, rest := firstWord(text)
	word = strings.ToLower(strings.Trim(word, ",;:"))
	for _, info := range course.Steps() {
		for _, w := range append(stepWords(info.Step), string(info.Step)) {
			if w == word {
				return info, strings.TrimLeft(rest, ",;: "), nil
			}
		}
	}
	next, _, ok := s.Next()
	if !ok {
		return next, "", &Error{Kind: NotNow, Why: name(s) + " has no step left to skip.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	return next, strings.TrimPrefix(strings.TrimSpace(text), "because "), nil
}

// soak records that pieces were soaked; the test slice is then due again.
func (t *Turn) soak(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("soak", args, waitsFor(course.Fried))
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return r, err
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	if err := ended(s); err != nil {
		return r, err
	}
	if _, ok := s.Marked(course.Rinsed, p.Letter); !ok {
		return r, &Error{Kind: NotNow, Why: name(s) + " is not rinsed yet; soaking comes after a fried slice tasted too salty.", Example: fmt.Sprintf("rinse %d", s.Number)}
	}
	d, err := parse.Duration(orElse(p.Rest, "45 min"))
	if err != nil || d < 5*time.Minute || d > 4*time.Hour {
		return r, &Error{Kind: BadInput, Why: "A soak takes from 5 minutes to 4 hours, in cold water in the fridge; half an hour to two is usual (common practice, no source).", Example: fmt.Sprintf("soak %d 45 min", s.Number)}
	}
	s, err = t.record(s.Batch, p.Letter, course.Soak, t.Now, course.Body{Minutes: int(d / time.Minute)})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(t.pieceOrBatch(s, p.Letter)), ": soaking for ", howLong(d), ", until ", t.dayHour(t.Now.Add(d)), ". Keep it in the fridge, then fry another slice.")
	return r, t.sayNext(&r, s)
}

// longer gives the cure more days.
func (t *Turn) longer(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("longer", args, inCure)
	if err != nil {
		return r, err
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return r, err
	}
	if old, stale := t.stale(s); stale {
		return old, nil
	}
	if err := ended(s); err != nil {
		return r, err
	}
	if next, _, ok := s.Next(); !ok || next.Step != course.Firm {
		return r, &Error{Kind: NotNow, Why: name(s) + " is past its cure.", Example: fmt.Sprintf("batch %d", s.Number)}
	}
	d, err := parse.Duration(orElse(p.Rest, "1 day"))
	days := int(d / (24 * time.Hour))
	if err != nil || days < 1 || days > 14 {
		return r, &Error{Kind: BadInput, Why: "I can add from 1 to 14 days.", Example: fmt.Sprintf("longer %d 2 days", s.Number)}
	}
	past := max(plan.DateOf(t.Now, t.Loc).DaysSince(s.CheckDate(t.Loc)), 0)
	s, err = t.record(s.Batch, p.Letter, course.Longer, t.Now, course.Body{Days: days + past})
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": ", count(days, "more day"), "; now ", day(s, t.Now, t.Loc), ", cure check ", dateText(s.CheckDate(t.Loc)), ".")
	return r, nil
}

func orElse(s, other string) string {
	if strings.TrimSpace(s) == "" {
		return other
	}
	return s
}

// A time at the end of a record: "at 14:30", "yesterday 18:00", "14:30", "8 am". What
// looks like one is read as one or refused; it never becomes a remark of now.
var atTime = regexp.MustCompile(`(?i)(?:^|[\s,])((?:at\s+)?(?:yesterday|today|tomorrow|last night|this morning)\b.*|at\s+\d.*|\d{1,2}[:.]\d{2}(?:\s*[ap]m)?|\d{1,2}\s*[ap]m|\d{4}-\d{2}-\d{2}.*|\S+\s+(?:minutes?|mins?|hours?|h|days?)\s+ago)$`)

func (t *Turn) timeAtEnd(s course.State, text string) (string, time.Time, error) {
	m := atTime.FindStringSubmatchIndex(text)
	if m == nil {
		return strings.TrimSpace(text), t.Now, nil
	}
	said := strings.TrimPrefix(strings.ToLower(strings.TrimSpace(text[m[2]:m[3]])), "at ")
	at, err := parse.Past(said, t.Now)
	if err != nil {
		return "", t.Now, offering(err, fmt.Sprintf("batch %d", s.Number))
	}
	return strings.Trim(text[:m[0]], " ,"), at, t.happened(s, at)
}
