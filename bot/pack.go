package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
)

// packEntries read what the pieces weighed in the packet and how they are kept: "4 lb
// frozen" of one, "a 1.78 kg b 1540 g, frozen" piece by piece.
func (t *Turn) packEntries(s course.State, named []string, text string) ([]entry, error) {
	if parts := weightsByPiece(s, named, text); len(parts) > 1 {
		return t.packParts(s, parts)
	}
	of := t.meant(course.Packed, s, named)
	w, said, err := t.packWeight(s, of, text)
	if err != nil {
		return nil, err
	}
	body := said.body()
	if w > 0 {
		if err := t.packFits(s, of, w); err != nil {
			return nil, err
		}
		body.Weight = w
	}
	return []entry{{of, body}}, nil
}

// packPart is what a line says of one piece.
type packPart struct{ letter, text string }

var pieceThenWeight = regexp.MustCompile(`(?i)(?:^|[\s,;&+])(?:and\s+)?(?:piece\s+)?(?:\d+)?([a-z])\s*[:=]?\s+\d`)

// weightsByPiece parts "a 1.78 kg b 1540 g frozen" by its letters.
func weightsByPiece(s course.State, named []string, text string) []packPart {
	if len(named) == 1 {
		text = named[0] + " " + text
	}
	var parts []packPart
	from, letter := -1, ""
	for _, m := range pieceThenWeight.FindAllStringSubmatchIndex(text, -1) {
		l := strings.ToLower(text[m[2]:m[3]])
		if !hasPiece(s, l) {
			continue
		}
		if from < 0 && strings.Trim(text[:m[2]], " ,;:") != "" {
			return nil
		}
		if from >= 0 {
			parts = append(parts, packPart{letter, text[from:m[0]]})
		}
		from, letter = m[3], l
	}
	if from >= 0 {
		parts = append(parts, packPart{letter, text[from:]})
	}
	return parts
}

// packParts reads each piece's part. What is said of the keeping only after the last
// weight is said of all.
func (t *Turn) packParts(s course.State, parts []packPart) ([]entry, error) {
	var list []entry
	before := false
	for _, p := range parts {
		w, said, err := t.packWeight(s, []string{p.letter}, p.text)
		if err != nil {
			return nil, err
		}
		for _, e := range list {
			if e.of[0] == p.letter {
				return nil, &Error{Kind: BadInput, Why: fmt.Sprintf("Piece %s is there twice; nothing was recorded.", p.letter), Example: t.packExample(s, p.letter)}
			}
		}
		if err := t.packFits(s, []string{p.letter}, w); err != nil {
			return nil, err
		}
		body := said.body()
		body.Weight = w
		if len(list) < len(parts)-1 {
			before = before || said != (packed{})
		} else if !before {
			for i := range list {
				of := list[i].body.Weight
				list[i].body = body
				list[i].body.Weight = of
			}
		}
		list = append(list, entry{[]string{p.letter}, body})
	}
	return list, nil
}

// packed is how something is kept, besides its weight.
type packed struct {
	frozen bool
	note   string
}

func (p packed) body() course.Body { return course.Body{Frozen: p.frozen, Text: p.note} }

var (
	toFreezer = regexp.MustCompile(`(?i)\b(?:(?:in|into|for)\s+(?:the\s+)?)?(?:(?:deep[\s-]*)?(?:freezer|frozen|freeze)|deep[\s-]*freeze)\b`)
	toFridge  = regexp.MustCompile(`(?i)\b(?:(?:in|into|for)\s+(?:the\s+)?)?(?:fridge|refrigerator|refrigerated|chilled)\b`)
	weightIn  = regexp.MustCompile(`(?i)\d[\d.,/½¼¾ ]*\s*(?:kg|kilos?|kilograms?|g|gr|grams?|lbs?|pounds?|oz|ounces?|#)(?:[\s,]*(?:and\s+)?\d[\d.,/½¼¾]*\s*(?:oz|ounces?|g|grams?))?(?:$|[^\w])`)
)

// What makes a weight that of one packet of several.
var manyPackets = regexp.MustCompile(`(?i)\b(?:packs?|packets?|bags?|pieces?|portions?|parcels?|slabs?)\s+of\b|\b(?:each|apiece|per|every)\b|\d\s*[x×]\s*\d|[x×]\s*\d`)

