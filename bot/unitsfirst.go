package bot

import (
	"errors"
	"regexp"

	"larderhand/bot/reply"
)

// Fixed sentences name a temperature or a length in both systems, the customary one
// first: "34 to 38 °F (1 to 3 °C)", "2 in (51 mm)".
var (
	bothTemps   = regexp.MustCompile(`(` + tempSpan + `) °F( \()(` + tempSpan + `) °C`)
	tempsInside = regexp.MustCompile(`\((` + tempSpan + `) °F(, )(` + tempSpan + `) °C\)`)
	bothLengths = regexp.MustCompile(`(\d[\d.,]*(?: to \d[\d.,]*)?) in \((\d[\d.,]*(?: to \d[\d.,]*)?) mm\)`)
)

const tempSpan = `[−-]?\d[\d.,]*(?: (?:to|and|or) [−-]?\d[\d.,]*)?`

// inUnits turns the two about for a conversation in metric units, in an answer and in
// the sentence of a refusal.
func (t *Turn) inUnits(r reply.Reply, err error) (reply.Reply, error) {
	if t.units() != metric {
		return r, err
	}
	var e *Error
	if errors.As(err, &e) {
		turned := *e
		turned.Why = metricFirst(e.Why)
		return r, &turned
	}
	metricReply(&r)
	return r, err
}

func metricReply(r *reply.Reply) {
	for _, b := range r.Blocks {
		for _, l := range b.Lines {
			for i := range l {
				l[i].Text = metricFirst(l[i].Text)
			}
		}
	}
}

func metricFirst(s string) string {
	s = bothTemps.ReplaceAllString(s, "$3 °C$2$1 °F")
	s = tempsInside.ReplaceAllString(s, "($3 °C$2$1 °F)")
	return bothLengths.ReplaceAllString(s, "$2 mm ($1 in)")
}
