package chart

import (
	"image/color"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	xfont "golang.org/x/image/font"

	"larderhand/bot/typeface"
)

// At this resolution a point, the drawing library's unit, is one pixel.
const dotsPerInch = 72

// Pixel sizes shared by all pictures.
const (
	pageWidth = vg.Length(1080)
	margin    = vg.Length(36)
	titleSize = vg.Length(48)
	bodySize  = vg.Length(33)
	smallSize = vg.Length(29)
	leading   = 1.3 // line height over letter size
)

// nameLimit is how many runes of a typed name are looked at; more could never be
// shown on one line.
const nameLimit = 200

// page is one picture being drawn. Places are in pixels from the lower left.
type page struct {
	draw.Canvas
	style  Style
	ink    inks
	faces  typeface.Faces
	fonts  *font.Cache
	canvas *vgimg.Canvas
}

func newPage(style Style, height vg.Length) (*page, error) {
	faces, err := typeface.Load()
	if err != nil {
		return nil, err
	}
	ink := style.inks()
	canvas := vgimg.NewWith(vgimg.UseWH(pageWidth, height), vgimg.UseDPI(dotsPerInch), vgimg.UseBackgroundColor(ink.paper))
	return &page{
		Canvas: draw.New(canvas),
		style:  style,
		ink:    ink,
		faces:  faces,
		canvas: canvas,
		fonts: font.NewCache(font.Collection{
			{Font: lettering(false, 0), Face: faces.Regular},
			{Font: lettering(true, 0), Face: faces.Bold},
		}),
	}, nil
}

func lettering(bold bool, size vg.Length) font.Font {
	f := font.Font{Typeface: "DejaVu Sans Condensed", Size: size}
	if bold {
		f.Weight = xfont.WeightBold
	}
	return f
}

// look is how a piece of text is set.
type look struct {
	size   vg.Length
	bold   bool
	colour color.RGBA
	align  float64 // 0 starts at the place, 0.5 is centred on it, 1 ends there
}

func (p *page) title() look { return look{size: titleSize, bold: true, colour: p.ink.text} }
func (p *page) body() look  { return look{size: bodySize, colour: p.ink.text} }
func (p *page) small() look { return look{size: smallSize, colour: p.ink.muted} }

func (l look) strong() look              { l.bold = true; return l }
func (l look) in(c color.RGBA) look      { l.colour = c; return l }
func (l look) at(align float64) look     { l.align = align; return l }
func (l look) sized(size vg.Length) look { l.size = size; return l }

func (l look) line() vg.Length { return l.size * leading }

func (p *page) face(l look) font.Face { return p.fonts.Lookup(lettering(l.bold, l.size), l.size) }

func (p *page) measure(l look) typeface.Measure {
	face := p.face(l)
	return func(visual string) float64 { return float64(face.Width(visual)) }
}

func (p *page) widthOf(l look, s string) vg.Length {
	face := p.face(l)
	return face.Width(typeface.Visual(s))
}

// write sets one line with its letters' feet at y and gives its width.
func (p *page) write(l look, x, y vg.Length, s string) vg.Length {
	visual := typeface.Visual(s)
	face := p.face(l)
	w := face.Width(visual)
	p.SetColor(l.colour)
	p.FillString(face, vg.Point{X: x - w*vg.Length(l.align), Y: y}, visual)
	return w
}

// fit shortens a line to a width.
func (p *page) fit(l look, s string, width vg.Length) string {
	return typeface.Fit(s, float64(width), p.measure(l))
}

// wrap breaks a text into lines of a width.
func (p *page) wrap(l look, s string, width vg.Length) []string {
	return typeface.Wrap(s, float64(width), p.measure(l))
}

// name makes a typed name safe to stand inside a line of ours.
func (p *page) name(s string) string { return p.faces.Name(firstRunes(s, nameLimit), unicode.MaxRune) }

func firstRunes(s string, n int) string {
	for i := range s {
		if n--; n < 0 {
			return s[:i]
		}
	}
	return s
}

// handler lets the plotting library set its axis text in our typeface.
func (p *page) handler() text.Handler { return text.Plain{Fonts: p.fonts} }

func (p *page) textStyle(l look) text.Style {
	return text.Style{Color: l.colour, Font: lettering(l.bold, l.size), Handler: p.handler()}
}

// box fills a rectangle.
func (p *page) box(r vg.Rectangle, c color.RGBA) {
	p.SetColor(c)
	p.Fill(r.Path())
}

func rect(x0, y0, x1, y1 vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: x0, Y: y0}, Max: vg.Point{X: x1, Y: y1}}
}

func (s stroke) line() draw.LineStyle {
	return draw.LineStyle{Color: s.colour, Width: s.width, Dashes: s.dash}
}
