package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
)

// A time at the end of a record: "at 14:30", "yesterday 18:00", "14:30", "8 am". What
// looks like one is read as one or refused; it never becomes a remark of now.
var atTime = regexp.MustCompile(`(?i)(?:^|[\s,])((?:at\s+)?(?:yesterday|today|tomorrow|last night|this morning)\b.*|at\s+\d.*|\d{1,2}[:.]\d{2}(?:\s*[ap]m)?|\d{1,2}\s*[ap]m|\d{4}-\d{2}-\d{2}.*|\S+\s+(?:minutes?|mins?|hours?|h|days?)\s+ago)$`)

func (t *Turn) timeAtEnd(s course.State, text string) (string, time.Time, error) {
	m := atTime.FindStringSubmatchIndex(text)
	if m == nil {
		return strings.TrimSpace(text), t.Now, nil
	}
	said := strings.TrimPrefix(strings.ToLower(strings.TrimSpace(text[m[2]:m[3]])), "at ")
	at, err := parse.Past(said, t.Now)
	if err != nil {
		return "", t.Now, offering(err, fmt.Sprintf("batch %d", s.Number))
	}
	return strings.Trim(text[:m[0]], " ,"), at, t.happened(s, at)
}
