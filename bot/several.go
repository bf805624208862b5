package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
)

// told is the batch a line speaks of, the pieces of it that it names, and what it says
// of them.
type told struct {
	pick
	Of []string // letters; none: the batch as a whole
}

// pieces finds the batch and the pieces a line names at its start: "a", "1a 1c", "1 a
// and c", "a, c fine". A letter that is no piece, one that may be the word "a", and
// one further on in the line are asked about: what is recorded of a piece it was not
// said of may hurt someone.
func (t *Turn) pieces(cmd, args string, fits func(course.State) bool) (told, error) {
	p, err := t.which(cmd, args, fits)
	if err != nil {
		return told{}, err
	}
	return t.piecesOf(cmd, p)
}

func (t *Turn) piecesOf(cmd string, p pick) (told, error) {
	s := p.State
	if m := ofAll.FindStringSubmatch(p.Rest); p.Letter == "" && m != nil {
		said := m[1] + m[2]
		if l, ok := mentioned(cmd, s, nil, said); ok && cmd == string(course.Firm) { // "all: but b is soft"
			return told{}, t.severalSaid(cmd, s, nil, p.Rest, l)
		}
		p.Rest = said
		return told{pick: p}, nil
	}
	of, rest, doubt, left := severalPieces(cmd, p)
	if left != "" {
		return told{}, t.severalSaid(cmd, s, of, p.Rest, left)
	}
	if doubt != "" {
		return told{}, t.whichPieces(cmd, s, p.Rest, doubt)
	}
	if wrong, ok := notAPiece(cmd, s, rest, len(of) > 0); ok {
		return told{}, t.noPiece(cmd, s, wrong)
	}
	if l, ok := mentioned(cmd, s, of, rest); ok {
		return told{}, t.severalSaid(cmd, s, of, rest, l)
	}
	p.Rest = rest
	return told{pick: p, Of: of}, nil
}

var (
	ofAll = regexp.MustCompile(`(?i)^(?:all|both)(?:\s+of\s+(?:it|them))?(?:\s*[:,]\s*(.*)|\s+((?:core\s+)?\d.*)|\s*)$`)
	// A letter with what joins it to the one before it, and what follows.
	nextPiece = regexp.MustCompile(`(?is)^\s*((?:\s*(?:,|;|&|\+|/|\band\b))*)\s*((?:pieces?|slabs?)\s+)?([a-z])\b(?:$|([^'’-].*))`)
	joined    = regexp.MustCompile(`(?is)^\s*(?:,|;|&|\+|/|\band\b)\s*(?:and\s+)?(?:pieces?\s+)?(?:\d+)?([a-z])(?:$|[\s,;:.&+/=)])`)
	sign      = regexp.MustCompile(`^\s*[:=,;.)–—]|^\s+-\s|^\s*\d`)
)

// severalPieces reads the pieces named at the start of a line, after the one that
// stands with its number. doubt is the word "a" and the one after it, where they may
// be words of a sentence; left is a letter whose own words may leave it out.
func severalPieces(cmd string, p pick) (of []string, rest, doubt, left string) {
	s := p.State
	rest = strings.TrimSpace(p.Rest)
	if p.Letter != "" {
		of = append(of, p.Letter)
	} else if run, after, ok := lettersInARow(cmd, s, rest); ok {
		of, rest = run, after
	}
	for {
		joint := joints.FindString(rest)
		ref, after, ok, err := parse.Batch(strings.TrimSpace(rest[len(joint):]))
		if err == nil && ok && ref.Number == s.Number && ref.Piece != "" && hasPiece(s, ref.Piece) {
			if len(of) > 0 && !slices.Contains(of, ref.Piece) && !sharesWords(cmd, s, joint, after) {
				return of, rest, "", ref.Piece
			}
			of, rest = add(of, ref.Piece), after
			continue
		}
		m := nextPiece.FindStringSubmatch(rest)
		if m == nil || len(s.Pieces) < 2 && len(s.Batch.Pieces) < 2 && len(of) == 0 && m[4] != "" {
			break
		}
		by, named, letter, after := m[1], m[2] != "", strings.ToLower(m[3]), m[4]
		if !hasPiece(s, letter) || slices.Contains(of, letter) {
			break
		}
		if letter == "a" || letter == "i" {
			word := articleBefore(cmd, s, after)
			switch {
			case named || word == "":
			case len(of) > 0 && andJoint.MatchString(by) && !isSmall(word): // "b and a later"
				return of, rest, "", letter
			case len(of) > 0 || len(s.Pieces) < 2: // "b, a bit soft" speaks of b
				return of, rest, "", ""
			default:
				return of, rest, letter + " " + word, ""
			}
			if len(of) > 0 && by == "" && !named && !ends(after) && !sign.MatchString(after) && !listGoesOn(cmd, s, after) {
				return of, rest, "", ""
			}
		}
		if len(of) > 0 && !sharesWords(cmd, s, by, after) {
			return of, rest, "", letter
		}
		of, rest = add(of, letter), strings.TrimLeft(after, " :=")
		if strings.HasPrefix(rest, ",") || strings.HasPrefix(rest, ";") {
			if joined.MatchString(rest) {
				continue
			}
			rest = strings.TrimLeft(rest, ",; ")
		}
	}
	return of, strings.TrimSpace(rest), "", ""
}

