package chart

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// Odd data of every kind a chat can bring: the only promise is a picture of the
// right size that can be drawn.

func oddTime() *rapid.Generator[time.Time] {
	base := time.Date(2025, 10, 25, 20, 0, 0, 0, time.UTC) // the clocks go back that night
	return rapid.Custom(func(t *rapid.T) time.Time {
		switch rapid.IntRange(0, 12).Draw(t, "kind") {
		case 0:
			return time.Time{}
		case 1:
			return time.Unix(rapid.Int64Range(-1<<40, 1<<40).Draw(t, "any"), 0)
		case 2:
			return base
		default:
			return base.Add(time.Duration(rapid.IntRange(-2000, 4000).Draw(t, "minutes")) * time.Minute)
		}
	})
}

func oddNumber(low, high float64) *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64Range(low, high), rapid.Float64Range(low, high), rapid.Float64Range(low, high),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), 1e300, -1e300, 5e-324}))
}

func oddName() *rapid.Generator[string] {
	return rapid.OneOf(rapid.SampledFrom([]string{
		"", "juniper", "קפה וצ'ילי 12", "فلفل أسود", "🐖🔥", "蜂蜜", "a\u202Eb", "\xff\xfe", "\x00", "Žofie’s ½ in. belly",
		strings.Repeat("a very long name ", 40), strings.Repeat("w", 900), strings.Repeat("a\u0301\u0323", 300), "line\nbreak",
	}), rapid.String())
}

func oddReadings() *rapid.Generator[[]Reading] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Reading {
		return Reading{oddTime().Draw(t, "at"), curemath.Celsius(oddNumber(-30, 120).Draw(t, "temp"))}
	}), 0, 30)
}

func oddStyle() *rapid.Generator[Style] {
	return rapid.Custom(func(t *rapid.T) Style {
		s := Style{Dark: rapid.Bool().Draw(t, "dark"), Fahrenheit: rapid.Bool().Draw(t, "f"), Inches: rapid.Bool().Draw(t, "in"), Clock12: rapid.Bool().Draw(t, "12")}
		if name := rapid.SampledFrom([]string{"", "Europe/Berlin", "America/Havana", "Pacific/Apia", "Asia/Kathmandu"}).Draw(t, "zone"); name != "" {
			s.Zone, _ = time.LoadLocation(name)
		}
		return s
	})
}

func oddSmoke() *rapid.Generator[SmokeData] {
	return rapid.Custom(func(t *rapid.T) SmokeData {
		return SmokeData{
			Batch: rapid.Int().Draw(t, "batch"), Flavour: oddName().Draw(t, "flavour"), Pit: oddReadings().Draw(t, "pit"),
			Target:  curemath.Celsius(oddNumber(-10, 100).Draw(t, "target")),
			Ceiling: curemath.Celsius(oddNumber(-10, 100).Draw(t, "ceiling")),
			Share:   curemath.Percent(oddNumber(0, 100).Draw(t, "share")),
			Pieces: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) SmokePiece {
				return SmokePiece{Ref: oddName().Draw(t, "ref"), Name: oddName().Draw(t, "name"), Core: oddReadings().Draw(t, "core"),
					Finish: Finish{oddTime().Draw(t, "low"), oddTime().Draw(t, "typical"), oddTime().Draw(t, "high")}}
			}), 0, 30).Draw(t, "pieces"),
			Events: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Event {
				return Event{Kind: EventKind(rapid.IntRange(-1, 9).Draw(t, "kind")), At: oddTime().Draw(t, "at"), Until: oddTime().Draw(t, "until"), Note: oddName().Draw(t, "note")}
			}), 0, 12).Draw(t, "events"),
		}
	})
}

func checkDrawn(t *rapid.T, p *page, err error) {
	if err != nil {
		t.Fatalf("not drawn: %v", err)
	}
	b := p.canvas.Image().Bounds()
	if b.Dx() != int(pageWidth) || b.Dy() < 150 || b.Dy() > 4000 {
		t.Fatalf("picture of %d by %d pixels", b.Dx(), b.Dy())
	}
}

