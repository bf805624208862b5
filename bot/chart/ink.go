package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// The eight colours of Okabe and Ito, chosen to stay apart under every common
// kind of colour blindness: M. Okabe, K. Ito, "Color Universal Design: how to
// make figures and presentations that are friendly to colorblind people", 2002
// (revised 2008). Values from memory.
func okabeIto() (black, orange, sky, green, yellow, blue, vermillion, purple color.RGBA) {
	rgb := func(r, g, b uint8) color.RGBA { return color.RGBA{r, g, b, 255} }
	return rgb(0, 0, 0), rgb(230, 159, 0), rgb(86, 180, 233), rgb(0, 158, 115),
		rgb(240, 228, 66), rgb(0, 114, 178), rgb(213, 94, 0), rgb(204, 121, 167)
}

// inks are the colours of one picture by what they are for.
type inks struct {
	paper  color.RGBA // background
	text   color.RGBA
	muted  color.RGBA // less important text, the pit curve
	grid   color.RGBA
	panel  color.RGBA // boxes a shade off the paper
	alarm  color.RGBA // ceiling, fire out, a failed verdict
	good   color.RGBA
	curves []color.RGBA // pieces, in turn; each at least 3:1 against paper
	fills  []color.RGBA // bars, in turn; black lettering stands on each
	onFill color.RGBA
}

func (s Style) inks() inks {
	_, orange, sky, green, yellow, blue, vermillion, purple := okabeIto()
	grey := func(v uint8) color.RGBA { return color.RGBA{v, v, v, 255} }
	k := inks{
		paper: grey(255), text: grey(24), muted: grey(88), grid: grey(222), panel: grey(243),
		alarm: vermillion, good: green,
		curves: []color.RGBA{blue, green, purple, grey(24)},
		fills:  []color.RGBA{sky, orange, purple, green, yellow},
		onFill: grey(0),
	}
	if s.Dark {
		k.paper, k.text, k.muted, k.grid, k.panel = color.RGBA{20, 23, 28, 255}, grey(242), grey(178), grey(58), grey(38)
		k.alarm = orange // vermillion is too dim for lettering here
		k.curves = []color.RGBA{sky, yellow, purple, green, grey(242)}
	}
	return k
}

// stroke is how one curve is drawn: colour and dash together, so that neither
// alone has to tell it from the next.
type stroke struct {
	colour color.RGBA
	dash   []vg.Length
	width  vg.Length
}

// dashes are told apart by their rhythm; the first is an unbroken line.
func dashes() [][]vg.Length {
	return [][]vg.Length{nil, {18, 8}, {4, 7}, {22, 7, 4, 7}, {10, 5}, {22, 6, 4, 6, 4, 6}, {30, 12}}
}

// curve gives the stroke of the i-th piece. Colours and dashes run through
// together; there are not as many of one as of the other, so the pairs repeat
// only after 26 pieces.
func (k inks) curve(i int) stroke {
	d := dashes()
	return stroke{colour: k.curves[i%len(k.curves)], dash: d[i%len(d)], width: 5}
}

// mix blends a share of one colour into another, as flat paint: pictures are
// stored with a palette, where see-through layers would cost shades.
func mix(over, under color.RGBA, share float64) color.RGBA {
	f := func(a, b uint8) uint8 { return uint8(float64(a)*share + float64(b)*(1-share) + 0.5) }
	return color.RGBA{f(over.R, under.R), f(over.G, under.G), f(over.B, under.B), 255}
}
