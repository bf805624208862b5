package curemath

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func coolingOf(t *testing.T, key string, run CoolingRun) Cooling {
	t.Helper()
	rule, ok := CoolingRuleByKey(key)
	if !ok {
		t.Fatalf("no rule %q", key)
	}
	c, err := CheckCooling(rule, run)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func minutesIn(m float64) time.Time {
	return smokeDay.Add(time.Duration(m * float64(time.Minute)))
}

// Every published window: met at its time to the minute, missed a minute later.
// Sources: FSIS Appendix B (1999), options 1 and 2: found; cured: second-hand,
// not checked against the text; kitchen code: a military kitchen card from the
// Food Code. Check case C13 is the first row of "cured" and of "option-1".
func TestEveryCoolingWindow(t *testing.T) {
	rows := []struct {
		key      string
		window   int
		from, to Fahrenheit
		minutes  float64
	}{
		{CoolingCured, 0, 130, 80, 300},
		{CoolingCured, 1, 80, 45, 600},
		{CoolingOption1, 0, 130, 80, 90},
		{CoolingOption1, 1, 80, 40, 300},
		{CoolingOption2, 0, 120, 80, 60},
		{CoolingOption2, 1, 120, 55, 360},
		{CoolingKitchens, 0, 140, 70, 120},
		{CoolingKitchens, 1, 70, 41, 240},
	}
	for _, r := range rows {
		for _, c := range []struct {
			minutes float64
			state   WindowState
		}{{r.minutes, WindowMet}, {r.minutes + 1, WindowFailed}} {
			run := CoolingRun{Readings: core(0, float64(r.from), c.minutes, float64(r.to)), Now: minutesIn(c.minutes)}
			got := coolingOf(t, r.key, run).Windows[r.window]
			if got.Window.From != r.from || got.Window.To != r.to || got.State != c.state || !got.Sure {
				t.Errorf("%s %v to %v °F in %g min: %+v, want state %d", r.key, r.from, r.to, c.minutes, got, c.state)
			}
			if took := time.Duration(c.minutes * float64(time.Minute)); got.Took != took {
				t.Errorf("%s window %d took %v, want %v", r.key, r.window, got.Took, took)
			}
		}
	}
	for _, r := range CoolingRules() {
		for _, w := range r.Windows {
			found := false
			for _, row := range rows {
				found = found || (row.key == r.Key && row.from == w.From && row.to == w.To)
			}
			if !found {
				t.Errorf("window %+v of %s is not held to a source here", w, r.Key)
			}
		}
	}
}

func TestCoolingVerdicts(t *testing.T) {
	off := minutesIn(0)
	rows := []struct {
		name    string
		key     string
		run     CoolingRun
		verdict CoolingVerdict
	}{
		{"cured, all in time", CoolingCured, CoolingRun{Readings: core(0, 150, 60, 120, 200, 85, 240, 79, 700, 44), Now: minutesIn(700)}, CoolingPassed},
		{"cured, on the way", CoolingCured, CoolingRun{Readings: core(0, 150, 60, 120, 240, 79), Now: minutesIn(300)}, CoolingRunning},
		{"cured, second window missed", CoolingCured, CoolingRun{Readings: core(0, 150, 60, 120, 240, 79, 900, 50), Now: minutesIn(900)}, CoolingFailed},
		{"cured, not read when it was due", CoolingCured, CoolingRun{Readings: core(0, 150, 60, 120), Now: minutesIn(400)}, CoolingOverdue},
		{"first reading at 118 °F", CoolingCured, CoolingRun{Readings: core(0, 118, 100, 79, 600, 44), Now: minutesIn(600)}, CoolingUnproven},
		{"the same, heat off noted", CoolingCured, CoolingRun{Readings: core(30, 118, 100, 79, 600, 44), HeatOff: off, Now: minutesIn(600)}, CoolingPassed},
		{"the same, but off five hours before", CoolingCured, CoolingRun{Readings: core(290, 118, 310, 79, 600, 44), HeatOff: off, Now: minutesIn(600)}, CoolingFailed},
		{"cold smoke that never saw 130 °F", CoolingCured, CoolingRun{Readings: core(-60, 90, 0, 110, 100, 79, 600, 44), Now: minutesIn(600)}, CoolingPassed},
		{"uncured takes the short windows", CoolingOption1, CoolingRun{Readings: core(0, 150, 60, 120, 240, 79), Now: minutesIn(300)}, CoolingFailed},
		{"option 2, chilled at once", CoolingOption2, CoolingRun{Readings: core(0, 150, 40, 120, 60, 110, 90, 79, 300, 54), HeatOff: off, ChillStarted: minutesIn(20), Now: minutesIn(300)}, CoolingPassed},
		{"option 2, chilled after 91 min", CoolingOption2, CoolingRun{Readings: core(0, 150, 95, 119), HeatOff: off, ChillStarted: minutesIn(91), Now: minutesIn(96)}, CoolingFailed},
		{"option 2, end of heat not noted", CoolingOption2, CoolingRun{Readings: core(0, 150, 40, 120, 60, 110, 90, 79, 300, 54), ChillStarted: minutesIn(20), Now: minutesIn(300)}, CoolingUnproven},
		{"kitchen", CoolingKitchens, CoolingRun{Readings: core(0, 140, 110, 70, 300, 41), Now: minutesIn(300)}, CoolingPassed},
	}
	for _, r := range rows {
		got := coolingOf(t, r.key, r.run)
		if got.Verdict != r.verdict {
			t.Errorf("%s: verdict %d, want %d (%+v)\n%v", r.name, got.Verdict, r.verdict, got.Windows, got.Trail)
		}
		for _, s := range got.Trail {
			if s.Working == "" || s.Source.Status == 0 {
				t.Errorf("%s: step without working or source: %+v", r.name, s)
			}
		}
	}
}

// Between readings the cautious side is taken: our own choice, common practice, no
// source. The windows are those of FSIS Appendix B for cured meat, second-hand, not
// checked against the text.
func TestCoolingBetweenReadingsIsStrict(t *testing.T) {
	off := minutesIn(0)
	rows := []struct {
		name    string
		run     CoolingRun
		verdict CoolingVerdict
		remark  CoolingRemark
	}{
		// The straight line passes 130 °F only after 2 h 15 min and would leave 75 min.
		{"151 °F, then 95 °F after 6 h", CoolingRun{Readings: core(0, 151, 360, 95), HeatOff: off, Now: minutesIn(360)}, CoolingFailed, CoolingBetweenReadings},
		{"a reading shows it later", CoolingRun{Readings: core(0, 151, 100, 131, 360, 95), HeatOff: off, Now: minutesIn(360)}, CoolingRunning, 0},
		{"and is up in its turn", CoolingRun{Readings: core(0, 151, 100, 131, 401, 95), HeatOff: off, Now: minutesIn(401)}, CoolingFailed, CoolingBetweenReadings},
		{"still 81 °F at 5 h to the minute", CoolingRun{Readings: core(0, 151, 300, 81), HeatOff: off, Now: minutesIn(301)}, CoolingFailed, CoolingBetweenReadings},
		{"under 80 °F, first read after 6 h", CoolingRun{Readings: core(0, 151, 360, 75), HeatOff: off, Now: minutesIn(360)}, CoolingUnproven, CoolingReadLate},
		{"and cold in the end", CoolingRun{Readings: core(0, 151, 360, 75, 600, 44), HeatOff: off, Now: minutesIn(600)}, CoolingUnproven, CoolingReadLate},
		{"a second window missed after it", CoolingRun{Readings: core(0, 151, 360, 75, 1000, 50), HeatOff: off, Now: minutesIn(1000)}, CoolingFailed, CoolingReadLate},
		{"hot, then cold in the morning", CoolingRun{Readings: core(0, 151, 960, 38), HeatOff: off, Now: minutesIn(960)}, CoolingUnproven, CoolingReadLate},
		{"even the line is too slow", CoolingRun{Readings: core(0, 131, 299, 100, 400, 75), HeatOff: off, Now: minutesIn(400)}, CoolingFailed, CoolingBetweenReadings},
		{"hot, and not read for longer than the window", CoolingRun{Readings: core(0, 151), HeatOff: off, Now: minutesIn(301)}, CoolingOverdue, 0},
		{"hot still when read again", CoolingRun{Readings: core(0, 151, 302, 135), HeatOff: off, Now: minutesIn(302)}, CoolingRunning, 0},
		{"old row: 120 °F and 79 °F three hours apart", CoolingRun{Readings: core(0, 150, 60, 120, 240, 79, 700, 44), Now: minutesIn(700)}, CoolingUnproven, CoolingReadLate},
	}
	for _, r := range rows {
		got := coolingOf(t, CoolingCured, r.run)
		if got.Verdict != r.verdict || (r.remark != 0) != (len(got.Remarks) > 0) || r.remark != 0 && got.Remarks[0] != r.remark {
			t.Errorf("%s: verdict %d, remarks %v, want %d, %d\n%v", r.name, got.Verdict, got.Remarks, r.verdict, r.remark, got.Trail)
		}
	}
}

func TestTimeLeftInAWindow(t *testing.T) {
	run := CoolingRun{Readings: core(0, 150, 60, 130, 120, 110), Now: minutesIn(130)}
	w := coolingOf(t, CoolingCured, run).Windows[0]
	if w.State != WindowRunning || w.Left != 230*time.Minute || w.Deadline != minutesIn(360) || w.Start != minutesIn(60) {
		t.Errorf("%+v, want 3 h 50 min left", w)
	}
	// Passed between two readings: counted from the first of them (our own choice).
	run = CoolingRun{Readings: core(0, 140, 60, 110), Now: minutesIn(60)}
	if w := coolingOf(t, CoolingCured, run).Windows[0]; w.Start != minutesIn(0) || w.Left != 240*time.Minute {
		t.Errorf("%+v, want it counted from the reading of 140 °F", w)
	}
	// Hot when it left the smoke: from then.
	run = CoolingRun{Readings: core(-30, 151, 60, 110), HeatOff: minutesIn(0), Now: minutesIn(60)}
	if w := coolingOf(t, CoolingCured, run).Windows[0]; w.Start != minutesIn(0) {
		t.Errorf("%+v, want it counted from the end of the heat", w)
	}
	// Unread since, it may have come into the window the moment after.
	run = CoolingRun{Readings: core(-30, 151), HeatOff: minutesIn(0), Now: minutesIn(300)}
	if w := coolingOf(t, CoolingCured, run).Windows[0]; w.State != WindowAhead || w.Deadline != minutesIn(300) {
		t.Errorf("%+v, want it ahead until 5 h", w)
	}
	// A later reading must not be looked at.
	run = CoolingRun{Readings: core(0, 140, 60, 110, 90, 60), Now: minutesIn(60)}
	if w := coolingOf(t, CoolingCured, run).Windows[0]; w.State != WindowRunning {
		t.Errorf("a reading from after now was used: %+v", w)
	}
}

func TestCoolingRemarks(t *testing.T) {
	rows := []struct {
		name   string
		key    string
		run    CoolingRun
		remark CoolingRemark
	}{
		{"clean", CoolingCured, CoolingRun{Readings: core(0, 130, 300, 80), Now: minutesIn(301)}, 0},
		{"began too late", CoolingCured, CoolingRun{Readings: core(0, 118), Now: minutesIn(1)}, CoolingStartUnread},
		{"warmed again", CoolingCured, CoolingRun{Readings: core(0, 140, 60, 100, 90, 108), Now: minutesIn(90)}, CoolingRewarmed},
		{"coasting up after the fire", CoolingCured, CoolingRun{Readings: core(0, 140, 10, 145, 60, 100), HeatOff: minutesIn(0), Now: minutesIn(60)}, 0},
		{"between readings", CoolingCured, CoolingRun{Readings: core(0, 135, 60, 125, 310, 85), Now: minutesIn(360)}, CoolingBetweenReadings},
		{"read under it too late", CoolingCured, CoolingRun{Readings: core(0, 135, 60, 125, 240, 85, 310, 75), Now: minutesIn(360)}, CoolingReadLate},
		{"keep on to 40 °F", CoolingOption2, CoolingRun{Readings: core(0, 120, 59, 80, 300, 54), HeatOff: minutesIn(0), ChillStarted: minutesIn(5), Now: minutesIn(300)}, CoolingKeepOn},
	}
	for _, r := range rows {
		got := coolingOf(t, r.key, r.run).Remarks
		if (r.remark != 0) != (len(got) > 0) || (r.remark != 0 && got[0] != r.remark) {
			t.Errorf("%s: remarks %v, want %v", r.name, got, r.remark)
		}
	}
}

// A product is cured for the long windows from 100 ppm ingoing: from memory.
func TestCoolingRuleForADose(t *testing.T) {
	for ppm, want := range map[PPM]string{120: CoolingCured, 100: CoolingCured, 99.9: CoolingOption1, 0: CoolingOption1, PPM(math.NaN()): CoolingOption1} {
		if got := CoolingRuleFor(ppm).Key; got != want {
			t.Errorf("%v ppm: %s, want %s", float64(ppm), got, want)
		}
	}
	if _, ok := CoolingRuleByKey("no such rule"); ok {
		t.Error("an unknown key was found")
	}
}

// Newton's law of cooling, solved by hand, is the independent reference: with
// readings close together the windows take what the logarithm says, and at most the
// two gaps at their ends more: it is never counted short.
func TestWindowsAgainstNewtonsLaw(t *testing.T) {
	const room, from, rate = 34.0, 155.0, 0.006 // °F, °F, 1/min
	at := func(temp float64) float64 { return math.Log((from-room)/(temp-room)) / rate }
	var rs []CoreReading
	for m := 0.0; m <= 600; m += 2 {
		rs = append(rs, core(m, room+(from-room)*math.Exp(-rate*m))...)
	}
	for _, rule := range CoolingRules() {
		c, err := CheckCooling(rule, CoolingRun{Readings: rs, Now: minutesIn(600), HeatOff: minutesIn(0), ChillStarted: minutesIn(1)})
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range c.Windows {
			want := at(float64(w.Window.To)) - at(float64(w.Window.From))
			if got := w.Took.Minutes(); got < want || got > want+4 {
				t.Errorf("%s %v to %v: %.3f min, Newton %.3f", rule.Key, w.Window.From, w.Window.To, got, want)
			}
			if (want > w.Window.Within.Minutes()) != (w.State == WindowFailed) {
				t.Errorf("%s: state %d for %.1f min", rule.Key, w.State, want)
			}
		}
	}
}

func TestCoolingNeverRecoversAndNeverPanics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rs := drawCore(t)
		last := rs[len(rs)-1].At
		now := last.Add(time.Duration(rapid.Int64Range(0, int64(10*time.Hour)).Draw(t, "since")))
		later := now.Add(time.Duration(rapid.Int64Range(0, int64(20*time.Hour)).Draw(t, "more")))
		run := CoolingRun{Readings: rs, Now: now, HeatOff: rs[0].At}
		if rapid.Bool().Draw(t, "heat off unknown") {
			run.HeatOff = time.Time{}
		}
		for _, rule := range CoolingRules() {
			before, err := CheckCooling(rule, run)
			if err != nil {
				t.Fatal(err)
			}
			waited := run
			waited.Now = later
			after, _ := CheckCooling(rule, waited)
			if before.Verdict == CoolingFailed && after.Verdict != CoolingFailed {
				t.Fatalf("waiting undid a failure: %+v", after)
			}
			if before.Verdict != CoolingPassed && after.Verdict == CoolingPassed {
				t.Fatalf("waiting alone passed it: %+v", after)
			}
			for _, w := range after.Windows {
				if w.Took < 0 || w.Left < 0 {
					t.Fatalf("negative time: %+v", w)
				}
			}
		}
	})
}

