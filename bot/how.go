package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// sayHow says how a step is done: for cooling, by the rule for each piece's cure.
func sayHow(r *reply.Reply, info course.Info, s course.State, letters []string) {
	if info.Step != course.Cooled {
		r.Say(info.How)
		return
	}
	var lines []string
	of := map[string]string{}
	for _, p := range s.Pieces {
		if len(letters) > 0 && !slices.Contains(letters, p.Letter) {
			continue
		}
		rule := curemath.CoolingRuleFor(p.Ingoing)
		line := coolingHow(rule)
		if neverHot(s, p, rule) {
			line = stayCold(rule)
		}
		if of[line] == "" {
			lines = append(lines, line)
		}
		of[line] += p.Letter
	}
	for _, line := range lines {
		who := ""
		if len(lines) > 1 {
			who = strings.Join(strings.Split(of[line], ""), ", ") + ": "
		}
		r.Say(who, line)
	}
}

// neverHot says whether the core of a piece was read in its smoke, and never over the
// end of its first cooling window: what was never hot has no way down from it.
func neverHot(s course.State, p course.PieceState, rule curemath.CoolingRule) bool {
	cores := course.Since(s.Cores(p.Letter), p.Marks[course.Smoking].At)
	for _, c := range cores {
		if c.Temp > rule.Windows[0].To {
			return false
		}
	}
	return len(cores) > 0
}

// stayCold is what is left of a rule for what never was hot.
func stayCold(rule curemath.CoolingRule) string {
	first, last := rule.Windows[0].To, rule.Windows[len(rule.Windows)-1]
	return fmt.Sprintf("By its readings its core never was over %s °F (%s °C), so there is no heat to cool from: it is raw, keep it cold. Back into the fridge now; to %s °F (%s °C) within %s [%s].",
		trim(float64(first), 0), trim(float64(first.Celsius()), 0), trim(float64(last.To), 0), trim(float64(last.To.Celsius()), 0), howLong(last.Within), rule.Source.String())
}

// coolingHow writes a rule out: from where to where within what time.
func coolingHow(rule curemath.CoolingRule) string {
	both := func(f curemath.Fahrenheit) (string, string) {
		return trim(float64(f), 0), trim(float64(f.Celsius()), 0)
	}
	who := "Cured meat"
	if rule.NeedsIngoing == 0 {
		who = "Not cured enough for the longer times of cured meat"
	}
	line := who + ": "
	for i, w := range rule.Windows {
		toF, toC := both(w.To)
		if i == 0 {
			fromF, fromC := both(w.From)
			line += fmt.Sprintf("from %s to %s °F (%s to %s °C) within %s", fromF, toF, fromC, toC, howLong(w.Within))
			continue
		}
		line += fmt.Sprintf(", then to %s °F (%s °C) within %s more", toF, toC, howLong(w.Within))
	}
	return line + " [" + rule.Source.String() + "]."
}
