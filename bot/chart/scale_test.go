package chart

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

func labels(t *testing.T, style Style, start, end string) string {
	t.Helper()
	d := smokeDay{page: &page{style: style}, scale: timeScale{style: style}}
	for _, p := range []struct {
		at *time.Time
		s  string
	}{{&d.scale.start, start}, {&d.scale.end, end}} {
		v, err := time.ParseInLocation("2006-01-02 15:04", p.s, style.local(time.Time{}).Location())
		if err != nil {
			t.Fatal(err)
		}
		*p.at = v
	}
	d.latest = d.scale.end
	var out []string
	for _, tick := range d.clockTicks() {
		out = append(out, strings.ReplaceAll(strings.TrimRight(tick.Label, "\n "), "\n", "/"))
	}
	return strings.Join(out, " ")
}

// Changes of the clock: IANA time zone data (Berlin back at 03:00 on 26 October
// 2025 and forward at 02:00 on 30 March 2025; Havana forward at midnight on
// 9 March 2025).
func TestClockTicks(t *testing.T) {
	for _, c := range []struct{ name, zone, start, end, want string }{
		{"an afternoon", "Europe/Berlin", "2025-03-14 12:10", "2025-03-14 17:30", "13:00 14:00 15:00 16:00 17:00"},
		{"over midnight", "Europe/Berlin", "2025-03-14 16:10", "2025-03-15 13:00", "18:00/Fri 14 21:00 00:00/Sat 15 03:00 06:00 09:00 12:00"},
		{"clocks go back", "Europe/Berlin", "2025-10-25 22:00", "2025-10-26 07:00", "22:00 00:00/Sun 26 02:00 04:00 06:00"},
		{"clocks go forward", "Europe/Berlin", "2025-03-29 23:00", "2025-03-30 05:00", "23:00 00:00/Sun 30 01:00 03:00 04:00 05:00"},
		{"a day that begins at one", "America/Havana", "2025-03-08 22:00", "2025-03-09 03:00", "22:00/Sat 8 23:00 01:00/Sun 9 02:00 03:00"},
		{"a quarter of an hour", "Europe/Berlin", "2025-03-14 12:03", "2025-03-14 12:17", "12:04 12:06 12:08 12:10 12:12 12:14 12:16"},
		{"five days", "Europe/Berlin", "2025-03-14 12:00", "2025-03-19 12:00", "Sat/15 Mar Sun/16 Mar Mon/17 Mar Tue/18 Mar Wed/19 Mar"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := labels(t, Style{Zone: zone(t, c.zone)}, c.start, c.end); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
	if got, want := labels(t, Style{Clock12: true}, "2025-03-14 21:30", "2025-03-15 03:00"), "10 pm/Fri 14 11 pm 12 am/Sat 15 1 am 2 am 3 am"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestTicksKeepOrderAndNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Unix(rapid.Int64Range(-1e9, 4e9).Draw(t, "start"), 0)
		span := time.Duration(rapid.Int64Range(int64(20*time.Minute), int64(90*24*time.Hour)).Draw(t, "span"))
		s := timeScale{style: oddStyle().Draw(t, "style"), start: start, end: start.Add(span)}
		const most = 7
		ticks := s.ticks(most)
		if len(ticks) > most+1 {
			t.Fatalf("%d ticks over %v", len(ticks), span)
		}
		for i, k := range ticks {
			if k.at.Before(s.start) || k.at.After(s.end) || i > 0 && !k.at.After(ticks[i-1].at) {
				t.Fatalf("tick %d at %v, between %v and %v", i, k.at, s.start, s.end)
			}
		}
	})
}

func TestNumberTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      string
	}{
		{0, 38, 8, "0 5 10 15 20 25 30 35"},
		{0, 2, 8, "0.00 0.25 0.50 0.75 1.00 1.25 1.50 1.75 2.00"},
		{32.5, 195, 9, "40 60 80 100 120 140 160 180"},
		{-12, 13, 6, "−10 −5 0 5 10"},
	} {
		var got []string
		for _, k := range numberTicks(c.low, c.high, c.most) {
			got = append(got, k.Label)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%g to %g: got %s, want %s", c.low, c.high, s, c.want)
		}
	}
}

func TestThinKeepsEndsAndPeaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Date(2025, 3, 14, 6, 0, 0, 0, time.UTC)
		n := rapid.IntRange(1, 400).Draw(t, "n")
		var in []Reading
		for i := range n {
			in = append(in, Reading{start.Add(time.Duration(i) * time.Minute), curemath.Celsius(rapid.Float64Range(0, 80).Draw(t, "temp"))})
		}
		most := rapid.IntRange(4, 100).Draw(t, "most")
		out := thin(in, most)
		if len(out) > max(most, 4) {
			t.Fatalf("%d readings left, wanted %d at most", len(out), most)
		}
		if out[0] != in[0] || out[len(out)-1] != in[n-1] {
			t.Fatal("an end was lost")
		}
		byTemp := func(a, b Reading) int { return int(math.Copysign(1, float64(a.Temp-b.Temp))) }
		if slices.MaxFunc(in, byTemp).Temp != slices.MaxFunc(out, byTemp).Temp || slices.MinFunc(in, byTemp).Temp != slices.MinFunc(out, byTemp).Temp {
			t.Fatal("the highest or lowest reading was lost")
		}
		if !slices.IsSortedFunc(out, func(a, b Reading) int { return a.At.Compare(b.At) }) {
			t.Fatal("out of order")
		}
	})
}

func TestTidy(t *testing.T) {
	at := func(m int) time.Time { return time.Date(2025, 3, 14, 6, m, 0, 0, time.UTC) }
	got := tidy([]Reading{{at(9), 30}, {at(1), 10}, {time.Time{}, 50}, {at(5), curemath.Celsius(math.NaN())}, {at(6), 9000}, {at(9), 31}, {at(7), curemath.Celsius(math.Inf(-1))}})
	want := []Reading{{at(1), 10}, {at(9), 31}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestSpreadOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Float64Range(-50, 250), 1, 40).Draw(t, "want")
		gap := rapid.Float64Range(0, 40).Draw(t, "gap")
		got := spreadOut(want, gap, 0, 200)
		order := make([]int, len(want))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return int(math.Copysign(1, want[a]-want[b])) })
		least := gap
		if len(want) > 1 {
			least = min(gap, 200/float64(len(want)-1))
		}
		sorted := slices.Clone(got)
		slices.Sort(sorted)
		for i, v := range sorted {
			if v < -1e-6 || v > 200+1e-6 || i > 0 && v-sorted[i-1] < least-1e-6 {
				t.Fatalf("places %v, gap %g", sorted, gap)
			}
		}
	})
}

// The colours of curves and alarms against the page, and lettering on fills:
// W3C, Web Content Accessibility Guidelines 2.1, contrast ratio, 3:1 for graphics
// and large text, 4.5:1 for text; formula and limits from memory.
func TestContrast(t *testing.T) {
	luminance := func(c color.RGBA) float64 {
		f := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
	}
	ratio := func(a, b color.RGBA) float64 {
		x, y := luminance(a), luminance(b)
		return (max(x, y) + 0.05) / (min(x, y) + 0.05)
	}
	if r := ratio(color.RGBA{255, 255, 255, 255}, color.RGBA{0, 0, 0, 255}); math.Abs(r-21) > 0.01 {
		t.Fatalf("black on white is %.2f, want 21", r)
	}
	for _, dark := range []bool{false, true} {
		k := Style{Dark: dark}.inks()
		for i, c := range append(slices.Clone(k.curves), k.alarm, k.good) {
			if r := ratio(c, k.paper); r < 3 {
				t.Errorf("dark %v: curve colour %d has contrast %.2f", dark, i, r)
			}
		}
		for _, c := range []color.RGBA{k.text, k.muted} {
			if r := min(ratio(c, k.paper), ratio(c, k.panel)); r < 4.5 {
				t.Errorf("dark %v: text %v has contrast %.2f", dark, c, r)
			}
		}
		for i, c := range k.fills {
			if r := ratio(k.onFill, c); r < 4.5 {
				t.Errorf("dark %v: lettering on fill %d has contrast %.2f", dark, i, r)
			}
			if r := ratio(k.text, mix(c, k.paper, 0.35)); r < 4.5 {
				t.Errorf("dark %v: lettering on planned fill %d has contrast %.2f", dark, i, r)
			}
		}
	}
}

func TestNoTwoCurvesLookAlike(t *testing.T) {
	for _, dark := range []bool{false, true} {
		k := Style{Dark: dark}.inks()
		seen := map[string]int{}
		for i := range mostPieces {
			s := k.curve(i)
			id := fmt.Sprint(s.colour, s.dash)
			if j, ok := seen[id]; ok {
				t.Errorf("dark %v: pieces %d and %d are drawn alike", dark, j, i)
			}
			seen[id] = i
		}
	}
}
