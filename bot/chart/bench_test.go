package chart

import (
	"testing"
	"time"
)

// bench reports how long one picture takes and how many bytes it has.
func bench(b *testing.B, draw func() ([]byte, error)) {
	b.Helper()
	var size int
	for b.Loop() {
		raw, err := draw()
		if err != nil {
			b.Fatal(err)
		}
		size = len(raw)
	}
	b.ReportMetric(float64(size), "bytes/picture")
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/picture")
}

func BenchmarkSmoke(b *testing.B) {
	style := Style{Zone: zone(b, "Europe/Berlin")}
	d := goodDay(b)
	bench(b, func() ([]byte, error) { return Smoke(d, style) })
}

func BenchmarkSmokeFullPit(b *testing.B) {
	style := Style{Dark: true, Zone: zone(b, "Europe/Berlin")}
	d := fullPit(b)
	bench(b, func() ([]byte, error) { return Smoke(d, style) })
}

func BenchmarkSmokeHeaviest(b *testing.B) {
	d := noisyPit(b)
	bench(b, func() ([]byte, error) { return Smoke(d, Style{Dark: true}) })
}

func BenchmarkProgress(b *testing.B) {
	d := slabOf(38, false, 3, 5, 8)
	bench(b, func() ([]byte, error) { return Progress(d, Style{}) })
}

func BenchmarkCalendar(b *testing.B) {
	d := running(b)
	bench(b, func() ([]byte, error) { return Calendar(d, Style{}) })
}

func BenchmarkSummary(b *testing.B) {
	d := finished(b)
	bench(b, func() ([]byte, error) { return Summary(d, Style{}) })
}

func BenchmarkSmokeTenThousandReadings(b *testing.B) {
	d := goodDay(b)
	d.Pit = pit(berlin(b, 16, 10), 13*time.Hour, 4680*time.Millisecond, 68, 3)
	bench(b, func() ([]byte, error) { return Smoke(d, Style{}) })
}
