package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// How a fried slice is spoken of. What fits neither is asked about: a slip of the
// pen must not pass for "tastes right".
var (
	soundsSalty = regexp.MustCompile(`(?i)\bsal|\bslat|\bbrin(y|ey)\b|\btoo much\b`)
	soundsRight = regexp.MustCompile(`(?i)^\W*(good|fine|right|tastes? (right|good|great|fine)|ok(ay)?|perfect|great|nice|lovely|tasty|just right|yes|yum(my)?|not (too )?salty|not salty enough|could be saltier)\b`)
)

// tasted reads how the test slice was. done is false when it was right and the step
// is to be recorded.
func (t *Turn) tasted(s course.State, letter, text string) (r reply.Reply, done bool, err error) {
	n := fmt.Sprintf("%d%s", s.Number, letter)
	switch {
	case strings.TrimSpace(text) == "" || soundsRight.MatchString(text):
		return r, false, nil
	case soundsSalty.MatchString(text):
		if s, err = t.record(s.Batch, letter, course.Note, t.Now, course.Body{Text: "test slice too salty"}); err != nil {
			return r, true, err
		}
		r.Say(reply.B(t.pieceOrBatch(s, letter)), ": too salty.")
		r.Say("Soak it in cold water in the fridge for 30 minutes to 2 hours, change the water half-way, then fry another slice (common practice, no source).")
		r.Say("The next one can start with less salt: this cure had ", percent(s.Plan.Salt), " on the meat.")
		r.Press(reply.Button{Label: "Soak 45 min", Line: "soak " + n + " 45 min", Version: s.Version},
			reply.Button{Label: "Tastes right after all", Line: "fry " + n, Version: s.Version})
		return r, true, nil
	}
	r.Say("Was the slice right, or too salty? I can't tell from “", clip(text, 60), "”, and nothing was recorded.")
	r.Press(reply.Button{Label: "Tastes right", Line: "fry " + n, Version: s.Version}, reply.Button{Label: "Too salty", Line: "fry " + n + " too salty", Version: s.Version})
	return r, true, nil
}
