package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// SummaryData is the card of a finished batch. The words and figures come from
// the caller, so that card, text and file say the same.
type SummaryData struct {
	Batch    int
	Flavour  string
	Under    string    // a line under the title: whose, from when to when
	Tiles    []Fact    // the figures people ask first: days, ppm, yield, cost; six at most
	Sections []Section // what went in, smoke, heat, chill …
	Notes    []string  // tasting notes, as people said them
	Caution  string    // how to keep and eat it; always worth saying
	Curve    SmokeData // drawn small if it has readings
}

// Section is a group of facts under a word.
type Section struct {
	Title string
	Facts []Fact
}

// Fact is one thing known about the batch.
type Fact struct {
	Label   string
	Value   string
	Verdict Verdict
}

// Verdict marks a fact that was held against a rule.
type Verdict int

// What a rule can say. Unjudged facts carry no sign.
const (
	Unjudged Verdict = iota
	Met
	Doubtful
	Failed
)

// sign is a verdict's mark and colour; the mark alone says it.
func (p *page) sign(v Verdict) (string, color.RGBA) {
	switch v {
	case Met:
		return "✓", p.ink.good
	case Doubtful:
		return "⚠", p.ink.alarm
	case Failed:
		return "✗", p.ink.alarm
	default:
		return "", p.ink.text
	}
}

// Limits that keep a card a card.
const (
	mostTiles     = 6
	mostSections  = 10
	mostFacts     = 14
	mostNotes     = 6
	valueLines    = 4
	sentenceLines = 12   // a caution is not cut short
	textLimit     = 2000 // runes looked at in one value or note
	tallest       = vg.Length(2700)
	labelWidth    = vg.Length(330)
)

// Summary draws the card of a finished batch as a PNG 1080 pixels wide and as
// high as its text asks for.
func Summary(data SummaryData, style Style) ([]byte, error) { return pack(drawSummary(data, style)) }

func drawSummary(data SummaryData, style Style) (*page, error) {
	draft, err := newPage(style, 8) // to measure text before the height is known
	if err != nil {
		return nil, err
	}
	height := margin + titleSize + 8 + smallSize*leading + margin
	var kept []block
	add := func(b block) { kept, height = append(kept, b), height+b.height }
	for _, b := range draft.card(data) {
		if height+b.height > tallest {
			add(draft.sentence("… there is more: ask for the summary as a file.", draft.small()))
			break
		}
		add(b)
	}
	if data.Caution != "" {
		add(draft.sentence(data.Caution, draft.body().strong()))
	}
	p, err := newPage(style, height)
	if err != nil {
		return nil, err
	}
	top := p.heading(height-margin, p.batchTitle(data.Batch, data.Flavour), p.name(data.Under))
	for _, b := range kept {
		if err := b.draw(p, top); err != nil {
			return nil, err
		}
		top -= b.height
	}
	return p, nil
}

// block is a part of the card: how high it is, and how it is drawn below a
// height.
type block struct {
	height vg.Length
	draw   func(p *page, top vg.Length) error
}

// card lays the data out, from the top down, all but the caution.
func (p *page) card(data SummaryData) []block {
	var out []block
	if len(data.Tiles) > 0 {
		out = append(out, p.tiles(data.Tiles[:min(len(data.Tiles), mostTiles)]))
	}
	if hasReadings(data.Curve) {
		out = append(out, smallCurve(data.Curve))
	}
	for _, s := range data.Sections[:min(len(data.Sections), mostSections)] {
		facts := s.Facts[:min(len(s.Facts), mostFacts)]
		if len(facts) == 0 {
			continue
		}
		out = append(out, p.heading2(s.Title))
		for _, f := range facts {
			out = append(out, p.fact(f))
		}
	}
	if notes := data.Notes[:min(len(data.Notes), mostNotes)]; len(notes) > 0 {
		out = append(out, p.heading2("Tasting notes"))
		for _, n := range notes {
			out = append(out, p.note(n))
		}
	}
	return out
}

func hasReadings(d SmokeData) bool {
	if len(tidy(d.Pit)) > 0 {
		return true
	}
	for _, q := range d.Pieces {
		if len(tidy(q.Core)) > 0 {
			return true
		}
	}
	return false
}
