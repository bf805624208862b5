package course

import (
	"slices"
	"time"

	"larderhand/curemath"
	"larderhand/store"
)

// Mark is a step done or skipped.
type Mark struct {
	At      time.Time
	Entry   int64
	Member  int64
	Skipped bool
	Body    Body
}

// PieceState is where one piece stands.
type PieceState struct {
	store.Piece
	Marks   map[Step]Mark
	Soaking time.Time // when its last soak is over
	Extra   int       // days added to its cure by hand, besides those of all pieces
}

// Helper is a person a batch is handed to until a time. It comes back by itself.
type Helper struct {
	Member   int64 // 0: nobody
	Until    time.Time
	Offered  time.Time
	By       int64
	Accepted bool
}

// At says whether the helper looks after the batch at an instant.
func (h Helper) At(t time.Time) bool { return h.Accepted && t.Before(h.Until) }

// Log is a journal entry with its body read.
type Log struct {
	store.Entry
	Body Body
}

// State is what a batch's journal says.
type State struct {
	store.Batch
	Pieces   []PieceState
	Flips    []time.Time // in the order they happened
	Log      []Log       // entries that stand, in the order they were written
	Until    time.Time   // pings put off until then
	PutOff   int64       // the entry that put them off
	Muted    bool        // nobody wants its pings, until there is progress again
	Extra    int         // days added to the cure of all pieces
	RubsDone int         // goes of a box cure put on, the first at the opening
	Lost     []Lost      // pieces thrown away while others go on
	End      Stage       // Closed, Discarded or ""
	EndWhy   string
	Helper   Helper // who looks after it meanwhile
	Offer    Helper // whom it is offered to, until they say so
	Flipper  string // who may record a flip: "" anyone, "keeper" keeper and helper only
	target   curemath.Fahrenheit
	ceiling  curemath.Fahrenheit
	Version  int // counts what changed where the batch stands; strikes count too
}

// Fold reads a batch's journal. Struck entries count for nothing but the version.
func Fold(b store.Batch, entries []store.Entry) State {
	s := State{Batch: b, RubsDone: min(1, len(b.Plan.Rubs))}
	for _, p := range b.Pieces {
		s.Pieces = append(s.Pieces, PieceState{Piece: p, Marks: map[Step]Mark{}})
	}
	for _, e := range entries {
		if progress(e.Kind) {
			s.Version++
			if !e.Struck.IsZero() {
				s.Version++
			}
		}
		if e.Struck.IsZero() {
			s.take(Log{Entry: e, Body: ReadBody(e.Body)})
		}
	}
	slices.SortStableFunc(s.Flips, time.Time.Compare)
	return s
}

func (s *State) take(l Log) {
	s.Log = append(s.Log, l)
	if progress(l.Kind) {
		s.Muted = false
	}
	switch l.Kind {
	case Pings:
		s.Muted = l.Body.Text == "off"
	case Flip:
		s.Flips = append(s.Flips, l.At)
	case Thick:
		s.thick(l)
	case Rub:
		s.RubsDone++
		s.Flips = append(s.Flips, l.At) // it is turned in the doing
	case Later:
		s.Until, s.PutOff = time.Unix(l.Body.Until, 0), l.ID
	case Hand:
		s.Offer = Helper{Member: l.Body.Member, Until: time.Unix(l.Body.Until, 0), Offered: l.At, By: l.Member}
	case Accept:
		s.Helper, s.Offer = s.Offer, Helper{}
		s.Helper.Accepted = true
	case Back:
		if s.Offer.Member != 0 { // what is on offer goes first; a helper stays
			s.Offer = Helper{}
			break
		}
		s.Helper = Helper{}
	case AimCore:
		if l.Body.Core != nil {
			s.target = *l.Body.Core
		}
	case AimPit:
		if l.Body.Pit != nil {
			s.ceiling = *l.Body.Pit
		}
	case Allow:
		s.Flipper = l.Body.Text
	case Longer:
		s.longer(l)
	case Close:
		s.End, s.EndWhy = Closed, l.Body.Text
	case Discard:
		s.discard(l)
	case Skip:
		s.mark(l, l.Body.Step, true)
	case Soak: // the slice has to be fried again
		for i := range s.Pieces {
			if l.Piece == "" || s.Pieces[i].Letter == l.Piece {
				s.Pieces[i].Soaking = l.At.Add(time.Duration(l.Body.Minutes) * time.Minute)
				delete(s.Pieces[i].Marks, Fried)
			}
		}
	default:
		if index(Step(l.Kind)) >= 0 {
			s.mark(l, Step(l.Kind), false)
		}
	}
}

