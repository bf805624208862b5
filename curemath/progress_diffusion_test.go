package curemath

import (
	"math"
	"testing"
)

// Worked by hand from the figures the code names, so that a change of one shows:
// Arrhenius' law from 3.5 to 1 °C with 24.7 kJ/mol, and layers in series with 40 % fat
// that slows three and ten times.
func TestDiffusivityByHand(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got/want-1) > 1e-4 {
			t.Errorf("%s: %.5g, by hand %.5g", what, got, want)
		}
	}
	lean := saltInLean()
	cold := lean.warmed(1) // exp(−24700 ÷ 8.314462618 × (1 ÷ 274.15 − 1 ÷ 276.65)) = 0.90672
	near("1 °C, low", cold.low, 0.90672e-10)
	near("1 °C, typical", cold.typical, 2.5*0.90672e-10)
	near("1 °C, high", cold.high, 4*0.90672e-10)
	fat := lean.throughFat(40)
	near("40 % fat, typical", fat.typical, 2.5e-10/1.8) // 1 ÷ (0.6 + 0.4 × 3)
	// ln 2.5 = 0.91629, ln (4.6 ÷ 1.8) = 0.93827; together 1.31146 down.
	near("40 % fat, low", fat.low, 2.5e-10/1.8*math.Exp(-1.31146))
	// ln 1.6 = 0.47000, ln (0.73333 × 1.8) = 0.27763; together 0.54588 up.
	near("40 % fat, high", fat.high, 2.5e-10/1.8*math.Exp(0.54588))
}
