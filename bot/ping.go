package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// pingText writes what is to be said about one chore.
func (t *Turn) pingText(c store.Chore, s course.State, said []store.Chore) reply.Reply {
	var r reply.Reply
	head := reply.B(name(s))
	of := ""
	if n := pieceNames(s, c.Piece); n != "" {
		of = ", " + n
	}
	switch c.Kind {
	case course.Flip:
		r.Par(head, ", ", day(s, t.Now, t.Loc), ": flip it", pieceCount(s), ".")
		if n := t.missed(s); n > 0 {
			r.Say(missedText(n))
		}
	case course.Rub:
		r.Par(head, ", ", day(s, t.Now, t.Loc), ": ", rubText(s), " Turn and restack it.")
	case string(course.Firm):
		when, longest, n := "cure check today", longestOf(s, c.Piece), checkTarget(s, c.Piece)
		if plan.DateOf(t.Now, t.Loc).After(s.CheckDateOf(longest, t.Loc)) {
			when = "cure check"
		}
		r.Par(head, of, ", ", dayOf(s, longest, t.Now, t.Loc), ": ", when, ". Press it in the middle and at the edges.")
		r.Say("Firm all through: ", reply.Type("firm "+n), ". Soft in the middle: ", reply.Type("longer "+n+" 2 days"), ", and keep flipping.")
	case course.AskReading, course.NearlyThere, string(course.Smoked), string(course.Cooled), course.WindowCloses, course.WindowOver:
		rest := t.lostPing(&r, s, c.Piece, head, false)
		if rest == "" {
			break
		}
		if !r.Empty() {
			c.Piece = rest
		}
		t.smokePing(&r, c, s)
	case course.AskTaste:
		r.Par(head, ": it has been packed for ", count(course.TasteAfter, "day"), ". Fry a slice right through and say how it tastes; everyone here may.")
	case course.UseByFridge:
		r.Par(head, ": what is in the fridge should be eaten or frozen by ", useByOf(c, course.FridgeAhead), ".")
	case course.UseByFrozen:
		r.Par(head, ": what is in the freezer is best by ", useByOf(c, course.FreezerAhead), "; after that still safe, less good.")
	default:
		rest := t.lostPing(&r, s, c.Piece, head, true)
		if rest == "" {
			break
		}
		if !r.Empty() {
			c.Piece, of = rest, ", "+pieceNames(s, rest)
		}
		info, _ := course.Describe(course.Step(c.Kind))
		r.Par(head, of, ": ", stop(info.Ask))
		sayHow(&r, info, s, strings.Split(c.Piece, ""))
	}
	slows := c.Kind == string(course.Cooled) || asksSmoke(c.Kind)
	if n := unanswered(askedOfAll(said, c, s), c.Kind, s); plan.AskToStop(n+1) && !r.Empty() && (c.Urgency == store.Routine || slows) {
		how := "every third day"
		if c.Urgency != store.Routine {
			how = "less often"
		}
		r.Say(fmt.Sprintf("I have asked %d times and heard nothing. Unless I hear from you I ask %s from here on. Shall I stop?", n+1, how))
		r.Press(reply.Button{Label: fmt.Sprintf("Keep asking %d", s.Number), Line: fmt.Sprintf("pings %d on", s.Number)},
			reply.Button{Label: fmt.Sprintf("Stop asking %d", s.Number), Line: fmt.Sprintf("pings %d off", s.Number)})
	}
	return r
}

// pieceCount says how many pieces are still in the cure, where there are several.
func pieceCount(s course.State) string {
	if len(s.Pieces) == 1 {
		return ""
	}
	curing := 0
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == course.Firm {
			curing++
		}
	}
	return " (" + count(curing, "piece") + ")"
}

// missed is how many local days before today went by without a flip.
func (t *Turn) missed(s course.State) int {
	last := plan.DateOf(s.LastTurned(), t.Loc)
	return plan.DateOf(t.Now, t.Loc).DaysSince(last) - 1
}

func missedText(n int) string {
	if n == 1 {
		return "No flip was noted yesterday. One missed day does no harm; two make the cure uneven."
	}
	return fmt.Sprintf("No flip was noted for %d days. Flip it now and rub any dry spots; the cure may be uneven.", n)
}

// askedOfAll leaves out cure checks that did not ask for every piece this one asks for.
func askedOfAll(said []store.Chore, c store.Chore, s course.State) []store.Chore {
	if c.Kind != string(course.Firm) {
		return said
	}
	of := orElse(c.Piece, join(pieceLetters(s)))
	return slices.DeleteFunc(slices.Clone(said), func(o store.Chore) bool {
		return o.Piece != "" && strings.ContainsFunc(of, func(l rune) bool { return !strings.ContainsRune(o.Piece, l) })
	})
}

// unanswered counts the pings of a kind since anything was last told of a batch; a
// reading answers those of a cooling.
func unanswered(said []store.Chore, kind string, s course.State) int {
	if asksSmoke(kind) {
		return s.Unheard(said)
	}
	n, told := 0, s.LastTold()
	if kind == string(course.Cooled) {
		told = s.Heard()
	}
	for _, c := range said {
		if c.Kind == kind && c.State == store.StateSent && c.Sent.After(told) {
			n++
		}
	}
	return n
}

// asksSmoke says whether a kind of ping asks what a smoke reads.
func asksSmoke(kind string) bool { return kind == course.AskReading || kind == string(course.Smoked) }

