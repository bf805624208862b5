package parse

import (
	"time"

	"larderhand/curemath"
)

// Reading is what a thermometer said: the pit, a core, or both.
type Reading struct {
	Piece     string // "a", "b" … or "" for the batch or its only piece
	Pit, Core *curemath.Fahrenheit
	At        time.Time // now unless a time was said
	HasTime   bool      // a time was said
}

const readingExample = "pit 148 core 121"

type labelKind int

const (
	noLabel labelKind = iota
	pitLabel
	coreLabel
)

// label knows the words for the two places a thermometer hangs in.
func label(s string) labelKind {
	switch s {
	case "pit", "smoker", "chamber", "grate", "smokehouse", "cabinet", "air", "ambient", "box", "oven":
		return pitLabel
	case "core", "cores", "meat", "internal", "probe", "middle", "inside", "centre", "center":
		return coreLabel
	}
	return noLabel
}

// Readings reads one or more readings in the order they were said; lines and
// semicolons part them. Errors are *Problem.
func Readings(s string, def TempUnit, now time.Time) ([]Reading, error) {
	l, p := open(s, readingExample)
	if p != nil {
		return nil, p
	}
	r := Reading{At: now}
	for i := 0; i < len(l.toks); {
		k := label(l.at(i).text)
		q, ok := l.quantityAt(i + 1)
		if k == noLabel || !ok {
			return nil, &Problem{Kind: NotAReading, Said: l.said(i, len(l.toks)), Why: "I see no reading there", Example: readingExample}
		}
		f, p := l.temperature(q, def)
		if p != nil {
			return nil, p
		}
		if k == pitLabel {
			r.Pit = &f
		} else {
			r.Core = &f
		}
		i = q.to
	}
	return []Reading{r}, nil
}
