package bot

import (
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
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
		return []string{"seasoned", "glaze", "glazed", "brushed"}
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
		rows = append(rows, Command{Name: string(step), Also: stepWords(step), Group: groupSteps, Batch: true, Own: ownWordsAfter(step),
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

// ownWordsAfter says whether a person's own words may follow a step.
func ownWordsAfter(s course.Step) bool {
	switch s {
	case course.Fried, course.Season, course.Smoking, course.Sliced, course.Packed:
		return true
	}
	return false
}

func stepForm(s course.Step) string {
	switch s {
	case course.Firm:
		return "firm 3 / firm 3 a and c"
	case course.Fried:
		return "fry 3 / fry 3 too salty"
	case course.Smoked:
		return "smoked 3 core 151 / smoked 3 core a 151 b 150"
	case course.Smoking:
		return "smoke 3 hanging, oak, 40 °F outside"
	case course.Sliced:
		return "slice 3 4 mm, 24 cm long"
	case course.Packed:
		return "pack 3 4 lb 2 oz frozen / pack 3 a 4 lb b 3 lb"
	}
	return string(s) + " 3"
}

func waitsFor(step course.Step) func(course.State) bool {
	return func(s course.State) bool {
		next, _, ok := s.Next()
		return ok && next.Step == step
	}
}

func stepDone(step course.Step) string {
	info, _ := course.Describe(step)
	return info.Done
}

func orElse(s, other string) string {
	if strings.TrimSpace(s) == "" {
		return other
	}
	return s
}
