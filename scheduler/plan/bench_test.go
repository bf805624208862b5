package plan

import (
	"testing"
	"time"
)

var (
	sinkTime   time.Time
	sinkGroups []Group[int, int]
)

func BenchmarkInstant(b *testing.B) {
	loc := zone(b, "America/New_York")
	d := date(b, "2027-01-01")
	for i := 0; b.Loop(); i++ {
		sinkTime, _ = Instant(Date{d.Year, d.Month, d.Day + i%365}, 480, loc)
	}
}

func BenchmarkNextDaily(b *testing.B) {
	loc := zone(b, "America/New_York")
	d, at := date(b, "2027-01-01"), instant(b, "2027-01-01T08:00:00-05:00")
	for b.Loop() {
		_, sinkTime = NextDaily(at, 480, loc, d)
	}
}

func BenchmarkPushOut(b *testing.B) {
	loc := zone(b, "America/New_York")
	night := Quiet{From: 22 * 60, To: 7 * 60}
	at := instant(b, "2027-03-13T23:00:00-05:00")
	for b.Loop() {
		sinkTime = night.PushOut(at, loc)
	}
}

// BenchmarkMerge groups 100,000 due items of 50,000 conversations.
func BenchmarkMerge(b *testing.B) {
	due := make([]int, 100_000)
	for i := range due {
		due[i] = i * 7919 % len(due)
	}
	for b.Loop() {
		sinkGroups = Merge(due, func(i int) int { return i / 2 }, func(x, y int) int { return x - y })
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(due)), "ns/item")
}