func (t *Turn) exampleReading() string {
	if t.units() == metric {
		return "pit 66 core 49"
	}
	return "pit 150 core 121"
}

// useByOf is the use-by date a reminder was planned ahead of.
func useByOf(c store.Chore, ahead int) string {
	d, err := plan.ParseDate(c.Slot)
	if err != nil {
		return "its date"
	}
	return dateText(d.AddDays(ahead))
}

// pingButtons puts the buttons of all batches spoken of under a ping.
func (t *Turn) pingButtons(r *reply.Reply, said []store.Chore, states map[int64]course.State) {
	asks := r.Buttons // whether to stop: below all others
	r.Buttons = nil
	defer func() {
		seen := map[string]bool{}
		for _, row := range asks { // one row a batch, however many of its chores ask
			if len(row) > 0 && !seen[row[0].Line] {
				seen[row[0].Line] = true
				r.Buttons = append(r.Buttons, row)
			}
		}
	}()
	flips, done := 0, map[string]bool{}
	for _, c := range said {
		s, ok := states[c.Batch]
		if !ok || len(r.Buttons) >= 4 {
			continue
		}
		var row []reply.Button
		for _, b := range t.choreButtons(c, s) {
			if !done[b.Line] {
				done[b.Line] = true
				row = append(row, b)
			}
		}
		if c.Kind == course.Flip {
			flips++
		}
		r.Press(row...)
	}
	if flips == 0 {
		return
	}
	row := []reply.Button{{Label: "Later", Line: "later 2h"}}
	if flips > 1 {
		row = append([]reply.Button{{Label: "All flipped", Line: "flip all"}}, row...)
	}
	r.Press(row...)
}

func (t *Turn) choreButtons(c store.Chore, s course.State) []reply.Button {
	n := fmt.Sprint(s.Number)
	if len(c.Piece) == 1 {
		n += c.Piece
	}
	look := reply.Button{Label: "How is it", Line: fmt.Sprintf("batch %d", s.Number)}
	if away := t.throwButtons(s, c); len(away) > 0 {
		return append(away, look)
	}
	if c.Kind == string(course.Cooled) {
		if t.anyWarm(s, onePiece(s, c.Piece)) {
			return []reply.Button{{Label: "Log a core", Line: fmt.Sprintf("core %s", n), Ask: true}, look}
		}
	}
	switch c.Kind {
	case course.Flip:
		return []reply.Button{{Label: fmt.Sprintf("Flipped %d", s.Number), Line: fmt.Sprintf("flip %d", s.Number), Version: s.Version}, look}
	case course.Rub:
		return []reply.Button{{Label: fmt.Sprintf("Rubbed %d", s.Number), Line: fmt.Sprintf("rub %d", s.Number), Version: s.Version}, look}
	case string(course.Firm):
		n := checkTarget(s, c.Piece)
		return []reply.Button{{Label: "Firm all through", Line: "firm " + n, Version: s.Version}, {Label: "Soft: 2 more days", Line: "longer " + n + " 2 days", Version: s.Version}, look}
	case course.AskReading, course.NearlyThere:
		return []reply.Button{{Label: "Log a reading", Line: fmt.Sprintf("temp %d", s.Number), Ask: true}, look}
	case course.AskTaste:
		return []reply.Button{{Label: "Taste it", Line: fmt.Sprintf("taste %d", s.Number)}, look}
	case course.WindowCloses, course.WindowOver, course.UseByFridge, course.UseByFrozen, course.ComesBack:
		return []reply.Button{look}
	}
	info, ok := course.Describe(course.Step(c.Kind))
	if !ok {
		return nil
	}
	goes := among(pieceLetters(t.goesOn(s)), c.Piece)
	switch {
	case len(goes) == 0: // nothing to go on with
		return []reply.Button{look}
	case len(goes) < len(among(pieceLetters(s), c.Piece)):
		n = targetOf(s, info.Step, goes)
	}
	return []reply.Button{{Label: info.Press, Line: strings.TrimSpace(c.Kind + " " + n), Version: s.Version}, look}
}

// checkTarget names the pieces a cure check is of behind a command.
func checkTarget(s course.State, letters string) string {
	if letters == "" {
		return fmt.Sprint(s.Number)
	}
	return targetOf(s, course.Firm, strings.Split(letters, ""))
}

// longestOf is the one of some pieces that needs longest, "" for all.
func longestOf(s course.State, letters string) string {
	longest := ""
	for _, l := range letters {
		if longest == "" || s.DaysOf(string(l)) > s.DaysOf(longest) {
			longest = string(l)
		}
	}
	return longest
}

// throwButtons are for what is lost of the pieces a ping of a smoke day is of: any of a
// cooling, and of a smoke if nothing else hangs in it.
func (t *Turn) throwButtons(s course.State, c store.Chore) []reply.Button {
	if !course.SmokeDay(c.Kind) {
		return nil
	}
	var out []reply.Button
	all := 0
	for _, p := range s.Pieces {
		if c.Piece != "" && !strings.Contains(c.Piece, p.Letter) {
			continue
		}
		all++
		if l, ok := t.lossOf(s, p); ok {
			out = append(out, reply.Button{Label: "Throw " + orElse(letterOnly(s, p.Letter), "it") + " away", Line: fmt.Sprintf("discard %d%s %s", s.Number, letterOnly(s, p.Letter), l.why)})
		}
	}
	if c.Kind != string(course.Cooled) && len(out) < all {
		return nil
	}
	return out[:min(len(out), 4)]
}
