package bot

import (
	"fmt"
	"regexp"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

const pitWords = `\b(?:pit|smoker|grate|chamber|smokehouse|cabinet)\b`

// smoking are the worries of the smoke day.
func smoking() []worry {
	return []worry{
		worryOf("heat", pitWords+`.*\b(?:got(?: up)? to|hit|hits|reached|went(?: up| over)*(?: to)?|climbed|spiked|shot up|ran(?: up)?(?: at| to)?|peaked|jumped|rose|was(?: up)?(?: at| over)?|has been|over|above)\b\D{0,12}\d{2,3}|`+pitWords+`.*\b(?:too hot|too warm|running hot|(?:is|gets?|getting|so|very|really) hot|overheat\w*|flared?|runaway|ran away)\b|\b(?:too hot|flare-?up)\b.*`+pitWords+`|^\W*(?:the |my |pit )*temp(?:erature)?s? (?:is|are|got|gets|was|way|much|far)* ?too (?:high|hot)\b`,
			"Keep the pit under 160 °F (71 °C) and never over 170 °F (77 °C), or the fat renders out: close the vents, open the lid a crack (common practice, no source).",
			"Read the core now: a hot pit takes it to its target sooner than planned.").ahead().with((*Turn).pitTold).then((*Turn).readNow).butNot(`\bcore\b.*\d|\d\s*/\s*\d`),
		worryOf("heat", `\b(?:stalled|stalls|stalling|a stall|stall|plateau\w*)\b|\b(?:temp\w*|core|it|it's|its) (?:is )?stuck\W*$|\bstuck (?:at|on|around|near|for)\b|\b(?:won'?t|wont|not|isn'?t|doesn'?t|stopped|hasn'?t|hardly) (?:go(?:ing)? up|ris(?:e|ing|en)|mov(?:e|ing|ed)|climb(?:ing|ed)?|budg(?:e|ing|ed))\b`,
			"A stall: water drying off the surface cools the meat as fast as the pit warms it. It can last for hours and then goes on; hold the pit, don't chase it (common practice, no source).",
			"A core close under its pit is no stall: it can't get warmer than the pit. Keep the pit under 160 °F (71 °C), and let only fully cured meat stand in the warm for hours.").ahead().then((*Turn).readNow).butNot(`\b(?:rack|bag|lid|door|drain)\b`),
		worryOf("heat", pitWords+`.*\b\d{3}\b`,
			"Keep the pit under 160 °F (71 °C) and never over 170 °F (77 °C), or the fat renders out: close the vents, open the lid a crack (common practice, no source).").with((*Turn).pitTold).then((*Turn).readNow),
	}
}

var pitSaid = regexp.MustCompile(`(?i)` + pitWords + `\D*(\d{2,3}(?:[.,]\d+)?\s*(?:°\s*[fc]?|degrees?\s*[fc]?|deg\s*[fc]?|[fc])?)\b`)

// pitTold says how a temperature told of a pit lies to what bacon is smoked in.
func (t *Turn) pitTold(line string) []string {
	m := pitSaid.FindStringSubmatch(line)
	if m == nil {
		return nil
	}
	at, err := parse.Temperature(m[1], t.tempUnit())
	if err != nil || at <= hotPit || at > mostPit {
		return nil
	}
	return []string{t.units().temp(at) + " is too hot a pit for bacon."}
}

const (
	hotPit  curemath.Fahrenheit = 170 // common practice, no source
	mostPit curemath.Fahrenheit = 700 // no smokehouse has more: our own choice, no source
)

// readNow asks for what the thermometers of each batch in the smoke read now.
func (t *Turn) readNow(string) []string {
	open, err := t.openBatches()
	if err != nil {
		return nil
	}
	var out []string
	for _, s := range open {
		if s.AnyIn(course.InSmoke) {
			out = append(out, fmt.Sprintf("Nothing is recorded by this. What do pit and core of %s read now? `%d pit %s core %s`", name(s), s.Number, t.plainTemp(150), t.plainTemp(121)))
		}
	}
	return out[:min(len(out), 3)]
}
