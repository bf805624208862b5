package bot

import (
	"fmt"
	"strings"
	"time"

	"larderhand/bot/parse"
	"larderhand/curemath"
)

// butMark stands before each change to a wet cure in what it was asked for. A later one
// goes over what was said before it.
const butMark = "; but "

// amended is a wet cure as it was asked for, with what a line sets in place of what was set
// before. When it began is not part of it: that would be read anew each day.
func amended(asked string, line parse.CureLine) string {
	if line.Nitrite != nil {
		asked = aimed(asked, *line.Nitrite)
	}
	var set []string
	share := func(what string, p *curemath.Percent) {
		if p != nil {
			set = append(set, what+" "+num(float64(*p))+"%")
		}
	}
	share("salt", line.Salt)
	share("sugar", line.Sugar)
	share("mix", line.Mix)
	if line.Ascorbate != nil {
		set = append(set, "ascorbate "+num(float64(line.Ascorbate.Percent()))+"%")
	}
	thick, rind := line.Thickness, line.RindOn
	for _, p := range line.Pieces {
		if p.Thickness > 0 {
			thick = p.Thickness
		}
		if p.RindOn != nil {
			rind = p.RindOn
		}
		if p.Flavouring != "" {
			set = append(set, p.Flavouring)
		}
	}
	if thick > 0 {
		set = append(set, num(float64(thick))+" mm")
	}
	if rind != nil {
		set = append(set, map[bool]string{true: "rind on", false: "rind off"}[*rind])
	}
	if line.Days != nil {
		set = append(set, fmt.Sprintf("%d days", *line.Days))
	}
	for _, s := range set {
		asked += butMark + s
	}
	return asked
}

// wetSaid reads the cure line in what a wet cure was asked for, each change over what it
// changes.
func wetSaid(text string, now time.Time) (parse.CureLine, error) {
	said := strings.Split(text, butMark)
	line, err := parse.Cure(said[0], now)
	if err != nil {
		return line, err
	}
	for _, change := range said[1:] {
		more, err := parse.Cure(change, now)
		if err != nil {
			if thick, terr := parse.Thickness(change); terr == nil {
				more, err = parse.CureLine{Thickness: thick}, nil
			}
		}
		if err != nil {
			return line, err
		}
		merge(&line, more)
		for i := range line.Pieces {
			p := &line.Pieces[i]
			if more.Thickness > 0 {
				p.Thickness = more.Thickness
			}
			for _, m := range more.Pieces {
				if m.Thickness > 0 {
					p.Thickness = m.Thickness
				}
				if m.Flavouring != "" {
					p.Flavouring = m.Flavouring
				}
				over(&p.RindOn, m.RindOn)
			}
		}
	}
	return line, nil
}