// packWeight reads the weight in a text, the keeping it names, and the rest as a note.
func (t *Turn) packWeight(s course.State, of []string, text string) (curemath.Grams, packed, error) {
	var said packed
	rest := strings.TrimSpace(text)
	cut := func(what *regexp.Regexp) bool {
		found := what.MatchString(rest)
		rest = what.ReplaceAllString(rest, " ")
		return found
	}
	said.frozen = cut(toFreezer)
	fridge := cut(toFridge)
	if said.frozen && fridge {
		return 0, said, &Error{Kind: BadInput, Why: "Is that in the fridge or in the freezer? Nothing was recorded.", Example: t.packExample(s, of[0])}
	}
	rest = tidy(rest)
	if rest == "" {
		return 0, said, nil
	}
	if l, ok := namedIn(string(course.Packed), s, of, rest); ok { // "4 lb, b frozen"
		return 0, said, t.severalSaid(string(course.Packed), s, of, text, l)
	}
	w, err := parse.Weight(rest)
	if err == nil {
		return w, said, nil
	}
	m := weightIn.FindStringIndex(rest)
	if m == nil {
		if !strings.ContainsAny(rest, "0123456789") { // words alone: packed, and how
			said.note = clip(rest, 200)
			return 0, said, nil
		}
		return 0, said, offering(err, t.packExample(s, of[0]))
	}
	if w, err = parse.Weight(strings.TrimRight(rest[m[0]:m[1]], " ,;.:")); err != nil {
		return 0, said, offering(err, t.packExample(s, of[0]))
	}
	said.note = clip(tidy(rest[:m[0]]+" "+rest[m[1]:]), 200)
	if manyPackets.MatchString(rest) || strings.ContainsAny(rest[:m[0]], "0123456789") {
		return 0, said, &Error{Kind: BadInput, Why: fmt.Sprintf("Is that the weight of one packet or of all? I can't tell from “%s”; nothing was recorded. Give the whole weight first.", clip(text, 60)), Example: t.packExample(s, of[0])}
	}
	if strings.ContainsAny(said.note, "0123456789") && weightIn.MatchString(said.note) {
		return 0, said, &Error{Kind: BadInput, Why: fmt.Sprintf("I see more than one weight in “%s”; nothing was recorded.", clip(text, 60)), Example: t.packExample(s, of[0])}
	}
	return w, said, nil
}

func tidy(text string) string {
	text = strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\t' || r == '\n' }), " ")
	text = strings.ReplaceAll(text, " ,", ",")
	text = strings.Trim(text, " ,;.:&+")
	text = strings.TrimPrefix(strings.TrimSuffix(text, " and"), "and ")
	return strings.Trim(text, " ,;.:&+")
}

// packedAbout is what a fresh weight comes to packed, for an example to type: nine
// tenths, the middle of the usual 85 to 95 % (common practice, no source).
func packedAbout(green curemath.Grams) curemath.Grams { return green * 9 / 10 }

// packExample is a line that packs a piece, or the batch.
func (t *Turn) packExample(s course.State, letter string) string {
	return fmt.Sprintf("pack %d%s %s", s.Number, letter, t.units().meat(packedAbout(greenOf(s, letter))))
}

// packFits holds a weight to what the fresh belly weighed.
func (t *Turn) packFits(s course.State, of []string, w curemath.Grams) error {
	if len(of) > 1 {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("Pieces %s are to be packed: tell me what each weighs.", strings.Join(of, " and ")), Example: t.packExample(s, of[0])}
	}
	if fresh := greenOf(s, of[0]); w > fresh*scaleSlack {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("That is more than the fresh belly weighed (%s). Bacon may not weigh more than the belly it came from (9 CFR 319.107; second-hand, not checked against the text).", t.units().meatExact(fresh)),
			Example: t.packExample(s, of[0])}
	}
	return nil
}

// scaleSlack is how far two weighings of one piece may differ by the scales alone:
// our own choice, common practice, no source.
const scaleSlack = 1.02

// cutWord takes a word out of a text and says whether it was there.
func cutWord(text, word string) (string, bool) {
	fields := strings.Fields(text)
	for i, f := range fields {
		if strings.EqualFold(strings.Trim(f, ",.;"), word) {
			return strings.Trim(strings.Join(append(fields[:i:i], fields[i+1:]...), " "), " ,;"), true
		}
	}
	return strings.TrimSpace(text), false
}
