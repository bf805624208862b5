package bot

import (
	"strings"

	"larderhand/bot/reply"
)

// caution is what a person must know about one thing that can hurt them.
type caution struct {
	topic string
	also  []string
	title string
	lines []string
}

// cautions holds the texts; each line ends with where it comes from.
func cautions() []caution {
	return []caution{
		{"nitrite", []string{"mix", "cure", "dose", "poison", "botulism"}, "Nitrite", []string{
			"Curing mix is poison in the wrong dose: a teaspoon of a 6.25 % mix holds about as much nitrite as has killed a small child (WHO drinking-water text; computed). Keep it labelled and locked away (label words: 21 CFR 172.175).",
			"Weigh it on a 0.1 g scale, or 0.01 g under 500 g of meat. Never by the spoon, never by colour: read the percent on your packet; pink table salt cures nothing.",
			"No nitrate mix in bacon, by any method (9 CFR 424.22(b), as a state extension bulletin repeats it). Do not burn it in the pan.",
		}},
		{"cold", []string{"fridge", "temperature", "listeria"}, "Cold", []string{
			"Cure at 34 to 38 °F (1 to 3 °C), never over 40 °F (4 °C), and not frozen: frozen meat does not cure (home-preservation review, NCHFP 6.1.3; the range is common practice, no source).",
			"Listeria grows in the cold and lives in up to 12 % salt (NCHFP). Salt at 2 to 3 % is taste, not safety; nitrite, cold and cooking carry it.",
			"Raw below cooked, raw and cooked apart (NCHFP).",
		}},
		{"heat", []string{"cook", "cooking", "core"}, "Heat", []string{
			"Home-smoked bacon is raw unless its core says otherwise: cook before eating (FSIS, Bacon and Food Safety).",
			"Whole cuts of pork: 145 °F (63 °C) and 3 minutes' rest (USDA). Home-smoked meat: 160 °F (71 °C) at the core (NCHFP 6.1.3). Where they differ, take the higher.",
			"Smoke between 40 and 140 °F (4 and 60 °C) is warm and airless, where botulism starts: nitrite first, always (from memory).",
		}},
		{"cooling", []string{"cool", "chill"}, "Cooling", []string{
			"Cured with at least 100 ppm nitrite: 130 to 80 °F (54 to 27 °C) within 5 hours, 80 to 45 °F (27 to 7 °C) within 10 more (FSIS Appendix B; second-hand, not checked against the text).",
			"Without cure: 130 to 80 °F within 1½ hours, 80 to 40 °F within 5 (FSIS Appendix B, 1999).",
		}},
		{"storage", []string{"freezer", "freeze", "keep", "pack"}, "Storage", []string{
			"Bacon keeps 7 days at 40 °F (4 °C) and 1 month at 0 °F (−18 °C) for quality (US cold storage chart). Frozen it stays safe without limit, only less good.",
			"Unopened vacuum pack in the fridge: 2 weeks (second-hand, not checked). Slime, sour smell, green sheen or a blown bag: throw it away, do not taste.",
		}},
		{"clean", []string{"hygiene", "hands", "rinse"}, "Clean hands and sinks", []string{
			"Do not wash raw meat: it spreads germs (USDA). Rinsing cure off is a different act; do it low and slow, and clean the sink.",
			"Curing does not save meat that is already going off (NCHFP).",
			"Fresh garlic in a vacuum bag is risky for weeks without air; use dry garlic in a cure.",
		}},
		{"people", []string{"children", "baby", "pregnant", "health"}, "Who should ask first", []string{
			"Babies under 6 months, pregnant people, people with G6PD lack or told to limit salt: medical advice before cured meat (from memory).",
		}},
		{"law", []string{"sell", "selling"}, "Law", []string{
			"The limits I hold sums against are for information. Your local food law and a licensed inspector decide; selling cured meat usually needs a licence.",
		}},
	}
}

func cautionCommands() []Command {
	return []Command{{Name: "caution", Also: []string{"cautions", "safety", "warning"}, Own: true, Group: groupHelp, Form: "caution / caution nitrite", Help: "what can hurt, and where the rule comes from",
		Example: "caution nitrite", Sums: true, Fields: []Field{{Name: "Topic", Example: "nitrite", Optional: true, Choices: topics()}}, Run: (*Turn).caution}}
}

func (t *Turn) caution(args string) (reply.Reply, error) {
	var r reply.Reply
	if word := strings.ToLower(strings.TrimSpace(args)); word != "" {
		c, ok := findCaution(word)
		if !ok {
			return r, &Error{Kind: BadInput, Why: "I have no caution about “" + clip(args, 40) + "”. I have: " + strings.Join(topics(), ", ") + ".", Example: "caution nitrite"}
		}
		return c.reply(), nil
	}
	for _, c := range cautions() {
		r.Par(reply.B(c.title), " (", reply.Type("caution "+c.topic), "): ", c.lines[0])
	}
	r.Par("I do sums; your local food law and a licensed inspector decide.")
	return r, nil
}

func findCaution(word string) (caution, bool) {
	for _, c := range cautions() {
		for _, w := range append([]string{c.topic}, c.also...) {
			if w == word {
				return c, true
			}
		}
	}
	return caution{}, false
}

func topics() []string {
	var list []string
	for _, c := range cautions() {
		list = append(list, c.topic)
	}
	return list
}

func (c caution) reply() reply.Reply {
	var r reply.Reply
	r.Par(reply.B(c.title))
	for _, l := range c.lines {
		r.Say("• ", l)
	}
	return r
}

// mustCaution is the caution about a topic of the table.
func mustCaution(topic string) reply.Reply {
	c, _ := findCaution(topic)
	return c.reply()
}
