package chart

import "image/color"

// String is the stage in a word.
func (s Stage) String() string {
	switch s {
	case Curing:
		return "curing"
	case Drying:
		return "drying"
	case Smoking:
		return "smoking"
	case Cooling:
		return "cooling"
	case Packed:
		return "packed"
	default:
		return "unknown"
	}
}

// stageLook is a stage's colour and its pattern.
func (p *page) stageLook(s Stage) (color.RGBA, pattern) {
	if s == Packed {
		return p.ink.panel, hollow
	}
	return p.ink.fills[int(s)%len(p.ink.fills)], []pattern{solid, slanted, crossed, level}[int(s)%4]
}

// stageLine is the ink of the pattern over a fill.
func (p *page) stageLine(fill color.RGBA) color.RGBA {
	return mix(p.ink.text, fill, 0.55)
}

// stageInk is for lettering on a stage's colour; on the pale shade of a plan the
// page's own ink reads best.
func (p *page) stageInk(s Stage) color.RGBA {
	if s == Packed {
		return p.ink.text
	}
	return p.ink.onFill
}
