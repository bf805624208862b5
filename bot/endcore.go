package bot

import (
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// freshCore is how long before a piece came out of the smoke a core reading still
// stands for the end of it: our own choice, common practice, no source.
const freshCore = 15 * time.Minute

// coreAtSmoked is the core a piece came out of the smoke with: told with the step, or
// read shortly before it.
func coreAtSmoked(s course.State, letter string) (core curemath.CoreReading, ok bool) {
	p, found := s.Find(letter)
	m, out := p.Marks[course.Smoked]
	if !found || !out || m.Skipped {
		return core, false
	}
	if m.Body.Core != nil {
		return curemath.CoreReading{At: m.At, Temp: *m.Body.Core}, true
	}
	for _, c := range s.Cores(letter) {
		if !c.At.After(m.At) && m.At.Sub(c.At) <= freshCore {
			core, ok = c, true
		}
	}
	return core, ok
}

// sayCores says what the core temperatures at the end of the smoke mean, piece by
// piece where they differ.
func (t *Turn) sayCores(r *reply.Reply, s course.State, list []entry) {
	var known, none []string
	same := true
	for _, e := range list {
		of := e.of
		if of[0] == "" {
			of = strings.Split(letters(s), ", ")
		}
		for _, letter := range of {
			core, ok := coreAtSmoked(s, letter)
			if !ok {
				none = append(none, letter)
				continue
			}
			if len(known) > 0 {
				first, _ := coreAtSmoked(s, known[0])
				same = same && first == core
			}
			known = append(known, letter)
		}
	}
	if same && len(none) == 0 {
		r.Say(t.coreLine(s, "", known[0]), t.coreProof(s, known[:1], "the label says"))
		return
	}
	for _, letter := range known {
		r.Say(t.coreLine(s, letterFor(s, letter), letter))
	}
	if len(known) == 0 {
		r.Say("No core temperature noted with it, so the label says: cook before eating.")
		return
	}
	if len(none) > 0 {
		r.Say(strings.Join(none, ", "), ": no core temperature noted with it.")
	}
	r.Say(strings.TrimSpace(t.coreProof(s, known, "the labels say")))
}

// coreLine is "Core 151 °F, at the 150 °F target."
func (t *Turn) coreLine(s course.State, who, letter string) string {
	u := t.units()
	core, _ := coreAtSmoked(s, letter)
	line := who + "core " + u.temp(core.Temp)
	if who == "" {
		line = "Core " + u.temp(core.Temp)
	}
	if p, _ := s.Find(letter); p.Marks[course.Smoked].Body.Core == nil {
		line += " as read at " + core.At.In(t.Loc).Format("15:04")
	}
	if core.Temp < s.Target() {
		return line + ", under the " + u.temp(s.Target()) + " target: it is raw bacon."
	}
	return line + ", at the " + u.temp(s.Target()) + " target."
}

// coreProof says what the core at the end does not show.
func (t *Turn) coreProof(s course.State, known []string, says string) string {
	for _, letter := range known {
		if core, _ := coreAtSmoked(s, letter); core.Temp >= s.Target() {
			return " One reading is no proof of heat treatment; unless your readings show enough, " + says + ": cook before eating."
		}
	}
	return " Cook before eating."
}
