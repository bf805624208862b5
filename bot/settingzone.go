package bot

import (
	"fmt"
	"time"

	"larderhand/store"
)

// takeZone takes up a zone by its IANA name. All pings are planned anew by it.
func takeZone(t *Turn, s *store.Settings, text string) error {
	loc, err := time.LoadLocation(text)
	if err != nil || text == "Local" || text == "" {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I know no time zone “%s”. I need a place name such as Europe/Berlin or America/Chicago.", clip(text, 40)), Example: "set zone America/Chicago"}
	}
	s.Zone = loc.String()
	t.Loc, t.Now = loc, t.Now.In(loc)
	return nil
}
