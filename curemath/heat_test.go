package curemath

import (
	"errors"
	"math"
	"testing"
	"time"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// smokeDay is an arbitrary start: a Saturday morning at Quarry Lane.
var smokeDay = time.Date(2026, 10, 17, 6, 0, 0, 0, time.UTC)

// core makes readings from minutes and °F in turn.
func core(minutesAndTemps ...float64) []CoreReading {
	var out []CoreReading
	for i := 0; i < len(minutesAndTemps); i += 2 {
		out = append(out, CoreReading{
			At:   smokeDay.Add(time.Duration(minutesAndTemps[i] * float64(time.Minute))),
			Temp: Fahrenheit(minutesAndTemps[i+1]),
		})
	}
	return out
}

func heatOf(t *testing.T, rs []CoreReading) Heat {
	t.Helper()
	h, err := HeatSoFar(rs)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// holdFor is a core held at a temperature, read every 20 minutes.
func holdFor(temp Fahrenheit, d time.Duration) []CoreReading {
	var out []CoreReading
	for at := time.Duration(0); at < d; at += 20 * time.Minute {
		out = append(out, CoreReading{smokeDay.Add(at), temp})
	}
	return append(out, CoreReading{smokeDay.Add(d), temp})
}

// publishedHolding is FSIS Appendix A (1999), time–temperature table for beef,
// typed again from the source in seconds: °F, 6.5-log, 7-log.
var publishedHolding = [][3]int{
	{130, 112 * 60, 121 * 60}, {131, 89 * 60, 97 * 60}, {132, 71 * 60, 77 * 60},
	{133, 56 * 60, 62 * 60}, {134, 45 * 60, 47 * 60}, {135, 36 * 60, 37 * 60},
	{136, 28 * 60, 32 * 60}, {137, 23 * 60, 24 * 60}, {138, 18 * 60, 19 * 60},
	{139, 15 * 60, 15 * 60}, {140, 12 * 60, 12 * 60}, {141, 9 * 60, 10 * 60},
	{142, 8 * 60, 8 * 60}, {143, 6 * 60, 6 * 60}, {144, 5 * 60, 5 * 60},
	{145, 4 * 60, 4 * 60}, {146, 169, 182}, {147, 134, 144}, {148, 107, 115},
	{149, 85, 91}, {150, 67, 72}, {151, 54, 58}, {152, 43, 46}, {153, 34, 37},
	{154, 27, 29}, {155, 22, 23}, {156, 17, 19}, {157, 14, 15},
	{158, 0, 0}, {159, 0, 0}, {160, 0, 0},
}

// Every row, both columns: met at its time, not met a second short of it, and
// not met for its time half a degree under.
func TestEveryRowOfTheHoldingTable(t *testing.T) {
	table := LethalityTable()
	if got := len(table[:]); got != len(publishedHolding) {
		t.Fatalf("%d rows, want %d", got, len(publishedHolding))
	}
	columns := []struct {
		name string
		pick func(Heat) TableHeat
		at   int
	}{
		{"6.5-log", func(h Heat) TableHeat { return h.Table6_5 }, 1},
		{"7-log", func(h Heat) TableHeat { return h.Table7 }, 2},
	}
	for _, row := range publishedHolding {
		temp := Fahrenheit(row[0])
		for _, c := range columns {
			needed := time.Duration(row[c.at]) * time.Second
			if needed == 0 {
				if got := c.pick(heatOf(t, core(0, float64(temp)))); !got.Met {
					t.Errorf("%s at %v °F: at once, not met", c.name, temp)
				}
				continue
			}
			if got := c.pick(heatOf(t, holdFor(temp, needed))); !got.Met || got.MetAt != smokeDay.Add(needed) {
				t.Errorf("%s at %v °F for %v: not met (%+v)", c.name, temp, needed, got)
			}
			short := c.pick(heatOf(t, holdFor(temp, needed-time.Second)))
			if short.Met || short.Missing != time.Second || short.Row != temp {
				t.Errorf("%s at %v °F a second short of %v: %+v", c.name, temp, needed, short)
			}
			// Between rows the lower row's time counts, and nothing under 130 °F.
			under := c.pick(heatOf(t, holdFor(temp-0.5, needed)))
			longer := temp > 130 && needed >= time.Duration(publishedHolding[row[0]-131][c.at])*time.Second
			if under.Met != longer {
				t.Errorf("%s at %v °F for %v: met %v", c.name, temp-0.5, needed, under.Met)
			}
		}
	}
}

// Check cases C11 and C12, from the published table and the consumer rule.
func TestHoldingCheckCases(t *testing.T) {
	rows := []struct {
		name            string
		readings        []CoreReading
		table, consumer bool
		row             Fahrenheit
		missing         time.Duration
	}{
		{"145 °F for 4 min", core(0, 145, 4, 145), true, true, 145, 0},
		{"145 °F for 3 min", core(0, 145, 3, 145), false, true, 145, time.Minute},
		{"140 °F for 12 min", core(0, 140, 12, 140), true, false, 140, 0},
		{"140 °F for 11 min", core(0, 140, 11, 140), false, false, 140, time.Minute},
		{"139.5 °F for 12 min uses the 139 °F row", core(0, 139.5, 12, 139.5), false, false, 139, 3 * time.Minute},
		{"139.5 °F for 15 min", core(0, 139.5, 15, 139.5), true, false, 139, 0},
	}
	for _, r := range rows {
		h := heatOf(t, r.readings)
		if h.Table6_5.Met != r.table || h.Table6_5.Row != r.row || h.Table6_5.Missing != r.missing {
			t.Errorf("%s: table %+v", r.name, h.Table6_5)
		}
		if h.Consumer.Met != r.consumer {
			t.Errorf("%s: consumer rule %+v", r.name, h.Consumer)
		}
	}
}

func TestHeatOfASmokeDay(t *testing.T) {
	// A slow rise to 150 °F, held: readings every half hour.
	h := heatOf(t, core(0, 45, 60, 80, 120, 105, 180, 122, 240, 131, 300, 138, 330, 144, 360, 150, 364, 150))
	if !h.Table6_5.Met || h.Table6_5.Row > 150 {
		t.Errorf("6.5-log: %+v", h.Table6_5)
	}
	if !h.Consumer.Met || h.Home.Reached || h.Home.Missing != 0 {
		t.Errorf("consumer %+v, home %+v", h.Consumer, h.Home)
	}
	// 50 °F after 60 × 5/35 min, 130 °F after 180 + 60 × 8/9 min.
	minutes := 180 + 60*8.0/9 - 60*5.0/35
	want := time.Duration(minutes * float64(time.Minute))
	if d := h.ComeUp.Took - want; h.ComeUp.State != ComeUpMet || d.Abs() > 2*time.Millisecond {
		t.Errorf("come-up %+v, want %v", h.ComeUp, want)
	}
	if len(h.Remarks) != 0 {
		t.Errorf("remarks %v", h.Remarks)
	}
	for _, s := range h.Trail {
		if s.Working == "" || s.Source.Status == 0 {
			t.Errorf("step without working or source: %+v", s)
		}
	}
}

func TestHeatSaysWhatReadingsCannotShow(t *testing.T) {
	rows := []struct {
		name     string
		readings []CoreReading
		remark   HeatRemark
		met      bool
	}{
		{"one reading", core(0, 150), HeatOneReading, false},
		{"one hot reading after a cold one", core(0, 60, 60, 165), HeatOneReading, true},
		{"two hours unseen at 150 °F", core(0, 150, 120, 150), HeatLongGap, false},
		{"an hour is still seen", core(0, 150, 60, 150), 0, true},
		{"never in the table", core(0, 60, 60, 129.9, 120, 129.9), HeatBelowTable, false},
	}
	for _, r := range rows {
		h := heatOf(t, r.readings)
		if h.Table6_5.Met != r.met {
			t.Errorf("%s: met %v", r.name, h.Table6_5.Met)
		}
		if (r.remark != 0) != (len(h.Remarks) > 0) || (r.remark != 0 && h.Remarks[0] != r.remark) {
			t.Errorf("%s: remarks %v, want %v", r.name, h.Remarks, r.remark)
		}
	}
	// Broken holds do not add up: twice two minutes at 145 °F is not four.
	if h := heatOf(t, core(0, 145, 2, 145, 3, 129, 4, 145, 6, 145)); h.Table6_5.Met || h.Consumer.Met {
		t.Errorf("a broken hold counted: %+v", h.Table6_5)
	}
	// Now under 130 °F: the table can promise no time.
	if h := heatOf(t, core(0, 145, 2, 145, 30, 120)); h.Table6_5.Row != 0 || h.Estimate.Holding {
		t.Errorf("under 130 °F now: %+v", h.Table6_5)
	}
}

func TestComeUp(t *testing.T) {
	rows := []struct {
		name     string
		readings []CoreReading
		state    ComeUpState
		took     time.Duration
	}{
		{"cold", core(0, 38, 30, 45), ComeUpNotBegun, 0},
		{"on the way", core(0, 50, 60, 90), ComeUpRunning, time.Hour},
		{"6 h exactly", core(0, 50, 360, 130), ComeUpMet, 6 * time.Hour},
		{"6 h 1 min", core(0, 50, 361, 130), ComeUpOver, 361 * time.Minute},
		{"still under after 7 h", core(0, 50, 420, 120), ComeUpOver, 7 * time.Hour},
		{"start not read", core(0, 70, 60, 131), ComeUpUnknown, 60 * time.Hour / 61},
		{"start not read, too long anyway", core(0, 70, 400, 130), ComeUpOver, 400 * time.Minute},
	}
	for _, r := range rows {
		got := heatOf(t, r.readings).ComeUp
		if got.State != r.state || (got.Took-r.took).Abs() > time.Millisecond {
			t.Errorf("%s: state %d, took %v; want %d, %v", r.name, got.State, got.Took, r.state, r.took)
		}
	}
}

// The constants of the estimate come out of the published rows: z by a straight
// line through log10(time), and no row credited with more than it prints.
func TestEstimateConstantsComeFromTheTable(t *testing.T) {
	for column, logs := range map[int]float64{1: 6.5, 2: 7} {
		var temps, logTimes []float64
		for _, row := range publishedHolding {
			if row[column] > 0 {
				temps = append(temps, float64(row[0]))
				logTimes = append(logTimes, math.Log10(float64(row[column])))
			}
		}
		intercept, slope := stat.LinearRegression(temps, logTimes, nil, false)
		if z := -1 / slope; math.Abs(z-lethalityZ) > 0.03 {
			t.Errorf("z of the %g-log column is %.3f °F", logs, z)
		}
		if logs == 6.5 {
			d := math.Pow(10, intercept+slope*float64(lethalityReference)) / logs
			if math.Abs(d-decimalTime.Seconds()) > 0.5 {
				t.Errorf("one log at 140 °F on that line is %.1f s, want %v", d, decimalTime)
			}
		}
		for _, row := range publishedHolding {
			if row[column] == 0 {
				continue
			}
			h := heatOf(t, holdFor(Fahrenheit(row[0]), time.Duration(row[column])*time.Second))
			if h.Estimate.Cautious > logs+0.001 || h.Estimate.Cautious < 0.83*logs {
				t.Errorf("%d °F for its printed time: cautious %.3f logs, printed %g", row[0], h.Estimate.Cautious, logs)
			}
		}
	}
}

// The exact integral against gonum's quadrature of the piecewise rate.
func TestEstimateAgainstQuadrature(t *testing.T) {
	rs := core(0, 120, 40, 133.5, 75, 141, 100, 141, 130, 156, 150, 163, 170, 149, 200, 126)
	want := 0.0
	for i := 1; i < len(rs); i++ {
		a, b := rs[i-1], rs[i]
		length := b.At.Sub(a.At).Seconds()
		want += quad.Fixed(func(x float64) float64 {
			temp := float64(a.Temp) + (float64(b.Temp-a.Temp))*x/length
			if temp < 130 {
				return 0
			}
			return math.Pow(10, (math.Min(temp, 158)-140)/10)
		}, 0, length, 4000, quad.Legendre{}, 0)
	}
	got := estimateLethality(rs).AtReference.Seconds()
	if math.Abs(got-want) > 1e-3*want {
		t.Errorf("%.2f s at 140 °F, quadrature %.2f", got, want)
	}
}

func TestMoreHeatNeverLowersLethality(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rs := drawCore(t)
		before, err := HeatSoFar(rs)
		if err != nil {
			t.Fatal(err)
		}
		warmer := append([]CoreReading(nil), rs...)
		i := rapid.IntRange(0, len(rs)-1).Draw(t, "which")
		warmer[i].Temp = min(250, warmer[i].Temp+Fahrenheit(rapid.Float64Range(0, 30).Draw(t, "warmer")))
		hotter, _ := HeatSoFar(warmer)
		longer, _ := HeatSoFar(append(append([]CoreReading(nil), rs...), CoreReading{
			At:   rs[len(rs)-1].At.Add(time.Duration(rapid.Int64Range(1, int64(2*time.Hour)).Draw(t, "later"))),
			Temp: Fahrenheit(rapid.Float64Range(35, 170).Draw(t, "next")),
		}))
		for _, after := range []Heat{hotter, longer} {
			if after.Estimate.Logs < before.Estimate.Logs-1e-4 || // crossings are kept to the millisecond
				(before.Table6_5.Met && !after.Table6_5.Met) ||
				(before.Table7.Met && !after.Table7.Met) || (before.Consumer.Met && !after.Consumer.Met) {
				t.Fatalf("lethality fell: %+v then %+v", before, after)
			}
			if after.Table7.Met && !after.Table6_5.Met {
				t.Fatal("7-log met without 6.5-log")
			}
		}
	})
}

