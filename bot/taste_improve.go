package bot

import (
	"fmt"
	"math"

	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// just is the score of what is just right.
const just = 3

// tried is a figure of the cure and how a taster found it.
type tried struct {
	value float64
	score int
}

// figure is what a quality depends on: percent of salt or sugar, hours of smoke. ok
// is false where nothing is known that it does.
func figure(s course.State, letter, quality string) (value float64, unit string, ok bool) {
	switch quality {
	case "salt":
		return float64(s.Plan.Salt), " %", true
	case "sweet":
		return float64(s.Plan.Sugar), " % sugar", true
	case "smoke":
		if letter == "" {
			letter = s.Pieces[0].Letter
		}
		h := smokeHours(s, letter)
		return h, " h of smoke", h > 0
	}
	return 0, "", false
}

// sayImprove says what the sender's own scores say about next time, and nothing
// they do not.
func (t *Turn) sayImprove(r *reply.Reply, s course.State, letter string) error {
	if len(scoresOfAll(s, t.Me.ID)) == 0 {
		return nil
	}
	list, err := t.Tx.Batches(t.Conv.ID, true)
	if err != nil {
		return err
	}
	var states []course.State
	for _, b := range list {
		o, err := load(t.Tx, b)
		if err != nil {
			return err
		}
		states = append(states, o)
	}
	first := true
	for _, q := range qualities() {
		text := advice(q, t.Me.ID, s, letter, states)
		if text == "" {
			continue
		}
		if first {
			r.Par(reply.B("Next time, by "+t.Me.Name+"'s own scores: "), text)
			first = false
			continue
		}
		r.Say(text)
	}
	return nil
}

// scoresOfAll lists the qualities someone scored in a batch.
func scoresOfAll(s course.State, who int64) map[string]int {
	out := map[string]int{}
	for _, q := range qualities() {
		if n, ok := scoresOf(s, "", q.name)[who]; ok {
			out[q.name] = n
		}
	}
	return out
}

// advice is what one taster's scores over all batches say about a quality of this
// one: towards the middle of what they found right, or half-way between what was too
// little and what was too much. Where the numbers say less, so does it.
func advice(q quality, who int64, s course.State, letter string, all []course.State) string {
	score, ok := scoresOf(s, letter, q.name)[who]
	if !ok || score == just {
		return ""
	}
	found := q.much
	if score < just {
		found = q.little
	}
	value, unit, ok := figure(s, letter, q.name)
	if !ok {
		return fmt.Sprintf("you found it %s; no number kept here says what to change.", found)
	}
	here := num2(value) + unit
	low, high, other, liked, hasOther := history(q, who, score > just, value, all)
	middle := (low + high) / 2
	switch {
	case liked && (score > just && middle < value || score < just && middle > value):
		if low == high {
			return fmt.Sprintf("you found it %s at %s; at %s you found it right.", found, here, num2(low)+unit)
		}
		return fmt.Sprintf("you found it %s at %s; %s is the middle of your liked range (%s to %s).", found, here, num2(middle)+unit, num2(low), num2(high))
	case liked && low == high:
		return fmt.Sprintf("you found it %s at %s, and right at %s before: the numbers don't say what to change.", found, here, num2(low)+unit)
	case liked:
		return fmt.Sprintf("you found it %s at %s, and right at %s to %s before: the numbers don't say what to change.", found, here, num2(low), num2(high))
	case hasOther:
		opposite := q.little
		if score < just {
			opposite = q.much
		}
		return fmt.Sprintf("you found it %s at %s and %s at %s; half-way is %s.", found, here, opposite, num2(other)+unit, num2((value+other)/2)+unit)
	}
	return fmt.Sprintf("you found it %s at %s; nothing you scored tells yet how far to go.", found, here)
}

// history looks through all batches for what a taster found right, and for the
// nearest figure they found wrong the other way.
func history(q quality, who int64, much bool, value float64, all []course.State) (low, high, other float64, liked, hasOther bool) {
	for _, o := range all {
		for _, tr := range triedIn(q, who, o) {
			opposite := much && tr.score < just && tr.value < value || !much && tr.score > just && tr.value > value
			switch {
			case tr.score == just && !liked:
				low, high, liked = tr.value, tr.value, true
			case tr.score == just:
				low, high = min(low, tr.value), max(high, tr.value)
			case opposite && (!hasOther || math.Abs(tr.value-value) < math.Abs(other-value)):
				other, hasOther = tr.value, true
			}
		}
	}
	return low, high, other, liked, hasOther
}

// triedIn lists what a taster scored in one batch, piece by piece.
func triedIn(q quality, who int64, s course.State) []tried {
	var out []tried
	for _, p := range s.Pieces {
		score, ok := scoresOf(s, p.Letter, q.name)[who]
		value, _, known := figure(s, p.Letter, q.name)
		if ok && known {
			out = append(out, tried{value, score})
		}
	}
	return out
}

func num2(x float64) string { return trim(x, 2) }
