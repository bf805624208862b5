package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// entries read what a step's record says besides that it was done: once for the
// pieces meant, or piece by piece where the line gives each its own figure.
func (t *Turn) entries(step course.Step, s course.State, named []string, text string, at time.Time) ([]entry, error) {
	of := t.meant(step, s, named)
	body := course.Body{Text: clip(text, 500)}
	var err error
	switch step {
	case course.Smoking:
		body = t.smokeBody(body, text)
	case course.Smoked, course.Cooled:
		if list := t.coresByPiece(s, named, text, at); list != nil {
			return list, t.coresFit(step, s, list)
		}
		body, err = t.coreAtEnd(body, text)
	case course.Sliced:
		body, err = sliceBody(s, body, text)
	case course.Packed:
		return t.packEntries(s, named, text)
	}
	return []entry{{of, body}}, err
}

// coresByPiece reads "core a 151 b 152": nil where the line gives no core by piece.
func (t *Turn) coresByPiece(s course.State, named []string, text string, at time.Time) []entry {
	if len(named) > 1 {
		return nil
	}
	rest := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(text), "core"))
	rest = ownCore.ReplaceAllStringFunc(rest, func(part string) string { // "1b core 150"
		m := ownCore.FindStringSubmatch(part)
		if m[2] != "" && m[2] != fmt.Sprint(s.Number) {
			return part
		}
		return m[1] + m[3] + " "
	})
	readings, err := parse.Readings("core "+join(named)+" "+rest, t.tempUnit(), at)
	if err != nil {
		return nil
	}
	var list []entry
	for _, r := range readings {
		if r.Piece == "" || r.Core == nil || r.Pit != nil || r.HasTime {
			return nil
		}
		list = append(list, entry{[]string{r.Piece}, course.Body{Core: r.Core}})
	}
	if len(list) == 1 && len(named) == 1 {
		return nil
	}
	return list
}

var ownCore = regexp.MustCompile(`(^|[\s,;])(?:and\s+)?(\d+)?([a-z])\s*[:=]?\s+(?:core\s+)?`)

// coresFit refuses the core of a piece that is not there, or that can't be.
func (t *Turn) coresFit(step course.Step, s course.State, list []entry) error {
	for _, e := range list {
		if !hasPiece(s, e.of[0]) {
			return t.noPiece(string(step), s, e.of[0])
		}
		if err := t.endCore(*e.body.Core); err != nil {
			return err
		}
	}
	return nil
}

func (t *Turn) coreAtEnd(body course.Body, text string) (course.Body, error) {
	text, said := cutColdWord(text)
	text = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(text), "core"))
	if said {
		body.Text = coldInTime
	}
	if text == "" {
		return body, nil
	}
	core, err := parse.Temperature(text, t.tempUnit())
	if err != nil {
		return body, err
	}
	if body.Core = &core; !said {
		body.Text = ""
	}
	return body, t.endCore(core)
}

// endCore refuses a core that meat can't have after the smoke.
func (t *Turn) endCore(core curemath.Fahrenheit) error {
	if core < frozen || core > mostCore {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("A core of %s can't be right after the smoke; nothing was noted.%s", t.units().temp(core), t.otherUnit(core, 100)), Example: "smoked 1 core " + t.plainTemp(152)}
	}
	return nil
}
