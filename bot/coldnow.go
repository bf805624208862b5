package bot

import (
	"slices"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// coldNow is a core of a piece that cooled well, as one could read it in the morning: our
// own choice, common practice, no source.
const coldNow = curemath.Fahrenheit(41)

// coldShowsNothing says whether a cold core, read now, comes so late that the rule
// counts as missed all the same: to ask for one would be to promise what it can't show.
func (t *Turn) coldShowsNothing(s course.State, letter string) bool {
	core := coldNow
	s.Log = append(slices.Clone(s.Log), course.Log{Entry: store.Entry{Piece: letter, Kind: string(course.Cooled), At: t.Now}, Body: course.Body{Core: &core}})
	c, ok := s.CoolingOf(letter, t.Now)
	return ok && c.Verdict == curemath.CoolingFailed
}

// sayTooLateToShow says what is left to do then.
func (t *Turn) sayTooLateToShow(r *reply.Reply, s course.State, letter, n string) {
	cores := s.Cores(letter)
	last := cores[len(cores)-1]
	r.Say("A cold core read now can't show it any more: last read at ", t.units().temp(last.Temp), ", ", t.clock(last.At), ", it is too slow by its rule even on the straight line from there. ",
		"Throw it away: ", reply.Type("discard "+n+" cooled too slowly"), ".")
	r.Say("Only cores that were read meanwhile and not told can change that; tell them with their hours before anything else.")
}