func TestNoLaterReadingUndoesAFailedCooling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rs := drawCore(t)
		off := smokeDay.Add(time.Duration(rapid.Int64Range(0, int64(6*time.Hour)).Draw(t, "off")))
		n := rapid.IntRange(1, len(rs)).Draw(t, "read so far")
		now := rs[len(rs)-1].At.Add(time.Hour)
		for _, rule := range CoolingRules() {
			before, err := CheckCooling(rule, CoolingRun{Readings: rs[:n], HeatOff: off, Now: now})
			if err != nil {
				t.Fatal(err)
			}
			after, _ := CheckCooling(rule, CoolingRun{Readings: rs, HeatOff: off, Now: now})
			for i, w := range before.Windows {
				if w.State == WindowFailed && after.Windows[i].State != WindowFailed {
					t.Fatalf("%s: a later reading undid a failure: %+v, %+v", rule.Key, w, after.Windows[i])
				}
			}
		}
	})
}

func TestCoolingRefusesBadReadings(t *testing.T) {
	for _, rs := range [][]CoreReading{nil, core(0, math.NaN()), core(10, 100, 5, 90), core(5, 100, 5, 90), core(30, 100)} {
		_, err := CheckCooling(CoolingRuleFor(120), CoolingRun{Readings: rs, Now: minutesIn(20)})
		var bad ReadingError
		if !errors.As(err, &bad) {
			t.Errorf("%v: %v, want a ReadingError", rs, err)
		}
	}
}

func BenchmarkCheckCooling(b *testing.B) {
	rule := CoolingRuleFor(120)
	run := CoolingRun{Readings: core(0, 150, 60, 120, 120, 100, 240, 79, 400, 60, 700, 44), Now: minutesIn(700)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := CheckCooling(rule, run); err != nil {
			b.Fatal(err)
		}
	}
}
