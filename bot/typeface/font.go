// Package typeface holds the one typeface of every picture and label, and turns
// any text into text that typeface can draw.
//
// DejaVu Sans Condensed was chosen because it covers Latin, Greek, Cyrillic,
// Hebrew, joined Arabic and the signs a verdict needs (✓ ✗ ⚠), is narrow enough
// for a phone, and may be embedded (see LICENSE.txt).
package typeface

import (
	_ "embed"
	"fmt"

	"golang.org/x/image/font/sfnt"
)

//go:embed DejaVuSansCondensed.ttf
var regular []byte

//go:embed DejaVuSansCondensed-Bold.ttf
var bold []byte

// RegularTTF gives a copy of the regular face as a TrueType file.
func RegularTTF() []byte { return append([]byte(nil), regular...) }

// BoldTTF gives a copy of the bold face as a TrueType file.
func BoldTTF() []byte { return append([]byte(nil), bold...) }

// Faces are the parsed faces. They may be used from several goroutines.
type Faces struct {
	Regular, Bold *sfnt.Font
}

// Load parses the embedded faces.
func Load() (Faces, error) {
	r, err := sfnt.Parse(regular)
	if err != nil {
		return Faces{}, fmt.Errorf("embedded regular face: %w", err)
	}
	b, err := sfnt.Parse(bold)
	if err != nil {
		return Faces{}, fmt.Errorf("embedded bold face: %w", err)
	}
	return Faces{Regular: r, Bold: b}, nil
}

// Has tells whether both faces hold a glyph for the rune, so that a text stays
// readable whichever of the two it is set in.
func (f Faces) Has(r rune) bool { return has(f.Regular, r) && has(f.Bold, r) }

func has(f *sfnt.Font, r rune) bool {
	var buf sfnt.Buffer
	i, err := f.GlyphIndex(&buf, r)
	return err == nil && i != 0
}