// Lost is a piece thrown away.
type Lost struct {
	PieceState
	At  time.Time
	Why string
}

// discard takes a piece out of the batch; the last one, or none named, ends it.
func (s *State) discard(l Log) {
	i := slices.IndexFunc(s.Pieces, func(p PieceState) bool { return p.Letter == l.Piece })
	switch {
	case l.Piece != "" && i < 0: // it is gone already
	case l.Piece == "" || len(s.Pieces) == 1:
		s.End, s.EndWhy = Discarded, l.Body.Text
	default:
		s.Lost = append(s.Lost, Lost{PieceState: s.Pieces[i], At: l.At, Why: l.Body.Text})
		s.Pieces = slices.Delete(slices.Clone(s.Pieces), i, i+1)
	}
}

func (s *State) mark(l Log, step Step, skipped bool) {
	for i := range s.Pieces {
		if l.Piece == "" || s.Pieces[i].Letter == l.Piece {
			s.Pieces[i].Marks[step] = Mark{At: l.At, Entry: l.ID, Member: l.Member, Skipped: skipped, Body: l.Body}
		}
	}
}

// Next is a piece's next step: the first after the furthest one done that was not
// skipped ahead; what was left unsmoked has nothing to take out of the smoke or to cool.
// ok is false once it is packed.
func (p PieceState) Next() (Info, bool) {
	step, ok := p.nextStep()
	if !ok {
		return Info{}, false
	}
	return Describe(step)
}

func (p PieceState) nextStep() (Step, bool) {
	far, steps := -1, order()
	for i, step := range steps {
		if m, ok := p.Marks[step]; ok && !m.Skipped {
			far = i
		}
	}
	unsmoked := p.Marks[Smoking].Skipped
	for _, step := range steps[far+1:] {
		if unsmoked && (step == Smoked || step == Cooled) {
			continue
		}
		if _, ok := p.Marks[step]; !ok {
			return step, true
		}
	}
	return "", false
}

// Since is when a piece's next step became the next one.
func (p PieceState) Since(opened time.Time) time.Time {
	next, ok := p.nextStep()
	last := opened
	for _, step := range order() {
		if ok && step == next {
			break
		}
		if m, done := p.Marks[step]; done && m.At.After(last) {
			last = m.At
		}
	}
	return last
}

// Next is the step the batch waits for: the earliest any of its pieces waits for,
// with the letters of the pieces that wait for it.
func (s State) Next() (Info, []string, bool) {
	if s.End != "" {
		return Info{}, nil, false
	}
	var (
		best    Info
		letters []string
		found   bool
	)
	for _, p := range s.Pieces {
		next, ok := p.Next()
		if !ok {
			continue
		}
		switch {
		case !found || index(next.Step) < index(best.Step):
			best, letters, found = next, []string{p.Letter}, true
		case next.Step == best.Step:
			letters = append(letters, p.Letter)
		}
	}
	return best, letters, found
}

// Stage is where the batch as a whole stands.
func (s State) Stage() Stage {
	if s.End != "" {
		return s.End
	}
	next, _, ok := s.Next()
	if !ok {
		return Done
	}
	return next.Stage
}

// AnyIn says whether any piece is in a stage, wherever the others are.
func (s State) AnyIn(stage Stage) bool {
	return s.End == "" && slices.ContainsFunc(s.Pieces, func(p PieceState) bool {
		next, ok := p.Next()
		return ok && next.Stage == stage
	})
}

// Find gives the piece with a letter.
func (s State) Find(letter string) (PieceState, bool) {
	for _, p := range s.Pieces {
		if p.Letter == letter {
			return p, true
		}
	}
	return PieceState{}, false
}

// Marked gives the mark of a step for a piece, or for the batch as a whole (letter
// empty) once every piece has it.
func (s State) Marked(step Step, letter string) (Mark, bool) {
	var last Mark
	for _, p := range s.Pieces {
		if letter != "" && p.Letter != letter {
			continue
		}
		m, ok := p.Marks[step]
		if !ok {
			return Mark{}, false
		}
		if m.At.After(last.At) {
			last = m
		}
	}
	return last, len(s.Pieces) > 0
}

// Has says whether a step was done or passed over.
func (p PieceState) Has(step Step) bool {
	_, ok := p.Marks[step]
	return ok
}

// Past says whether a step after this one was done, so that recording this one
// would turn the clock back.
func (p PieceState) Past(step Step) bool {
	for _, info := range Steps()[index(step)+1:] {
		if m, ok := p.Marks[info.Step]; ok && !m.Skipped {
			return true
		}
	}
	return false
}
