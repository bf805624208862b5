package parse

import (
	"strings"
	"time"
)

const timeExample = "18:00, 8 am or yesterday 18:00"

// ClockTime reads a text that is one moment, in the zone of now. Errors are
// *Problem.
func ClockTime(s string, now time.Time) (time.Time, error) {
	t := strings.TrimSpace(s)
	if at, err := time.Parse(time.RFC3339, strings.ToUpper(t)); err == nil {
		return at.In(now.Location()), nil
	}
	if at, err := time.Parse("15:04", t); err == nil {
		y, m, d := now.Date()
		return local(y, m, d, at.Hour(), at.Minute(), 0, now.Location()), nil
	}
	return time.Time{}, &Problem{Kind: NotATime, Said: quote(s), Why: "I see no time there", Example: timeExample}
}
