package label

import "strings"

// Text writes the label as lines of plain text. Allergens stand in capitals.
// What is not known is left out.
func Text(l Label) string {
	var lines []string
	add := func(s string) {
		if s != "" {
			lines = append(lines, s)
		}
	}
	add(plain(l.Product))
	add(l.statement())
	var names []string
	for _, i := range Sorted(l.Ingredients) {
		var b strings.Builder
		for _, s := range spans(i.Name, l.Allergens) {
			b.WriteString(s.text)
		}
		names = append(names, b.String())
	}
	if len(names) > 0 {
		add("Ingredients: " + strings.Join(names, ", "))
	}
	add(contains(l.Allergens))
	if l.Net >= 1 && l.Net <= heaviest {
		add("Net " + NetWeight(l.Net))
	}
	for _, d := range l.dates() {
		add(d.word + " " + d.day)
	}
	add(l.batch())
	if from := plain(l.From); from != "" {
		add("Packed by " + from)
	}
	add(l.keep())
	return strings.Join(lines, "\n")
}

type dated struct{ word, day string }

// dates are the days the label names.
func (l Label) dates() []dated {
	var out []dated
	if !l.Packed.IsZero() {
		out = append(out, dated{"Packed", l.Packed.Format(dateForm)})
	}
	if !l.UseByFridge.IsZero() {
		out = append(out, dated{"Use by, fridge", l.UseByFridge.Format(dateForm)})
	}
	if !l.UseByFreezer.IsZero() {
		out = append(out, dated{"Use by, freezer", l.UseByFreezer.Format(dateForm)})
	}
	return out
}
