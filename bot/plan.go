package bot

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/exchange"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// How many days before bacon is wanted each thing after the cure is done: packed the
// day before, in the fridge overnight before that, in the smoke for a day, and drying
// overnight after the cure check. Common practice of the trade, no source.
const (
	packBefore  = 1
	smokeBefore = 3
	checkBefore = 4
)

// chorePlanBuy and chorePlanStart remind of a plan; their Body is its id.
const (
	chorePlanBuy   = "plan buy"
	chorePlanStart = "plan start"
)

var forDate = regexp.MustCompile(`(?i)^(.*?)(?:^|\s)(?:for|by|until)\s+(.+)$`)

// plan counts back from a date, lists the plans, or drops one.
func (t *Turn) plan(args string) (reply.Reply, error) {
	args = strings.TrimSpace(args)
	if args == "" {
		return t.planList()
	}
	if word, rest := firstWord(args); strings.EqualFold(word, "drop") {
		return t.planDrop(rest)
	}
	m := forDate.FindStringSubmatch(args)
	if m == nil {
		return reply.Reply{}, &Error{Kind: BadInput, Why: "For which date?", Example: "plan 5 lb juniper 1.5 in for 24 December"}
	}
	at, err := parse.Upcoming(m[2], t.Now)
	if err != nil {
		return reply.Reply{}, offering(err, strings.TrimSpace("plan "+m[1])+" for "+plan.DateOf(t.Now, t.Loc).AddDays(30).String())
	}
	if word, _ := firstWord(m[1]); slices.Contains([]string{"brine", "pump", "box"}, strings.ToLower(word)) {
		return reply.Reply{}, &Error{Kind: BadInput, Why: "By weight I plan a dry rub. A brine, a pump or a box cure is planned by the recipe it was kept as.", Understood: strings.ToLower(word), Example: "plan 5 lb juniper 1.5 in for " + plan.DateOf(at, t.Loc).String()}
	}
	p, least, err := t.planned(strings.TrimSpace(m[1]))
	if err != nil {
		return reply.Reply{}, err
	}
	most := least[1]
	today, ready := plan.DateOf(t.Now, t.Loc), plan.DateOf(at, t.Loc)
	if ready.DaysSince(today) > 366 {
		return reply.Reply{}, &Error{Kind: BadInput, Why: "I plan up to a year ahead.", Understood: dateText(ready), Example: "plan 5 lb juniper 1.5 in for 24 December"}
	}
	check := ready.AddDays(-checkBefore)
	start, tight := check.AddDays(-most), false
	if start.Before(today) {
		start, tight = check.AddDays(-least[0]), true
	}
	if start.Before(today) {
		soonest := today.AddDays(least[0] + checkBefore)
		return reply.Reply{}, &Error{Kind: NotNow, Why: fmt.Sprintf("That is too soon: cure, drying, smoke and cooling take %d days at least. Started today it can be ready on %s. A shorter cure is no way to gain time.", least[0]+checkBefore, dateText(soonest)),
			Understood: "ready for " + dateText(ready), Example: strings.TrimSpace("plan "+m[1]) + " for " + soonest.String()}
	}
	buy := start.AddDays(-1)
	if buy.Before(today) {
		buy = today
	}
	p.Member, p.Ready = t.Me.ID, ready.String()
	p.Buy, p.Start, p.Check, p.Smoke, p.Pack = buy.String(), start.String(), start.AddDays(least[0]).String(), ready.AddDays(-smokeBefore).String(), ready.AddDays(-packBefore).String()
	if p, err = t.Tx.AddPlan(p); err != nil {
		return reply.Reply{}, err
	}
	if err := t.remindOfPlan(p, buy, start); err != nil {
		return reply.Reply{}, err
	}
	return t.showPlan(p, least, tight)
}

// planned reads what is to be made and works its cure out; days are the least and
// most it takes.
func (t *Turn) planned(what string) (p store.Planned, days [2]int, err error) {
	unknown := curemath.DaysUnknown(false)
	days = [2]int{unknown.Min, unknown.Max}
	if what == "" {
		return p, days, nil
	}
	var line parse.CureLine
	if kept, rest, ferr := t.findRecipe("plan", what); ferr == nil {
		rec, err := readRecipe(kept)
		if err != nil {
			return p, days, err
		}
		if line, err = t.recipeWeight(kept, rest); err != nil {
			return p, days, err
		}
		p.Recipe, p.Line = title(kept), fmt.Sprintf(`use "%s" %s`, kept.Name, strings.TrimSpace(rest))
		line.Pieces = piecesBy(rec, line)
		if rec.Method != curemath.DryRub.String() {
			return t.plannedWet(p, rec, line, days)
		}
		line = dryLine(rec, line)
	} else if line, err = parse.Cure(what, t.Now); err != nil {
		return p, days, err
	} else {
		p.Line = "cure " + clip(what, 200)
	}
	if line.Bare != nil || len(line.Pieces) == 0 {
		return p, days, &Error{Kind: BadInput, Why: "How much meat? I need a weight with its unit, or nothing but the date.", Example: "plan 5 lb juniper 1.5 in for 24 December"}
	}
	c, err := t.solve(line)
	if err != nil {
		return p, days, err
	}
	days[0], days[1] = c.span()
	for i, cure := range c.cures {
		p.Weight += cure.Targets.Green
		p.Thickness = max(p.Thickness, line.Pieces[i].Thickness)
		p.Mix, p.Salt, p.Sugar = p.Mix+cure.Weigh.Mix, p.Salt+cure.Weigh.Salt, p.Sugar+cure.Weigh.Sugar
	}
	return p, days, nil
}

