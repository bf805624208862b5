package zone

import (
	"strings"
	"unicode"

	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

// fold gives the form in which names are compared: lower case, without accents,
// dots or apostrophes, with one space for any run of spaces, underscores and
// hyphens. "São Paulo" and "sao_paulo" fold to the same, as do "St. John's" and
// "St_Johns".
func fold(s string) string {
	s = strings.ToLower(strings.ToValidUTF8(s, ""))
	accents := transform.Chain(norm.NFD, runes.Remove(runes.In(unicode.Mn)), norm.NFC)
	if plain, _, err := transform.String(accents, s); err == nil {
		s = plain
	}
	s = strings.NewReplacer("_", " ", "-", " ", ".", "", "'", "", "’", "", "&", " and ").Replace(s)
	segments := strings.Split(s, "/")
	for i, segment := range segments {
		segments[i] = strings.Join(strings.Fields(segment), " ")
	}
	return strings.Join(segments, "/")
}
