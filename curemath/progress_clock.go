package curemath

import "time"

// cureClock turns elapsed time into Fourier numbers and shares for one course.
type cureClock struct {
	course Course
	sheet  sheet
	rates  []diffusivity // Fourier number gained a second, one for each span
}

func newCureClock(c Course) cureClock {
	depth := float64(c.Slab.Thickness) / 1000
	if c.Slab.Faces == BothFaces {
		depth /= 2
	}
	rates := make([]diffusivity, len(c.Temps))
	for i, span := range c.Temps {
		d := spreadAt(span.Temp, c.Slab.Fat)
		area := depth * depth
		rates[i] = diffusivity{d.low / area, d.typical / area, d.high / area}
	}
	return cureClock{course: c, sheet: c.Supply.sheet(), rates: rates}
}

// spreadAt is the range at a temperature: no movement is credited to a frozen
// slab, nor more than that of 40 °F to a warm one.
func spreadAt(t Celsius, fat Percent) diffusivity {
	if t.Fahrenheit() < cureFreezes {
		return diffusivity{}
	}
	return saltInLean().warmed(min(t, cureAimHigh.Celsius())).throughFat(fat)
}

// fourier sums D·t ÷ l² over the spans: with a coefficient that changes in time
// only, the sheet depends on the sum alone (Crank, time-dependent diffusion
// coefficients).
func (k cureClock) fourier(elapsed time.Duration) diffusivity {
	var sum diffusivity
	for i, span := range k.course.Temps {
		stretch := min(span.For, elapsed)
		if i == len(k.course.Temps)-1 {
			stretch = elapsed
		}
		sum.low += k.rates[i].low * stretch.Seconds()
		sum.typical += k.rates[i].typical * stretch.Seconds()
		sum.high += k.rates[i].high * stretch.Seconds()
		elapsed -= stretch
	}
	return sum
}

func (k cureClock) centre(elapsed time.Duration) ProgressRange {
	fo := k.fourier(elapsed)
	return ProgressRange{
		Low:     sharePercent(k.sheet.at(fo.low, 0)),
		Typical: sharePercent(k.sheet.at(fo.typical, 0)),
		High:    sharePercent(k.sheet.at(fo.high, 0)),
	}
}

func (k cureClock) uptake(elapsed time.Duration) ProgressRange {
	fo := k.fourier(elapsed)
	return ProgressRange{
		Low:     sharePercent(k.sheet.mean(fo.low)),
		Typical: sharePercent(k.sheet.mean(fo.typical)),
		High:    sharePercent(k.sheet.mean(fo.high)),
	}
}

// sharePercent trims the last-digit noise of a series to the range it must have.
func sharePercent(v float64) Percent { return Percent(100 * min(max(v, 0), 1)) }
