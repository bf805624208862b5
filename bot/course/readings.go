package course

import (
	"slices"
	"time"

	"larderhand/curemath"
)

// Cores gives the core readings of a piece in order of time. A reading told for
// the batch without naming a piece counts for every piece. Of two readings of the
// same instant the one told last counts.
func (s State) Cores(letter string) []curemath.CoreReading {
	return inOrder(readingsOf(s.coresTold(letter, time.Time{})), func(r curemath.CoreReading) time.Time { return r.At })
}

// toldCore is a core reading and when it was told: what is told at once, as the rows
// of a file are, bears one instant.
type toldCore struct {
	curemath.CoreReading
	recorded time.Time
}

func readingsOf(told []toldCore) []curemath.CoreReading {
	out := make([]curemath.CoreReading, len(told))
	for i, r := range told {
		out[i] = r.CoreReading
	}
	return out
}

// coresTold gives the core readings of a piece from an instant on in the order they
// were told, those given with a step too.
func (s State) coresTold(letter string, from time.Time) []toldCore {
	var out []toldCore
	for _, l := range s.Log {
		if l.Body.Core == nil || l.Piece != "" && l.Piece != letter || l.At.Before(from) {
			continue
		}
		if l.Kind != Reading && Step(l.Kind) != Smoked && Step(l.Kind) != Cooled {
			continue
		}
		out = append(out, toldCore{curemath.CoreReading{At: l.At, Temp: *l.Body.Core}, l.Recorded})
	}
	return out
}

// OwnCores are the core readings that are surely of one piece: with several pieces,
// those told by its letter, whether or not the others are there still. Heat is credited by these alone.
func (s State) OwnCores(letter string) []curemath.CoreReading {
	if len(s.Batch.Pieces) == 1 {
		return s.Cores(letter)
	}
	own := s
	own.Log = nil
	for _, l := range s.Log {
		if l.Piece == letter {
			own.Log = append(own.Log, l)
		}
	}
	return own.Cores(letter)
}

// Pits gives the pit readings in order of time.
func (s State) Pits() []curemath.PitReading {
	var out []curemath.PitReading
	for _, l := range s.Log {
		if l.Kind == Reading && l.Body.Pit != nil {
			out = append(out, curemath.PitReading{At: l.At, Temp: *l.Body.Pit})
		}
	}
	return inOrder(out, func(r curemath.PitReading) time.Time { return r.At })
}

// inTime gives a copy sorted by time, those of one instant in the order told.
func inTime[R any](told []R, at func(R) time.Time) []R {
	list := slices.Clone(told)
	slices.SortStableFunc(list, func(a, b R) int { return at(a).Compare(at(b)) })
	return list
}

// inOrder sorts by time and keeps the last told of those of one instant.
func inOrder[R any](told []R, at func(R) time.Time) []R {
	list := inTime(told, at)
	out := list[:0]
	for _, r := range list {
		if n := len(out); n > 0 && at(out[n-1]).Equal(at(r)) {
			out[n-1] = r
			continue
		}
		out = append(out, r)
	}
	return out
}

// Since cuts readings to those from an instant on.
func Since(list []curemath.CoreReading, from time.Time) []curemath.CoreReading {
	for i, r := range list {
		if !r.At.Before(from) {
			return list[i:]
		}
	}
	return nil
}

// The figures of a smoke day a batch starts with: common practice, no source.
const (
	CoreTarget  curemath.Fahrenheit = 150
	PitCeiling  curemath.Fahrenheit = 160 // keep it under
	PitRendered curemath.Fahrenheit = 170 // never over: the fat renders
)

// Target is the core temperature a batch is smoked to.
func (s State) Target() curemath.Fahrenheit {
	if s.target > 0 {
		return s.target
	}
	return CoreTarget
}

// Ceiling is what the pit is kept under.
func (s State) Ceiling() curemath.Fahrenheit {
	if s.ceiling > 0 {
		return s.ceiling
	}
	return PitCeiling
}
