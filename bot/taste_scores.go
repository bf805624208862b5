package bot

import (
	"strconv"

	"larderhand/bot/course"
)

// scores is the newest score of each taster.
type scores map[int64]int

// scoresOf gathers what each taster last gave a piece for a quality; letter empty is
// the whole batch, and then the pieces' scores of one taster count as their mean,
// rounded to a whole score.
func scoresOf(s course.State, letter, quality string) scores {
	by := map[int64]map[string]int{}
	for _, l := range s.Log {
		n, err := strconv.Atoi(l.Body.Extra[quality])
		if l.Kind != course.Taste || err != nil || n < 1 || n > 5 {
			continue
		}
		if by[l.Member] == nil {
			by[l.Member] = map[string]int{}
		}
		by[l.Member][l.Piece] = n
	}
	out := scores{}
	for who, pieces := range by {
		if letter != "" {
			if n, ok := pieces[letter]; ok {
				out[who] = n
			} else if n, ok := pieces[""]; ok {
				out[who] = n
			}
			continue
		}
		if n, ok := pieces[""]; ok {
			out[who] = n
			continue
		}
		total := 0
		for _, n := range pieces {
			total += n
		}
		out[who] = (2*total + len(pieces)) / (2 * len(pieces))
	}
	return out
}

func (s scores) mean() (float64, int) {
	if len(s) == 0 {
		return 0, 0
	}
	total := 0
	for _, n := range s {
		total += n
	}
	return float64(total) / float64(len(s)), len(s)
}
