package parse

import "strings"

// Kind says in which way a text could not be read.
type Kind int

// The kinds of problem. Each has a word of its own in Kind.String.
const (
	Empty                 Kind = iota + 1 // nothing was said
	NotAWeight                            // no weight in it, or a volume
	NoUnit                                // a bare number that needs a unit
	Negative                              // below zero where nothing can be
	Zero                                  // nought where something is needed
	TooBig                                // beyond anything a smokehouse handles
	NotANumber                            // digits that make no number: 1e400, 1.2.3
	Ambiguous                             // two readings, and a wrong one would matter
	OuncesTooMany                         // 5 lb 20 oz
	UnknownUnit                           // a number with a word that is no unit
	UnknownWord                           // a word with no meaning where it stands
	SaidTwice                             // the same thing set twice in a line
	TooMany                               // more pieces or readings than a line may hold
	TooLong                               // a longer text than is read
	NotAThickness                         // no thickness in it
	NotAPercent                           // no percentage in it
	NotAPPM                               // no parts per million in it
	NotADuration                          // no length of time in it
	NotATime                              // no clock time or date in it
	InPast                                // a time gone by where a coming one is needed
	InFuture                              // a time to come where one gone by is needed
	NotABatch                             // no batch number where one is needed
	NotATemperature                       // no temperature in it
	ImpossibleTemperature                 // below absolute zero, or hotter than any fire
	NotAReading                           // no pit or core reading in it
	NoCure                                // the cure left out, or something in its place that is none
	NotATable                             // a file with no readings that can be found
)

// String names the kind for a log.
func (k Kind) String() string {
	names := [...]string{
		Empty: "empty", NotAWeight: "not a weight", NoUnit: "no unit", Negative: "negative", Zero: "zero",
		TooBig: "too big", NotANumber: "not a number", Ambiguous: "ambiguous", OuncesTooMany: "ounces too many",
		UnknownUnit: "unknown unit", UnknownWord: "unknown word", SaidTwice: "said twice", TooMany: "too many",
		TooLong: "too long", NotAThickness: "not a thickness", NotAPercent: "not a percent", NotAPPM: "not a ppm",
		NotADuration: "not a duration", NotATime: "not a time", InPast: "in the past", InFuture: "in the future",
		NotABatch: "not a batch", NotATemperature: "not a temperature", ImpossibleTemperature: "impossible temperature",
		NotAReading: "not a reading", NoCure: "no cure", NotATable: "not a table",
	}
	if k <= 0 || int(k) >= len(names) {
		return "unknown"
	}
	return names[k]
}

// Problem is the one error this package returns, always as *Problem. Why and
// Example are never empty.
type Problem struct {
	Kind       Kind
	Said       string // the offending bit as typed, one line, at most 60 characters
	Why        string // a clause without capital or full stop: "ounces run from 0 to 15"
	Understood string // what was understood before it, or ""
	Example    string // one line that works
}

// Error puts the problem in a sentence or three.
func (p *Problem) Error() string {
	var b strings.Builder
	if p.Said != "" {
		b.WriteString("I can't read “" + p.Said + "”: ")
		b.WriteString(p.Why)
	} else {
		b.WriteString(strings.ToUpper(p.Why[:min(1, len(p.Why))]) + p.Why[min(1, len(p.Why)):])
	}
	if !strings.HasSuffix(p.Why, "?") {
		b.WriteString(".")
	}
	if p.Understood != "" {
		b.WriteString(" I understood " + p.Understood + ".")
	}
	if p.Example != "" {
		b.WriteString(" Try: " + p.Example)
	}
	return b.String()
}

// understood returns a copy that also says what was read before the trouble.
func (p *Problem) understood(s string) *Problem {
	c := *p
	c.Understood = s
	return &c
}