// plannedWet is planned for a wet or box recipe.
func (t *Turn) plannedWet(p store.Planned, rec exchange.Recipe, line parse.CureLine, days [2]int) (store.Planned, [2]int, error) {
	if len(line.Pieces) != 1 {
		return p, days, &Error{Kind: BadInput, Why: "A wet or box cure is worked out for one piece at a time.", Example: `plan "kettle brine" 3 kg for 24 December`}
	}
	rec.RindOn = rindOn(line, line.Pieces[0])
	s, err := t.solveWet(wetLine(rec, line.Pieces[0]))
	if err != nil {
		return p, days, err
	}
	p.Weight, p.Thickness = line.Pieces[0].Weight, line.Pieces[0].Thickness
	p.Mix, p.Salt, p.Sugar = s.portion.Mix, s.portion.Salt, s.portion.Sugar
	if p.Thickness > 0 {
		d, err := s.days()
		if err != nil {
			return p, days, err
		}
		days = [2]int{d.Min, d.Max}
	}
	return p, days, nil
}

// remindOfPlan plants the reminders of the days on which a plan begins.
func (t *Turn) remindOfPlan(p store.Planned, buy, start plan.Date) error {
	for kind, day := range map[string]plan.Date{chorePlanBuy: buy, chorePlanStart: start} {
		at, ok := plan.Instant(day, plan.HourMinute(t.Conv.Settings.PingHour), t.Loc)
		if !ok || !at.After(t.Now) {
			continue
		}
		if err := t.Tx.Enqueue(t.Conv.ID, kind, fmt.Sprint(p.ID), fmt.Sprint(p.ID), at, store.Routine); err != nil {
			return err
		}
	}
	return nil
}

const keepCold = "Fresh belly is kept under 40 °F (4 °C) until it goes into the cure (NCHFP 6.1.3)."

func (t *Turn) showPlan(p store.Planned, days [2]int, tight bool) (reply.Reply, error) {
	var r reply.Reply
	r.Say(reply.B("Bacon for "+dayText(p.Ready)), t.planWhat(p), ":")
	check := dayText(p.Check)
	if last := lastCheck(p); last != p.Check {
		check += " to " + dayText(last)
	}
	r.Table([][]string{
		{"buy the belly", dayText(p.Buy)},
		{"into the cure", dayText(p.Start)},
		{"cure check, rinse, dry", check},
		{"into the smoke, by", dayText(p.Smoke)},
		{"slice and pack, by", dayText(p.Pack)},
	})
	switch {
	case p.Weight == 0:
		r.Par("Counted as for a belly 2 in (51 mm) thick; with its weight and thickness I know better: ", reply.Type("plan 5 lb 1.5 in for "+p.Ready))
	case p.Thickness == 0:
		r.Par(fmt.Sprintf("Counted with %s in cure, as for 2 in (51 mm), since I don't know how thick it is.", daysRange(days[0], days[1])))
	default:
		r.Par(fmt.Sprintf("Counted with %s in cure, a day to smoke, and a night each to dry and to chill (common practice, no source).", daysRange(days[0], days[1])))
	}
	if tight {
		r.Say("There is no day to spare: if it is soft at the check, it is late. Firmness decides, not the date.")
	}
	r.Say(keepCold)
	t.sayShort(&r, map[string]curemath.Grams{"mix": p.Mix, "salt": p.Salt, "sugar": p.Sugar})
	r.Say("I'll remind you when to buy and when to begin. All plans: ", reply.Type("plans"), "; what to buy: ", reply.Type("shopping"), ".")
	return r, nil
}

// lastCheck is the last day on which the cure check still leaves time.
func lastCheck(p store.Planned) string {
	ready, err := plan.ParseDate(p.Ready)
	if err != nil {
		return p.Check
	}
	return ready.AddDays(-checkBefore).String()
}

func dayText(date string) string {
	d, err := plan.ParseDate(date)
	if err != nil {
		return date
	}
	return dateText(d)
}

func (t *Turn) planWhat(p store.Planned) string {
	if p.Weight == 0 {
		return ""
	}
	what := ", " + t.units().meat(p.Weight)
	if p.Recipe != "" {
		what += ", " + p.Recipe
	}
	return what
}

