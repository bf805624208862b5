package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// smokePing writes what a ping of a smoke day says.
func (t *Turn) smokePing(r *reply.Reply, c store.Chore, s course.State) {
	letter := firstPiece(s, c.Piece)
	head, of := reply.B(name(s)), ""
	if len(c.Piece) == 1 {
		head = reply.B(t.pieceName(s, letter))
	} else if n := pieceNames(s, c.Piece); n != "" {
		of = ", " + n
	}
	n := fmt.Sprint(s.Number)
	core := reply.Type(fmt.Sprintf("core %s%s %s", n, onePiece(s, c.Piece), t.plainTemp(t.exampleCore(s, letter))))
	switch c.Kind {
	case course.AskReading:
		r.Par(head, of, ", in the smoke for ", howLong(t.Now.Sub(t.smokeStart(s))), ": what do pit and core read?")
		t.sayFireOut(r, s, c.Piece)
		t.sayRunOut(r, s, letter)
		r.Say("Type ", reply.Type(n+" "+t.exampleReading()), ".")
	case course.NearlyThere:
		low, typical, high, ok := s.Finish(letter)
		if !ok {
			return
		}
		r.Par(head, of, ": nearly there. ", t.units().temp(s.Target()), " at the core about ", t.clock(typical), " by estimate (", t.clock(low), " to ", t.clock(high), ").")
		r.Say("Read the core, then make room in the cold: ", core)
	case string(course.Smoked):
		r.Par(head, of, ": is the core at its ", t.units().temp(s.Target()), " target?")
		t.sayFireOut(r, s, c.Piece)
		t.sayRunOut(r, s, letter)
		r.Say("Measure in the thickest part: ", core)
	case string(course.Cooled):
		if one := onePiece(s, c.Piece); one == "" && len(s.Pieces) > 1 {
			t.coolingPings(r, s, c.Piece, head, of)
		} else {
			t.coolingPing(r, s, letter, one, head, of, core)
		}
	case course.WindowCloses, course.WindowOver:
		t.windowPing(r, c, s, letter, head, of, core)
	}
}

// sayRunOut says that the hour an estimate gave at the latest is past; where it gave
// none, that the one it expected is.
func (t *Turn) sayRunOut(r *reply.Reply, s course.State, letter string) {
	f, ok := s.Forecast(letter)
	if !ok || f.Typical <= 0 || s.Outlook(letter).Reached {
		return
	}
	latest, about, word := f.AsOf.Add(f.High), "", " at the latest"
	if f.OpenEnded {
		latest, about, word = f.AsOf.Add(f.Typical), "about ", ", with no latest hour"
	}
	if latest.Before(t.Now) {
		r.Say("The estimate made at ", t.clock(f.AsOf.In(t.Loc)), " said ", about, t.clock(latest.In(t.Loc).Round(10*time.Minute)), word, "; that is past.")
	}
}

// onePiece is the letter of a ping's piece, if it is of one of several.
func onePiece(s course.State, letters string) string {
	if len(letters) != 1 {
		return ""
	}
	return letterOnly(s, letters)
}

func firstPiece(s course.State, letters string) string {
	if letters == "" {
		return s.Pieces[0].Letter
	}
	return letters[:1]
}

// clock is how a near instant reads: "18:05", with its day when that is another.
func (t *Turn) clock(at time.Time) reply.Span {
	form := "15:04"
	if at := at.In(t.Loc); at.YearDay() != t.Now.YearDay() || at.Year() != t.Now.Year() {
		form = "Mon 2 Jan 15:04"
	}
	return reply.When(at, at.In(t.Loc).Format(form))
}

// exampleCore is a core that could be read next.
func (t *Turn) exampleCore(s course.State, letter string) curemath.Fahrenheit {
	if _, w, _, ok := s.OpenWindow(letter); ok {
		return w.To + 5
	}
	return s.Target() - 1
}

func (t *Turn) coolingPing(r *reply.Reply, s course.State, letter, one string, head reply.Span, of string, core reply.Span) {
	p, _ := s.Find(letter)
	c, read := s.CoolingOf(letter, t.Now)
	if t.warmPing(r, s, letter, one, head, of, core) {
		return
	}
	if read && c.Verdict == curemath.CoolingFailed {
		r.Par(head, of, ": cooling FAILED the rule “", c.Rule.Name, "”. Throw it away: ", reply.Type(fmt.Sprintf("discard %d%s cooled too slowly", s.Number, one)))
		r.Say("Was a reading wrong? ", reply.Type(fmt.Sprintf("strike %d", s.Number)))
		return
	}
	if read && c.Verdict == curemath.CoolingPassed {
		r.Par(head, of, ": cold enough by “", c.Rule.Name, "”. In the fridge overnight: ", reply.Type(fmt.Sprintf("cooled %d%s", s.Number, one)))
		return
	}
	_, w, deadline, open := s.OpenWindow(letter)
	if read && c.Verdict == curemath.CoolingUnproven && !open {
		r.Par(head, of, ": cold, but ", lowerFirst(verdictText(c)), " [", c.Rule.Source.String(), "]. Was it ", t.tooLongWarm(p), "? Then throw it away. You know that it was cold in time: ", reply.Type(fmt.Sprintf("cooled %d%s %s", s.Number, one, coldInTime)))
		return
	}
	off := t.Now.Sub(p.Marks[course.Smoked].At)
	if limit := course.CoolingTime(p.Ingoing); off > limit && open && !deadline.After(t.Now) {
		r.Par(head, of, ", off the heat for ", howLong(off), ": no reading shows that it cooled in time.")
		n := fmt.Sprintf("%d%s", s.Number, one)
		if t.coldShowsNothing(s, letter) {
			t.sayTooLateToShow(r, s, letter, n)
			return
		}
		r.Say("Cold by now? ", reply.Type("core "+n+" "+t.plainTemp(coldNow)), ". It can't be read, but you know that it was cold in time: ", reply.Type("cooled "+n+" "+coldInTime), ". Was it ", t.tooLongWarm(p), ", or nobody knows: throw it away, ", reply.Type("discard "+n+" cooled too slowly"), ".")
		return
	}
	r.Par(head, of, ", off the heat for ", howLong(off), ": what does the core read?")
	if open && deadline.After(t.Now) {
		r.Say("Under ", t.units().temp(w.To), " by ", t.clock(deadline), ", ", howLong(deadline.Sub(t.Now)), " from now [", curemath.CoolingRuleFor(p.Ingoing).Source.String(), "]: ", core)
		return
	}
	r.Say("Type ", core, ".")
}

