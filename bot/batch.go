package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func batchCommands() []Command {
	return []Command{
		{Name: "batch", Also: []string{"status"}, Group: groupLook, Form: "batch 3", Help: "where a batch stands and what is next", Example: "batch 1", Batch: true, Reads: true, Run: (*Turn).batch},
		{Name: "batches", Also: []string{"list"}, Group: groupLook, Form: "batches / batches all", Help: "all running batches", Example: "batches", Reads: true, Fields: []Field{{Name: "Which", Example: "all", Optional: true, Choices: []string{"all"}}}, Run: (*Turn).batches},
		{Name: "today", Also: []string{"due", "todo"}, Group: groupLook, Form: "today", Help: "what is next for every running batch", Example: "today", Reads: true, Run: (*Turn).today},
		{Name: "why", Group: groupLook, Form: "why / why 3a / why 3 heat", Help: "the arithmetic, line by line: of a cure, a checked recipe, the heat, the cooling, the estimate, the yield", Example: "why 1", Fields: []Field{batchField()}, Run: (*Turn).why},
	}
}

// batch says where a batch stands.
func (t *Turn) batch(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("batch", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	keeper, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": ", t.standing(s), ".")
	r.Table(t.pieceRows(s))
	for _, l := range s.Lost {
		r.Say("Thrown away ", t.dayHour(l.At), ": ", strings.TrimSpace(l.Letter+" "+l.Flavouring), " (", l.Why, ").")
	}
	since := []any{"In the cure since ", t.dayHour(s.Opened), "; keeper ", keeper.Name}
	if s.Helper.At(t.Now) {
		who, err := t.Tx.MemberByID(s.Helper.Member)
		if err != nil {
			return r, err
		}
		since = append(since, ", looked after by ", who.Name, " until ", t.dayHour(s.Helper.Until))
	}
	r.Par(append(since, ".")...)
	if s.Stage() == course.Curing && len(s.Flips) > 0 {
		who, err := t.lastTurnedBy(s)
		if err != nil {
			return r, err
		}
		r.Say(count(len(s.Flips), "flip"), ", the last ", t.dayHour(s.LastTurned()), who, ".")
	}
	if s.Apart() {
		r.Say("Each piece has its own days; cure check: ", t.checkDates(s), ".")
	}
	t.sayProgress(&r, s)
	if hot(s) {
		rest, err := t.smokeAnswer(s, nil)
		if err != nil {
			return r, err
		}
		r.Append(rest)
	}
	if done := t.doneLine(s); done != "" {
		r.Say("Done: ", done, ".")
	}
	if err := t.sayNext(&r, s); err != nil {
		return r, err
	}
	t.sayNotes(&r, s)
	return r, nil
}

func (t *Turn) pieceRows(s course.State) [][]string {
	rows := [][]string{{"", "fresh", "thick", percent(s.Plan.Mix) + " mix", "salt", "sugar", "ppm"}}
	for _, p := range s.Pieces {
		thick := "?"
		if p.Thickness > 0 {
			thick = t.units().thickness(p.Thickness)
		}
		rows = append(rows, []string{p.Letter + " " + orElse(p.Flavouring, "plain") + rindText(p.RindOn), t.units().meat(p.Weight), thick,
			grams(p.MixWeight, weighedDecimals(p.MixWeight)), grams(p.SaltWeight, 0), grams(p.Sugar, 0), trim(float64(p.Ingoing), 1)})
	}
	return rows
}

// weighedDecimals is one decimal for a mix weighed to 0.1 g and two for a finer one.
func weighedDecimals(g curemath.Grams) int {
	if tenths := float64(g) * 10; tenths-float64(int(tenths+0.5)) > 1e-6 || float64(int(tenths+0.5))-tenths > 1e-6 {
		return 2
	}
	return 1
}

// doneLine lists the steps behind a batch with their days.
func (t *Turn) doneLine(s course.State) string {
	var list []string
	for _, info := range course.Steps() {
		m, ok := s.Marked(info.Step, "")
		if !ok {
			continue
		}
		word := info.Done
		if m.Skipped {
			word = "skipped " + string(info.Step)
		}
		list = append(list, word+" "+m.At.In(t.Loc).Format("2 Jan"))
	}
	return strings.Join(list, ", ")
}

func (t *Turn) sayNotes(r *reply.Reply, s course.State) {
	first := true
	for _, l := range s.Log {
		if l.Kind != course.Note {
			continue
		}
		of := ""
		if l.Piece != "" && len(s.Pieces) > 1 {
			of = l.Piece + ": "
		}
		line := []any{l.At.In(t.Loc).Format("2 Jan 15:04"), " ", of, clip(l.Body.Text, 1000)}
		if first {
			r.Par(append([]any{"Notes: "}, line...)...)
			first = false
			continue
		}
		r.Say(line...)
	}
}