func (t *Turn) myPlans() ([]store.Planned, error) {
	return t.Tx.Plans(t.Me.ID, plan.DateOf(t.Now, t.Loc).String())
}

func (t *Turn) planList() (reply.Reply, error) {
	var r reply.Reply
	list, err := t.myPlans()
	if err != nil {
		return r, err
	}
	if len(list) == 0 {
		r.Say("Nothing is planned. Count back from a date: ", reply.Type("plan 5 lb juniper 1.5 in for 24 December"))
		return r, nil
	}
	r.Say(reply.B("Planned:"))
	for i, p := range list {
		r.Say(fmt.Sprintf("%d for %s%s: buy %s, into the cure %s.", i+1, dayText(p.Ready), t.planWhat(p), dayText(p.Buy), dayText(p.Start)))
	}
	r.Par("Begin one on its day: ", reply.Type(orElse(list[0].Line, "cure 5 lb")), ". Drop one: ", reply.Type("plan drop 1"))
	return r, nil
}

func (t *Turn) planDrop(said string) (reply.Reply, error) {
	var r reply.Reply
	list, err := t.myPlans()
	if err != nil {
		return r, err
	}
	n, err := strconv.Atoi(strings.TrimSpace(said))
	if err != nil || n < 1 || n > len(list) {
		return r, &Error{Kind: NoSuch, Why: fmt.Sprintf("There is no plan “%s”; %s.", clip(said, 20), count(len(list), "plan")), Example: "plans"}
	}
	if err := t.Tx.DropPlan(list[n-1].ID); err != nil {
		return r, err
	}
	r.Say("Dropped: bacon for ", dayText(list[n-1].Ready), t.planWhat(list[n-1]), ".")
	return r, nil
}

// shopping adds up what the plans not yet begun take and what the cupboard lacks.
func (t *Turn) shopping(string) (reply.Reply, error) {
	var r reply.Reply
	list, err := t.myPlans()
	if err != nil {
		return r, err
	}
	today := plan.DateOf(t.Now, t.Loc).String()
	var belly curemath.Grams
	need := map[string]curemath.Grams{}
	n := 0
	for _, p := range list {
		if p.Start < today || p.Weight == 0 {
			continue
		}
		n++
		belly += p.Weight
		for item, g := range map[string]curemath.Grams{"mix": p.Mix, "salt": p.Salt, "sugar": p.Sugar} {
			need[item] += g
		}
	}
	if n == 0 {
		return r, &Error{Kind: NotNow, Why: "No batch with a weight is planned, so there is nothing to buy for.", Example: "plan 5 lb juniper 1.5 in for 24 December"}
	}
	s, err := t.shelf(t.Me.ID)
	if err != nil {
		return r, err
	}
	rows := [][]string{{"", "needed", "there", "to buy"}, {"pork belly", t.units().meat(belly), "–", t.units().meat(belly)}}
	for _, item := range stockItems() {
		there, buy := "?", stockText(item, need[item])
		if left, ok := s.left[item]; ok {
			there, buy = stockText(item, max(left, 0)), stockText(item, max(need[item]-max(left, 0), 0))
		}
		rows = append(rows, []string{stockName(item), stockText(item, need[item]), there, buy})
	}
	r.Say(reply.B("For what is planned:"))
	r.Table(rows)
	return r, nil
}

// loosePart writes what a chore says that belongs to no batch.
func (t *Turn) loosePart(c store.Chore) (r reply.Reply, wanted bool, err error) {
	if c.Kind == store.ChoreRenumbered {
		r, wanted = renumbered(c)
		return r, wanted, nil
	}
	if c.Kind != chorePlanBuy && c.Kind != chorePlanStart {
		return r, false, nil
	}
	id, err := strconv.ParseInt(c.Body, 10, 64)
	if err != nil {
		return r, false, nil
	}
	p, err := t.Tx.Plan(id)
	if errors.Is(err, store.ErrNotFound) || err == nil && p.State != store.PlanOpen {
		return r, false, nil
	}
	if err != nil {
		return r, false, err
	}
	who, err := t.Tx.MemberByID(p.Member)
	if err != nil {
		return r, false, err
	}
	r.Mentions = []string{who.Key}
	if c.Kind == chorePlanBuy {
		r.Par(reply.Who(who.Key, who.Name), ", for bacon on ", dayText(p.Ready), ": buy the belly today", t.planWhat(p), ". What else: ", reply.Type("shopping"))
		r.Say(keepCold)
		return r, true, nil
	}
	r.Par(reply.Who(who.Key, who.Name), ", for bacon on ", dayText(p.Ready), ": it goes into its cure today", t.planWhat(p), ".")
	line := orElse(p.Line, "cure")
	r.Press(reply.Button{Label: "Work it out", Line: line, Ask: p.Line == ""})
	return r, true, nil
}