// among are the pieces a ping is of.
func among(pieces []string, of string) []string {
	if of == "" {
		return pieces
	}
	return slices.DeleteFunc(pieces, func(l string) bool { return !strings.Contains(of, l) })
}

// coolingPings asks for the cores of several pieces at once: of those the ping is of,
// the ones that are warm again first.
func (t *Turn) coolingPings(r *reply.Reply, s course.State, of string, head reply.Span, named string) {
	_, cooling := t.hotPieces(s, nil)
	cooling = among(cooling, of)
	if t.warmPings(r, s, cooling, head, named) {
		return
	}
	if !slices.ContainsFunc(cooling, func(l string) bool { _, _, _, open := s.OpenWindow(l); return open }) {
		r.Par(head, named, ": how the cooling went.")
		t.sayCoolings(r, s, cooling)
		for _, letter := range cooling {
			line := fmt.Sprintf("cooled %d%s", s.Number, letter)
			if c, _ := s.CoolingOf(letter, t.Now); c.Verdict == curemath.CoolingPassed {
				r.Say("In the fridge overnight: ", reply.Type(line))
			} else if c.Verdict != curemath.CoolingFailed {
				r.Say("You know that it was cold in time: ", reply.Type(line+" "+coldInTime))
			}
		}
		return
	}
	r.Par(head, named, ": what do the cores read?")
	ask := fmt.Sprintf("%d core", s.Number)
	for _, letter := range cooling {
		if _, w, deadline, ok := s.OpenWindow(letter); ok {
			ask += fmt.Sprintf(" %s %s", letter, t.plainTemp(w.To+5))
			if deadline.After(t.Now) {
				r.Say(letter, ": under ", t.units().temp(w.To), " by ", t.clock(deadline), ", ", howLong(deadline.Sub(t.Now)), " from now.")
			} else {
				r.Say(letter, ": the time to come under ", t.units().temp(w.To), " was up at ", t.clock(deadline), ".")
			}
		}
	}
	r.Say("Type ", reply.Type(ask), ".")
}

func (t *Turn) windowPing(r *reply.Reply, c store.Chore, s course.State, letter string, head reply.Span, of string, core reply.Span) {
	p, _ := s.Find(letter)
	_, w, deadline, ok := s.OpenWindow(letter)
	if !ok || c.Kind == course.WindowCloses && !deadline.After(t.Now) {
		return // what is over is said by its own ping
	}
	if one := onePiece(s, c.Piece); one == "" && len(s.Pieces) > 1 {
		_, cooling := t.hotPieces(s, nil)
		if t.warmPings(r, s, among(cooling, c.Piece), head, of) {
			return
		}
	} else if t.warmPing(r, s, letter, one, head, of, core) {
		return
	}
	rule := curemath.CoolingRuleFor(p.Ingoing)
	if c.Kind == course.WindowCloses {
		r.Par(head, of, ": ", howLong(deadline.Sub(t.Now)), " left to come under ", t.units().temp(w.To), ", until ", t.clock(deadline), ".")
		r.Say("Read the core now: ", core, ". Still warm? Fridge, a fan, or ice round a sealed bag.")
		return
	}
	r.Par(head, of, ": the time to come under ", t.units().temp(w.To), " was up at ", t.clock(deadline), " and no reading says how it went.")
	r.Say("Read the core now: ", core, ". Not under ", t.units().temp(w.To), ": throw it away, cooking again does not undo it [", rule.Source.String(), "].")
}

// others are the people besides the first whom a ping of a smoke day names when
// nobody has answered the ones before: the batch's keeper and helper.
func (t *Turn) others(c store.Chore, s course.State) ([]store.Member, error) {
	if !course.SmokeDay(c.Kind) {
		return nil, nil
	}
	said, err := t.Tx.Chores(s.ID)
	if err != nil || s.Unheard(said) < unheardBefore {
		return nil, err
	}
	var out []store.Member
	for _, id := range []int64{s.Keeper, s.Helper.Member} {
		if id == 0 {
			continue
		}
		m, err := t.Tx.MemberByID(id)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

// unheardBefore is how many pings of a smoke day go unanswered before others are
// named too: common practice, no source.
const unheardBefore = 2
