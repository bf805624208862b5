package chart

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"maps"
	"slices"
)

// mostBytes is what a picture may weigh; a phone on a slow line gets it at once.
const mostBytes = 200_000

// pack turns a drawn page into its PNG.
func pack(p *page, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	return p.png()
}

// png gives the finished picture. Drawings have few colours, so they are stored
// with a palette: a third of the size of true colour, and quicker to pack. The
// library's default effort is used: the highest takes four times as long to save
// one byte in twenty. A picture still too heavy is stored with fewer shades.
func (p *page) png() ([]byte, error) {
	src, ok := p.canvas.Image().(*image.RGBA)
	if !ok {
		return nil, fmt.Errorf("canvas holds %T, want RGBA pixels", p.canvas.Image())
	}
	var out bytes.Buffer
	for _, shades := range []int{256, 32, 8} {
		out.Reset()
		if err := png.Encode(&out, paletted(src, shades)); err != nil {
			return nil, fmt.Errorf("pack picture: %w", err)
		}
		if out.Len() < mostBytes {
			break
		}
	}
	return out.Bytes(), nil
}

// paletted maps a picture onto a palette of at most 256. Shades alike in the
// upper five bits of each channel count as one, shown as the commonest of
// them, so that flat inks stay exact and the grey edges of lettering do not crowd
// out a thin coloured line.
func paletted(src *image.RGBA, shades int) *image.Paletted {
	counts := map[color.RGBA]int{}
	eachRun(src, func(c color.RGBA, _, n int) { counts[c] += n })
	groups := map[color.RGBA]shade{}
	for c, n := range counts {
		g := groups[coarse(c)]
		if n > g.most || n == g.most && key(c) < key(g.commonest) {
			g.commonest, g.most = c, n
		}
		g.pixels += n
		groups[coarse(c)] = g
	}
	common := slices.Collect(maps.Values(groups))
	slices.SortFunc(common, func(a, b shade) int {
		return cmp.Or(cmp.Compare(b.pixels, a.pixels), cmp.Compare(key(a.commonest), key(b.commonest)))
	})
	n := min(len(common), shades)
	palette := make(color.Palette, n)
	index := make(map[color.RGBA]uint8, len(common))
	for i, g := range common[:n] {
		palette[i] = g.commonest
		index[coarse(g.commonest)] = uint8(i)
	}
	for _, g := range common[n:] {
		index[coarse(g.commonest)] = uint8(palette.Index(g.commonest))
	}
	dst := image.NewPaletted(src.Rect, palette)
	eachRun(src, func(c color.RGBA, at, n int) {
		i := index[coarse(c)]
		for k := at; k < at+n; k++ {
			dst.Pix[k] = i
		}
	})
	return dst
}

// shade is a group of nearly equal colours.
type shade struct {
	commonest    color.RGBA
	most, pixels int
}

func coarse(c color.RGBA) color.RGBA { return color.RGBA{c.R >> 3, c.G >> 3, c.B >> 3, 255} }

func key(c color.RGBA) uint32 { return uint32(c.R)<<16 | uint32(c.G)<<8 | uint32(c.B) }

// eachRun reports the stretches of one colour, by pixel number and length.
func eachRun(src *image.RGBA, report func(c color.RGBA, at, n int)) {
	total := src.Rect.Dx() * src.Rect.Dy()
	at := func(i int) color.RGBA {
		q := src.Pix[i*4 : i*4+4 : i*4+4]
		return color.RGBA{q[0], q[1], q[2], 255}
	}
	for i := 0; i < total; {
		c, j := at(i), i+1
		for j < total && at(j) == c {
			j++
		}
		report(c, i, j-i)
		i = j
	}
}