func drawCore(t *rapid.T) []CoreReading {
	at := smokeDay
	var out []CoreReading
	for range rapid.IntRange(1, 12).Draw(t, "readings") {
		at = at.Add(time.Duration(rapid.Int64Range(1, int64(90*time.Minute)).Draw(t, "gap")))
		out = append(out, CoreReading{at, Fahrenheit(rapid.Float64Range(35, 170).Draw(t, "temp"))})
	}
	return out
}

func TestReadingsThatCannotBeUsed(t *testing.T) {
	rows := []struct {
		name     string
		readings []CoreReading
		kind     ReadingErrorKind
	}{
		{"none", nil, ReadingsNone},
		{"not a number", core(0, 100, 10, math.NaN()), ReadingNotANumber},
		{"endless", core(0, math.Inf(1)), ReadingNotANumber},
		{"1480 °F", core(0, 1480), ReadingImplausible},
		{"out of order", core(10, 100, 0, 90), ReadingsUnordered},
		{"twice the same time", core(10, 100, 10, 90), ReadingsSameTime},
	}
	for _, r := range rows {
		_, heatErr := HeatSoFar(r.readings)
		_, dangerErr := DangerZone(r.readings, smokeDay.Add(time.Hour))
		for _, err := range []error{heatErr, dangerErr} {
			var bad ReadingError
			if !errors.As(err, &bad) || bad.Kind != r.kind {
				t.Errorf("%s: %v, want kind %d", r.name, err, r.kind)
			}
		}
	}
}

