package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// How a fried slice is spoken of. What fits neither is asked about: a slip of the
// pen must not pass for "tastes right".
var (
	soundsSalty = regexp.MustCompile(`(?i)\bsal|\bslat|\bbrin(y|ey)\b|\btoo much\b`)
	soundsWeak  = regexp.MustCompile(`(?i)^\W*(?:not salty enough|could be saltier|a bit bland|bland)\W*$`)
	soundsRight = regexp.MustCompile(`(?i)^\W*(good|fine|right|tastes? (right|good|great|fine)|ok(ay)?|perfect|great|nice|lovely|tasty|just right|yes|yum(my)?|not (too )?salty|not salty enough|could be saltier)\b`)
)

// tasted reads how the test slice was. done is false when it was right and the step
// is to be recorded.
func (t *Turn) tasted(s course.State, letter, text string, at time.Time) (r reply.Reply, done bool, err error) {
	n := fmt.Sprintf("%d%s", s.Number, letter)
	if said := tastedPieces(s, strings.TrimSpace(letter+" "+text)); said.named && (letter == "" || !said.clear || len(said.right)+len(said.salty) > 1) && strings.TrimSpace(text) != "" {
		r, err = t.fryPieces(s, said, strings.TrimSpace(letter+" "+text), at)
		return r, true, err
	}
	switch {
	case soundsWeak.MatchString(text): // right, and more salt the next time: both are kept
		return r, false, t.write(s.Batch, letter, course.Note, at, course.Body{Text: "test slice " + clip(strings.TrimSpace(text), 60)})
	case strings.TrimSpace(text) == "" || soundsRight.MatchString(text):
		return r, false, nil
	case soundsSalty.MatchString(text):
		if s, err = t.record(s.Batch, letter, course.Note, at, course.Body{Text: tooSalty}); err != nil {
			return r, true, err
		}
		r.Say(reply.B(t.pieceOrBatch(s, letter)), ": too salty.")
		t.saySoak(&r, s, []string{letter})
		return r, true, nil
	}
	r.Say("Was the slice right, or too salty? I can't tell from “", clip(text, 60), "”, and nothing was recorded.")
	r.Press(reply.Button{Label: "Tastes right", Line: "fry " + n, Version: s.Version}, reply.Button{Label: "Too salty", Line: "fry " + n + " too salty", Version: s.Version})
	return r, true, nil
}