var inARow = regexp.MustCompile(`(?is)^([a-z]{2,26})(?:$|[\s,;:]+(.*))$`)

// lettersInARow reads "ac" as pieces a and c: letters of pieces in their order.
func lettersInARow(cmd string, s course.State, rest string) (of []string, after string, ok bool) {
	m := inARow.FindStringSubmatch(rest)
	if m == nil || freeText(cmd) {
		return nil, rest, false
	}
	for _, l := range strings.Split(strings.ToLower(m[1]), "") {
		if !hasPiece(s, l) || len(of) > 0 && of[len(of)-1] >= l {
			return nil, rest, false
		}
		of = append(of, l)
	}
	return of, m[2], true
}

var joints = regexp.MustCompile(`(?i)^(?:\s*(?:[,;&+/]|and\b))*`)

func ends(after string) bool { return strings.TrimSpace(after) == "" }

// notAPiece finds a letter where a piece is named that the batch has not.
func notAPiece(cmd string, s course.State, rest string, more bool) (letter string, ok bool) {
	m := nextPiece.FindStringSubmatch(rest)
	if m == nil || more && m[1] == "" && m[2] == "" {
		return "", false
	}
	letter = strings.ToLower(m[3])
	switch {
	case hasPiece(s, letter), m[2] == "" && (letter == "a" || letter == "i") && (!lost(s, letter) || articleBefore(cmd, s, m[4]) != ""):
		return "", false
	case m[2] == "" && freeText(cmd) && (len(s.Batch.Pieces) < 2 || letter > "h" || !ends(m[4]) && !strings.ContainsAny(m[4][:1], " :,")):
		return "", false
	}
	return letter, true
}

// mentioned finds a piece named further on in a line: "all but b", "a fine, b soft".
func mentioned(cmd string, s course.State, of []string, rest string) (letter string, ok bool) {
	switch cmd {
	case "note", "taste", "discard", "close", "skip", string(course.Fried), string(course.Smoking), string(course.Smoked), string(course.Cooled), string(course.Packed):
		return "", false // read by piece, or in a person's own words
	}
	return namedIn(cmd, s, of, rest)
}

// namedIn finds a piece besides those named that a text names anywhere.
func namedIn(cmd string, s course.State, of []string, rest string) (letter string, ok bool) {
	if len(s.Batch.Pieces) < 2 {
		return "", false
	}
	for _, m := range laterPiece.FindAllStringSubmatchIndex(rest, -1) {
		number, l := "", strings.ToLower(rest[m[4]:m[5]])
		if m[2] >= 0 {
			number = rest[m[2]:m[3]]
		}
		switch {
		case number != "" && number != fmt.Sprint(s.Number), slices.Contains(of, l), !hasPiece(s, l) && !lost(s, l):
		case strings.Contains("cfg", l) && cmd != string(course.Firm) && degrees.MatchString(rest[:m[4]]): // 4 °C, 900 g
		case number == "" && (l == "a" || l == "i") && article(cmd, s, rest[:m[4]], rest[m[5]:]):
		default:
			return l, true
		}
	}
	return "", false
}

var degrees = regexp.MustCompile(`[\d°º]\s*$`)

var laterPiece = regexp.MustCompile(`(?i)(?:^|[^\w'’])(\d+)?-?([a-z])(?:\b)`)

func hasPiece(s course.State, letter string) bool {
	_, ok := s.Find(letter)
	return ok
}

func add(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}