// 40–140 °F is the danger zone (NCHFP 6.1.3).
func TestDangerZone(t *testing.T) {
	rows := []struct {
		name          string
		readings      []CoreReading
		now           float64
		shown, unread time.Duration
		inside        bool
	}{
		{"through the whole zone", core(0, 38, 60, 148), 60, time.Hour * 100 / 110, 0, false},
		{"fridge cold", core(0, 36, 600, 40), 700, 0, 0, false},
		{"held at 140 °F", core(0, 140, 60, 140), 60, 0, 0, false},
		{"held at 139.9 °F", core(0, 139.9, 60, 139.9), 90, time.Hour, 30 * time.Minute, true},
		{"up and down", core(0, 40, 60, 140, 120, 160, 180, 120), 180, time.Hour + 30*time.Minute, 0, true},
		{"later readings are not looked at", core(0, 40, 60, 100, 120, 139), 60, time.Hour, 0, true},
	}
	for _, r := range rows {
		d, err := DangerZone(r.readings, smokeDay.Add(time.Duration(r.now*float64(time.Minute))))
		if err != nil || (d.Shown-r.shown).Abs() > 2*time.Millisecond || d.Unread != r.unread || d.Inside != r.inside {
			t.Errorf("%s: %+v (%v), want %v and %v unread, inside %v", r.name, d, err, r.shown, r.unread, r.inside)
		}
	}
	if _, err := DangerZone(core(10, 100), smokeDay); err == nil {
		t.Error("readings all after now were used")
	}
}

func BenchmarkHeatSoFar(b *testing.B) {
	var rs []CoreReading
	for i := range 60 {
		rs = append(rs, CoreReading{smokeDay.Add(time.Duration(i) * 20 * time.Minute), Fahrenheit(40 + 1.9*float64(i))})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := HeatSoFar(rs); err != nil {
			b.Fatal(err)
		}
	}
}
