package bot

import "larderhand/bot/course"

// Suggestable is a sort of thing that can be offered while it is being typed; see
// Bot.Suggest.
type Suggestable string

// What can be offered.
const (
	SuggestBatch      Suggestable = "batch"
	SuggestFlavouring Suggestable = "flavouring"
	SuggestCommand    Suggestable = "command"
)

// batchField asks for a batch where its number does not come first.
func batchField() Field {
	return Field{Name: "Batch", Example: "3", Optional: true, Suggest: SuggestBatch}
}

// whenField asks when something happened.
func whenField(prefix string) Field {
	return Field{Name: "When", Prefix: prefix, Example: "yesterday 18:00", Optional: true}
}

// stepFields are what a step's record can say besides that it was done.
func stepFields(s course.Step) []Field {
	var list []Field
	switch s {
	case course.Fried:
		list = []Field{{Name: "Taste", Example: "too salty", Optional: true, Choices: []string{"too salty"}}}
	case course.Smoked:
		list = []Field{{Name: "Core", Prefix: "core", Example: "151", Optional: true}}
	case course.Sliced:
		list = []Field{{Name: "Thickness", Example: "4 mm", Optional: true}}
	case course.Packed:
		list = []Field{{Name: "Weight", Example: "4 lb 5 oz", Optional: true}, {Name: "Kept", Example: "frozen", Optional: true, Choices: []string{"frozen"}}}
	default:
		list = []Field{{Name: "Remark", Example: "thin end a bit soft", Optional: true}}
	}
	return append(list, whenField("at"))
}

func stepNames() []string {
	var list []string
	for _, info := range course.Steps() {
		list = append(list, string(info.Step))
	}
	return list
}

func settingFields() []Field {
	var names []string
	for _, s := range settings() {
		names = append(names, s.name)
	}
	return []Field{{Name: "Setting", Example: "hour", Optional: true, Choices: names}, {Name: "Value", Example: "07:30", Optional: true}}
}
