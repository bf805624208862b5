package curemath

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// What a core warm again does to the verdict: our own choice, common practice, no
// source. The windows are those of FSIS Appendix B for cured meat, second-hand, not
// checked against the text.
func TestWarmAgain(t *testing.T) {
	off := minutesIn(0)
	rows := []struct {
		name    string
		rs      []CoreReading
		now     float64
		verdict CoolingVerdict
		left    time.Duration
	}{
		{"met, then 111 °F", core(0, 151, 240, 44, 300, 111), 300, CoolingFailed, 0},
		{"met, then 60 °F", core(0, 151, 240, 44, 300, 60), 300, CoolingWarmAgain, 5 * time.Hour},
		{"not read on", core(0, 151, 240, 44, 300, 60), 1000, CoolingWarmAgain, 0},
		{"met, then as far as thermometers differ", core(0, 151, 240, 44, 300, 48), 300, CoolingPassed, 0},
		{"a degree more", core(0, 151, 240, 44, 300, 49), 300, CoolingWarmAgain, 5 * time.Hour},
		{"cold again in time", core(0, 151, 240, 44, 300, 60, 400, 43), 400, CoolingPassed, 0},
		{"cold again, by what nobody read too late", core(0, 151, 240, 44, 300, 60, 900, 43), 900, CoolingUnproven, 0},
		{"read warm until its time was spent", core(0, 151, 240, 44, 300, 60, 660, 50), 660, CoolingFailed, 0},
		{"a minute less", core(0, 151, 240, 44, 300, 60, 659, 50), 659, CoolingWarmAgain, 0},
		{"two spells come together", core(0, 151, 240, 44, 300, 60, 480, 55, 500, 43, 520, 60, 700, 60), 700, CoolingFailed, 0},
		{"warm once, late: nobody saw for how long", core(0, 151, 240, 44, 1500, 60), 1500, CoolingWarmAgain, 0},
		{"under 80 °F, back at 110", core(0, 151, 200, 50, 320, 110), 320, CoolingFailed, 0},
		{"under 80 °F, back at 83", core(0, 151, 200, 79, 210, 83), 210, CoolingRunning, 0},
		{"back at 84", core(0, 151, 200, 79, 210, 84), 210, CoolingFailed, 0},
		{"and cold after it", core(0, 151, 200, 79, 210, 84, 300, 40), 300, CoolingFailed, 0},
		{"out at 78 °F, coasts to 88", core(0, 78, 10, 88), 10, CoolingRunning, 0},
	}
	for _, r := range rows {
		got := coolingOf(t, CoolingCured, CoolingRun{Readings: r.rs, HeatOff: off, Now: minutesIn(r.now)})
		if got.Verdict != r.verdict {
			t.Errorf("%s: verdict %d, want %d\n%v", r.name, got.Verdict, r.verdict, got.Trail)
		}
		if w := got.Windows[1]; r.verdict == CoolingWarmAgain && w.Left != r.left {
			t.Errorf("%s: %v left, want %v", r.name, w.Left, r.left)
		}
	}
}

// No cooling passes while its newest core is more than a few degrees over the end of
// the rule, or once it was back over the end of its first window.
func TestWarmIsNeverPassed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rs := drawCore(t)
		for _, rule := range CoolingRules() {
			c, err := CheckCooling(rule, CoolingRun{Readings: rs, HeatOff: rs[0].At, Now: rs[len(rs)-1].At})
			if err != nil {
				t.Fatal(err)
			}
			end := rule.Windows[len(rule.Windows)-1].To
			if newest := rs[len(rs)-1].Temp; newest > end+3 && c.Verdict == CoolingPassed {
				t.Fatalf("%s: passed at %v °F: %v", rule.Key, newest, rs)
			}
			first := rule.Windows[0].To
			down := slices.IndexFunc(rs, func(r CoreReading) bool { return r.Temp <= first })
			if down > 0 && slices.ContainsFunc(rs[down:], func(r CoreReading) bool { return r.Temp > first+3 }) && rs[down-1].Temp > first && c.Verdict != CoolingFailed {
				t.Fatalf("%s: back over %v °F and not failed: %v", rule.Key, first, rs)
			}
		}
	})
}
