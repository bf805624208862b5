package curemath

import "fmt"

// Status says how well a figure is known. The zero value is no status at all,
// so that a figure without a source can never pass for a checked one.
type Status int

const (
	// Found: seen in the document itself, or on an official page.
	Found Status = iota + 1
	// SecondHand: seen only where somebody quotes the document.
	SecondHand
	// FromMemory: recalled, not seen. Shown to a person with those words.
	FromMemory
	// Practice: a habit of the trade that claims no source.
	Practice
	// Computed: arithmetic from figures that carry their own status.
	Computed
)

var _ fmt.Stringer = Status(0)

// String gives the words used in data files and replies.
func (s Status) String() string {
	switch s {
	case Found:
		return "found"
	case SecondHand:
		return "second-hand"
	case FromMemory:
		return "from memory"
	case Practice:
		return "practice"
	case Computed:
		return "computed"
	default:
		return "no status"
	}
}

// UnmarshalText reads the words String writes. Any other word is an error: a
// typing slip in a data file must not turn into "no status".
func (s *Status) UnmarshalText(text []byte) error {
	for c := Found; c <= Computed; c++ {
		if c.String() == string(text) {
			*s = c
			return nil
		}
	}
	return fmt.Errorf("status %q: want found, second-hand, from memory, practice or computed", text)
}

// Source is where a figure or a formula comes from.
type Source struct {
	Document string `json:"document,omitempty"`
	Section  string `json:"section,omitempty"`
	// Date or edition of the document; NoEdition where nobody wrote it down.
	Date   string `json:"date,omitempty"`
	Status Status `json:"status"`
	// Note is a remark a reader of the figure needs, such as which side of a
	// doubt was taken.
	Note string `json:"note,omitempty"`
}

// NoEdition is the date of a source whose edition was not written down. It is
// not printed: that a figure was not checked against the text is.
const NoEdition = "edition not recorded"

// whole says whether a source has all that a limit must name.
func (s Source) whole() bool {
	return s.Document != "" && s.Section != "" && s.Date != "" && s.Status != 0
}

// honest says whether a source names a document exactly where there was one: what
// is recalled or a habit has none.
func (s Source) honest() bool {
	switch s.Status {
	case Found, SecondHand, Computed:
		return s.Document != ""
	case FromMemory, Practice:
		return s.Document == "" && s.Section == ""
	default:
		return false
	}
}

// String names the source and how well it is known, as a person should read it:
// "9 CFR 424.22(b) (second-hand, not checked against the text)".
func (s Source) String() string {
	name := s.Document
	if s.Section != "" {
		name = join(name, " ", s.Section)
	}
	if s.Date != "" && s.Date != NoEdition {
		name = join(name, ", ", s.Date)
	}
	switch s.Status {
	case Found:
		return name
	case SecondHand:
		return join(name, " ", "(second-hand, not checked against the text)")
	case FromMemory:
		if name == "" {
			return "from memory"
		}
		return name + " (from memory)"
	case Practice:
		return "common practice, no source"
	case Computed:
		if name == "" {
			return "computed"
		}
		return "computed, " + name
	default:
		return join(name, " ", "(no source given)")
	}
}

func join(a, sep, b string) string {
	if a == "" {
		return b
	}
	return a + sep + b
}

// The calculations handbook of the US inspectors gives the formulas of this
// package. The numbers in it are worked again in the tests.
func handbook(section string, status Status) Source {
	return Source{Document: "FSIS Directive 7620.3, calculations handbook", Section: section, Date: "rev. 1995", Status: status}
}

func computed() Source { return Source{Status: Computed} }
