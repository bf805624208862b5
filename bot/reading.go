package bot

import (
	"strings"

	"larderhand/bot/course"
)

// readingText says what a reading was.
func readingText(b course.Body, u units) string {
	var list []string
	if b.Pit != nil {
		list = append(list, "pit "+u.temp(*b.Pit))
	}
	if b.Core != nil {
		list = append(list, "core "+u.temp(*b.Core))
	}
	return strings.Join(list, ", ")
}