func TestOddSmoke(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := drawSmoke(oddSmoke().Draw(t, "data"), oddStyle().Draw(t, "style"))
		checkDrawn(t, p, err)
	})
}

func TestOddProgress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := ProgressData{
			Batch: rapid.Int().Draw(t, "batch"), Flavour: oddName().Draw(t, "flavour"), Piece: oddName().Draw(t, "piece"),
			Thickness: curemath.Millimetres(oddNumber(-5, 200).Draw(t, "mm")), RindOn: rapid.Bool().Draw(t, "rind"), Today: rapid.Int().Draw(t, "today"),
			Profiles: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Profile {
				return Profile{Day: rapid.Int().Draw(t, "day"), Share: rapid.SliceOfN(oddNumber(-1, 4), 0, 50).Draw(t, "share")}
			}), 0, 9).Draw(t, "profiles"),
			Slowest: Slowest{oddNumber(-1, 3).Draw(t, "low"), oddNumber(-1, 3).Draw(t, "typical"), oddNumber(-1, 3).Draw(t, "high")},
		}
		p, err := drawProgress(d, oddStyle().Draw(t, "style"))
		checkDrawn(t, p, err)
	})
}

func TestOddCalendar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := CalendarData{Now: oddTime().Draw(t, "now"), Rows: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) CalendarRow {
			return CalendarRow{Batch: rapid.Int().Draw(t, "batch"), Flavour: oddName().Draw(t, "flavour"),
				Next: Due{oddName().Draw(t, "what"), oddTime().Draw(t, "at")},
				Spans: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Span {
					return Span{Stage(rapid.IntRange(-1, 7).Draw(t, "stage")), oddTime().Draw(t, "from"), oddTime().Draw(t, "to")}
				}), 0, 6).Draw(t, "spans")}
		}), 0, 25).Draw(t, "rows")}
		p, err := drawCalendar(d, oddStyle().Draw(t, "style"))
		checkDrawn(t, p, err)
	})
}

func TestOddSummary(t *testing.T) {
	fact := rapid.Custom(func(t *rapid.T) Fact {
		return Fact{oddName().Draw(t, "label"), oddName().Draw(t, "value"), Verdict(rapid.IntRange(-1, 5).Draw(t, "verdict"))}
	})
	rapid.Check(t, func(t *rapid.T) {
		d := SummaryData{
			Batch: rapid.Int().Draw(t, "batch"), Flavour: oddName().Draw(t, "flavour"), Under: oddName().Draw(t, "under"), Caution: oddName().Draw(t, "caution"),
			Tiles: rapid.SliceOfN(fact, 0, 9).Draw(t, "tiles"), Notes: rapid.SliceOfN(oddName(), 0, 9).Draw(t, "notes"),
			Sections: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Section {
				return Section{oddName().Draw(t, "title"), rapid.SliceOfN(fact, 0, 20).Draw(t, "facts")}
			}), 0, 12).Draw(t, "sections"),
			Curve: SmokeData{Pit: oddReadings().Draw(t, "pit"), Target: curemath.Celsius(oddNumber(0, 90).Draw(t, "target"))},
		}
		p, err := drawSummary(d, oddStyle().Draw(t, "style"))
		checkDrawn(t, p, err)
	})
}

// noisyPit is the heaviest picture there can be: 26 pieces of 10,000 readings
// each, all noise.
func noisyPit(t testing.TB) SmokeData {
	d := fullPit(t)
	start := berlin(t, 5, 0)
	d.Pit = pit(start, 28*time.Hour, 10*time.Second, 68, 8)
	for i := range d.Pieces {
		d.Pieces[i].Core = pit(start, 28*time.Hour, 10*time.Second, 20+float64(i), 9)
	}
	return d
}

