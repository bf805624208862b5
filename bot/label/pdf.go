package label

import (
	"bytes"
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"larderhand/bot/typeface"
)

// Paper is a sheet labels are printed on and cut from.
type Paper int

// The papers.
const (
	A4 Paper = iota
	Letter
)

// size is the sheet in millimetres (ISO 216; US letter is 8.5 by 11 inches).
func (p Paper) size() (fpdf.SizeType, error) {
	switch p {
	case A4:
		return fpdf.SizeType{Wd: 210, Ht: 297}, nil
	case Letter:
		return fpdf.SizeType{Wd: 215.9, Ht: 279.4}, nil
	default:
		return fpdf.SizeType{}, fmt.Errorf("paper %d is not known", int(p))
	}
}

const (
	abreast     = 2    // labels across a sheet
	sheetMargin = 10.0 // above and below, in millimetres
	mostLabels  = 400
	highest     = 250.0 // of a label on its own, in millimetres
	face        = "DejaVuSansCondensed"
)

// PDF sets one label on a page of its own: 100 by 60 mm, higher if its text asks
// for it. The error is *Incomplete if the label lacks something.
func PDF(l Label) ([]byte, error) {
	w, err := newWriter([]Label{l}, fpdf.SizeType{Wd: labelWidth, Ht: labelHeight})
	if err != nil {
		return nil, err
	}
	lay := w.layouts[0]
	if lay.height > highest {
		return nil, tooHigh(lay.height)
	}
	w.pdf.AddPageFormat("P", fpdf.SizeType{Wd: labelWidth, Ht: lay.height})
	w.draw(lay, 0, 0)
	return w.bytes()
}

// Sheet sets labels two abreast on sheets, with lines to cut along.
func Sheet(labels []Label, paper Paper) ([]byte, error) {
	size, err := paper.size()
	if err != nil {
		return nil, err
	}
	w, err := newWriter(labels, size)
	if err != nil {
		return nil, err
	}
	left := (size.Wd - abreast*labelWidth) / 2
	y := size.Ht
	for i := 0; i < len(labels); i += abreast {
		row := w.layouts[i:min(i+abreast, len(labels))]
		height := 0.0
		for _, l := range row {
			height = max(height, l.height)
		}
		if height > size.Ht-2*sheetMargin {
			return nil, tooHigh(height)
		}
		if y+height > size.Ht-sheetMargin {
			w.pdf.AddPage()
			y = sheetMargin
		}
		for k, l := range row {
			x := left + float64(k)*labelWidth
			w.cut(x, y, height)
			w.draw(l, x, y)
		}
		y += height
	}
	return w.bytes()
}

func tooHigh(height float64) error {
	return fmt.Errorf("the label would be %.0f mm high: shorten its text", height)
}

type writer struct {
	pdf     *fpdf.Fpdf
	layouts []layout
}

func newWriter(labels []Label, size fpdf.SizeType) (*writer, error) {
	if len(labels) == 0 {
		return nil, &Incomplete{Missing: []string{"a piece to label"}}
	}
	if len(labels) > mostLabels {
		return nil, fmt.Errorf("%d labels at once: %d at most", len(labels), mostLabels)
	}
	faces, err := typeface.Load()
	if err != nil {
		return nil, err
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: size})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(labels[0].Packed.UTC())
	f.SetModificationDate(labels[0].Packed.UTC())
	f.SetTitle("Labels, "+labels[0].batch(), true)
	f.SetLang("en")
	f.AddUTF8FontFromBytes(face, "", typeface.RegularTTF())
	f.AddUTF8FontFromBytes(face, "B", typeface.BoldTTF())
	w := &writer{pdf: f}
	for i, l := range labels {
		if err := l.check(); err != nil {
			return nil, fmt.Errorf("label %d: %w", i+1, err)
		}
		if lacking := unprintable(l, faces); len(lacking) > 0 {
			return nil, fmt.Errorf("label %d: %w", i+1, &Incomplete{Missing: lacking})
		}
		w.layouts = append(w.layouts, lay(l, faces, w.width))
	}
	return w, f.Error()
}

func weight(strong bool) string {
	if strong {
		return "B"
	}
	return ""
}

func (w *writer) width(size float64, strong bool, visual string) float64 {
	w.pdf.SetFont(face, weight(strong), size)
	return w.pdf.GetStringWidth(visual)
}

func (w *writer) draw(l layout, x, y float64) {
	for _, s := range l.sets {
		w.pdf.SetFont(face, weight(s.strong), s.size)
		w.pdf.Text(x+s.x, y+s.y, s.text)
	}
	w.pdf.SetLineWidth(0.2)
	for _, r := range l.rules {
		w.pdf.Line(x+padding, y+r, x+labelWidth-padding, y+r)
	}
}

// cut draws a dashed frame to cut along.
func (w *writer) cut(x, y, height float64) {
	w.pdf.SetDrawColor(150, 150, 150)
	w.pdf.SetDashPattern([]float64{1.5, 1.5}, 0)
	w.pdf.SetLineWidth(0.1)
	w.pdf.Rect(x, y, labelWidth, height, "D")
	w.pdf.SetDashPattern(nil, 0)
	w.pdf.SetDrawColor(0, 0, 0)
}

func (w *writer) bytes() ([]byte, error) {
	var out bytes.Buffer
	if err := w.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("write label: %w", err)
	}
	return out.Bytes(), nil
}