// batches lists a conversation's batches, one line each.
func (t *Turn) batches(args string) (reply.Reply, error) {
	var r reply.Reply
	all := strings.EqualFold(strings.TrimSpace(args), "all")
	list, err := t.Tx.Batches(t.Conv.ID, all)
	if err != nil {
		return r, err
	}
	if len(list) == 0 {
		r.Say("No batch is running. Start one with a weight: ", reply.Type("5 lb juniper 1.5 in"))
		return r, nil
	}
	r.Say(batchCount(len(list)), ":")
	for _, b := range list {
		s, err := load(t.Tx, b)
		if err != nil {
			return r, err
		}
		r.Say(reply.B(fmt.Sprint(b.Number)), " ", orElse(flavours(s), "plain"), ", ", t.units().meat(sum(s)), ": ", t.standing(s), ".")
	}
	return r, nil
}

// why prints the arithmetic of a batch's piece, or of the cure worked out last.
func (t *Turn) why(args string) (reply.Reply, error) {
	r, ok, err := t.whyOther(args)
	if ok || err != nil {
		return r, err
	}
	if strings.TrimSpace(args) == "" {
		d, ok, err := t.draft()
		if err != nil {
			return r, err
		}
		if ok && d.Asked != "" {
			c, err := t.solveWet(d.Asked)
			if err != nil {
				return r, err
			}
			return r, t.sayWetTrail(&r, c)
		}
		if ok && len(d.Line.Pieces) > 0 {
			c, err := t.solve(d.Line)
			if err != nil {
				return r, err
			}
			for i := range c.cures {
				t.sayTrail(&r, pieceTitle(i, d.Line.Pieces[i].Flavouring, len(c.cures)), c.cures[i].Trail, c.days[i].Trail)
			}
			return r, nil
		}
	}
	p, err := t.which("why", args, nil)
	if err != nil {
		return r, err
	}
	if p.State.Plan.Asked != "" {
		c, err := t.asOpened(p.State).solveWet(p.State.Plan.Asked)
		if err != nil {
			return r, err
		}
		return r, t.sayWetTrail(&r, c)
	}
	for i, piece := range p.State.Pieces {
		if p.Letter != "" && piece.Letter != p.Letter {
			continue
		}
		cure, days, err := t.again(p.State, piece.Piece)
		if err != nil {
			return r, err
		}
		t.sayTrail(&r, pieceTitle(i, piece.Flavouring, len(p.State.Pieces)), cure.Trail, days.Trail)
	}
	return r, nil
}

// asOpened is this turn with the settings a batch was opened under.
func (t *Turn) asOpened(s course.State) *Turn {
	old := *t
	old.Conv.Settings.Nitrite, old.Conv.Settings.Salt, old.Conv.Settings.Sugar = s.Plan.Nitrite, s.Plan.Salt, &s.Plan.Sugar
	old.Conv.Settings.Mix, old.Conv.Settings.Rules = s.Plan.Mix, s.Plan.Rules
	old.Now = s.Opened.In(t.Loc)
	return &old
}

// again works a piece's cure out from what the batch was opened with.
func (t *Turn) again(s course.State, p store.Piece) (curemath.DryCure, curemath.Days, error) {
	mix := curemath.StandardMix()
	var err error
	if s.Plan.Mix != mix.Nitrite {
		if mix, err = curemath.MixOf(s.Plan.Mix); err != nil {
			return curemath.DryCure{}, curemath.Days{}, err
		}
	}
	rules, _ := t.bot.Rules.ByID(s.Plan.Rules)
	cure, err := curemath.SolveDry(curemath.DryTargets{Green: p.Weight, RindOn: p.RindOn, Nitrite: s.Plan.Nitrite, Salt: s.Plan.Salt,
		Sugar: s.Plan.Sugar, Ascorbate: s.Plan.Ascorbate, Mix: mix, Rules: rules})
	if err != nil {
		return cure, curemath.Days{}, err
	}
	days := curemath.DaysUnknown(p.RindOn)
	if p.Thickness > 0 {
		days, err = curemath.DayRule(p.Thickness, p.RindOn)
	}
	return cure, days, err
}

func pieceTitle(i int, flavouring string, of int) string {
	if of == 1 {
		return ""
	}
	return "Piece " + letter(i) + ", " + orElse(flavouring, "plain")
}

// sayWetTrail is the arithmetic of a wet or box cure, with its days.
func (t *Turn) sayWetTrail(r *reply.Reply, s wetSum) error {
	days, err := s.days()
	if err != nil {
		return err
	}
	t.sayTrail(r, "", s.trail, days.Trail)
	return nil
}

// mostSteps is how many steps of arithmetic stand together: a long reply parts where a
// paragraph ends.
const mostSteps = 9

func (t *Turn) sayTrail(r *reply.Reply, title string, trails ...curemath.Trail) {
	if title != "" {
		r.Par(reply.B(title))
	}
	for n, trail := range trails {
		parts := (len(trail) + mostSteps - 1) / mostSteps
		for i, step := range trail {
			say := r.Say
			if i > 0 && i*parts/len(trail) != (i-1)*parts/len(trail) || i == 0 && n > 0 { // the next part, the next sum
				say = r.Par
			}
			say(reply.B(step.What), ": ", step.Working, " [", step.Source.String(), "]")
		}
	}
}

func batchCount(n int) string {
	if n == 1 {
		return "1 batch"
	}
	return fmt.Sprintf("%d batches", n)
}