func namedOddly(t testing.TB) SmokeData {
	d := fullPit(t)
	d.Flavour = "פלפל שחור 🐖 ודבש"
	d.Pieces = d.Pieces[:8]
	for i, n := range []string{"קפה 12 וצ'ילי", "فلفل أسود وعسل", "蜂蜜と胡椒", "🐖🔥🥓", strings.Repeat("very long name ", 9), "Žofie’s ½ in. belly", "медовая грудинка", ""} {
		d.Pieces[i].Name = n
	}
	d.Events = append(d.Events[:3], Event{Kind: Noted, At: d.Events[4].At, Note: "הוספתי מים"})
	return d
}

func cardOfOddNames(t testing.TB) SummaryData {
	d := finished(t)
	d.Flavour, d.Under = "فلفل أسود", "🐖 Žofie · קפה · 蜂蜜"
	d.Notes = []string{"טעים מאוד, קצת מלוח בקצה הדק אבל העשן מצוין ובפעם הבאה פחות מלח ויותר דבש 12", "لذيذ جدا والدخان خفيف 🐖", strings.Repeat("so good ", 60)}
	d.Tiles = append(d.Tiles, Fact{"a label that is far too long for its box", "1234567890123", Failed})
	return d
}

func TestPicturesStayLight(t *testing.T) {
	if raceOn {
		t.Skip("pictures are drawn by one goroutine and take long under the race detector; the run without it draws them")
	}
	many := CalendarData{Now: berlin(t, 14, 0)}
	for i := range 40 {
		r := running(t).Rows[i%5]
		r.Batch = i
		many.Rows = append(many.Rows, r)
	}
	long := finished(t)
	for range 40 {
		long.Sections = append(long.Sections, long.Sections...)
		if len(long.Sections) > 40 {
			break
		}
	}
	empty := Style{}
	for _, c := range []struct {
		name string
		draw func() ([]byte, error)
	}{
		{"noise", func() ([]byte, error) { return Smoke(noisyPit(t), empty) }},
		{"noise in the dark", func() ([]byte, error) { return Smoke(noisyPit(t), Style{Dark: true, Fahrenheit: true}) }},
		{"nothing", func() ([]byte, error) { return Smoke(SmokeData{}, empty) }},
		{"one reading", func() ([]byte, error) { return Smoke(SmokeData{Pit: pit(berlin(t, 8, 0), 0, 1, 60, 0)}, empty) }},
		{"names", func() ([]byte, error) { return Smoke(namedOddly(t), Style{Zone: zone(t, "Europe/Berlin")}) }},
		{"card of odd names", func() ([]byte, error) { return Summary(cardOfOddNames(t), Style{Dark: true}) }},
		{"forty batches", func() ([]byte, error) { return Calendar(many, empty) }},
		{"no batches", func() ([]byte, error) { return Calendar(CalendarData{}, empty) }},
		{"long card", func() ([]byte, error) { return Summary(long, empty) }},
		{"empty card", func() ([]byte, error) { return Summary(SummaryData{}, empty) }},
		{"no profile", func() ([]byte, error) { return Progress(ProgressData{}, empty) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			if raceOn && strings.HasPrefix(c.name, "noise") {
				t.Skip("a quarter of a million readings take the race detector a minute, and one goroutine draws them; the run without it does")
			}
			raw, err := c.draw()
			if err != nil {
				t.Fatal(err)
			}
			if len(raw) >= mostBytes {
				t.Errorf("%d bytes, want under %d", len(raw), mostBytes)
			}
			if _, err := png.Decode(bytes.NewReader(raw)); err != nil {
				t.Error(err)
			}
			again, err := c.draw()
			if err != nil || !bytes.Equal(raw, again) {
				t.Errorf("the same data gave other bytes (%v)", err)
			}
			keepCase(t, c.name, raw)
		})
	}
}
