package bot

import (
	"errors"

	"larderhand/scheduler/plan/zone"
	"larderhand/store"
)

// takeZone takes up a zone by its IANA name or a place in it. All pings are
// planned anew by it.
func takeZone(t *Turn, s *store.Settings, text string) error {
	loc, name, err := zone.Find(text)
	var z *zone.Error
	if errors.As(err, &z) {
		return &Error{Kind: BadInput, Why: sentence(z.Error()), Example: "set zone America/Chicago"}
	}
	if err != nil {
		return err
	}
	s.Zone = name
	t.Loc, t.Now = loc, t.Now.In(loc)
	return nil
}
