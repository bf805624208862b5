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
	var rules []curemath.CoolingRule
	of := map[string]string{}
	for _, p := range s.Pieces {
		if len(letters) > 0 && !slices.Contains(letters, p.Letter) {
			continue
		}
		rule := curemath.CoolingRuleFor(p.Ingoing)
		if _, ok := of[rule.Key]; !ok {
			rules = append(rules, rule)
		}
		of[rule.Key] += p.Letter
	}
	for _, rule := range rules {
		line := coolingHow(rule)
		if len(rules) > 1 {
			line = strings.Join(strings.Split(of[rule.Key], ""), ", ") + ": " + line
		}
		r.Say(line)
	}
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
