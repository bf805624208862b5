package course

import (
	"time"

	"larderhand/curemath"
	"larderhand/scheduler/plan"
)

// Days is how many days until the cure check of the piece that needs longest.
func (s State) Days() int {
	most := 0
	for _, p := range s.Pieces {
		most = max(most, s.daysOf(p))
	}
	return most
}

// DaysOf is how many days until a piece's own cure check; with no letter, or one that
// is not there, those of the piece that needs longest.
func (s State) DaysOf(letter string) int {
	if p, ok := s.Find(letter); ok {
		return s.daysOf(p)
	}
	return s.Days()
}

func (s State) daysOf(p PieceState) int { return s.RuleDays(p) + s.Extra + p.Extra }

// RuleDays is how many days a piece is to lie without those added by hand: by the day
// rule for it, after the last rub, and never fewer than were asked for.
func (s State) RuleDays(p PieceState) int {
	if p.Days == 0 { // written down before each piece had its own
		return s.Plan.Days
	}
	return p.Days
}

// Apart says whether pieces still in their cure have different days.
func (s State) Apart() bool {
	days := 0
	for _, p := range s.Pieces {
		if next, ok := p.nextStep(); !ok || next != Firm {
			continue
		}
		if n := s.daysOf(p); days != 0 && n != days {
			return true
		} else {
			days = n
		}
	}
	return false
}

// CheckDate is the local date of the cure check of the piece that needs longest.
func (s State) CheckDate(loc *time.Location) plan.Date { return s.CheckDateOf("", loc) }

// CheckDateOf is the local date of a piece's own cure check.
func (s State) CheckDateOf(letter string, loc *time.Location) plan.Date {
	return plan.DateOf(s.Opened, loc).AddDays(s.DaysOf(letter))
}

// longer takes up days added by hand: to the piece named, or to all.
func (s *State) longer(l Log) {
	if l.Piece == "" {
		s.Extra += l.Body.Days
		return
	}
	for i := range s.Pieces {
		if s.Pieces[i].Letter == l.Piece {
			s.Pieces[i].Extra += l.Body.Days
		}
	}
}

// thick takes up how thick pieces are and counts the days of each anew by the day rule:
// never less than was asked for, after the last rub.
func (s *State) thick(l Log) {
	var method curemath.Method
	_ = method.UnmarshalText([]byte(s.Plan.Method)) // none is a dry rub
	after := 0
	if n := len(s.Plan.Rubs); n > 0 {
		after = s.Plan.Rubs[n-1].Day
	}
	for i := range s.Pieces {
		p := &s.Pieces[i]
		if l.Piece == "" || l.Piece == p.Letter {
			p.Thickness = l.Body.Thick
		}
		rule, err := curemath.DaysFor(method, p.Thickness, p.RindOn, p.Weight)
		if err != nil {
			rule = curemath.DaysUnknown(p.RindOn)
		}
		if s.Plan.Method == curemath.Immersion.String() {
			rule = rule.InPickle(p.Weight)
		}
		p.Days = max(rule.Min+after, s.Plan.Wanted)
	}
}
