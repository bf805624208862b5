package curemath

import (
	"math"
	"testing"
)

// The level a pit is taken to hold, from what a person would make of the readings:
// common practice, no source.
func TestLevelOfAPit(t *testing.T) {
	for name, c := range map[string]struct {
		at, temp []float64
		want     float64 // °F
	}{
		"steady":                        {[]float64{0, 1, 2}, []float64{150, 152, 151}, 151},
		"turned up":                     {[]float64{0, 1, 2, 3}, []float64{120, 121, 152, 150}, 151},
		"wood put on":                   {[]float64{0, 1, 2, 3}, []float64{152, 150, 132, 151}, 147},
		"a lid just opened":             {[]float64{0, 1, 2}, []float64{151, 150, 130}, 142},
		"out, and burning again":        {[]float64{0, 4, 7}, []float64{150, 50, 160}, 160},
		"out for hours, burning again":  {[]float64{0, 2, 4, 7}, []float64{150, 60, 50, 158}, 158},
		"one odd reading, long steady":  {[]float64{0, 1, 2, 3}, []float64{150, 151, 65, 150}, 150},
		"out":                           {[]float64{0, 1, 2}, []float64{150, 151, 70}, 70},
		"the only reading there is":     {[]float64{0}, []float64{148}, 148},
		"set low, out of a hot lighter": {[]float64{0, 1, 2}, []float64{240, 151, 150}, 150},
	} {
		if got := lookAhead(c.at, c.temp).level; math.Abs(got-c.want) > 3 {
			t.Errorf("%s: the level is taken to be %.0f °F, not %.0f", name, got, c.want)
		}
	}
}
