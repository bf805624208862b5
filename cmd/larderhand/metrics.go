package main

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"

	"larderhand/store"
)

// metrics is what can be seen of the program from outside. It is a scheduler.Watch.
type metrics struct {
	registry *prometheus.Registry
	messages *prometheus.CounterVec
	chores   *prometheus.CounterVec
	failures *prometheus.CounterVec
	late     prometheus.Histogram
	store    *prometheus.HistogramVec

	mu     sync.Mutex
	ticked time.Time
	failed error
}

func newMetrics() *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		messages: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "larderhand_messages_sent_total", Help: "Ping messages sent."}, []string{"platform"}),
		chores:   prometheus.NewCounterVec(prometheus.CounterOpts{Name: "larderhand_chores_sent_total", Help: "Chores said in them."}, []string{"platform"}),
		failures: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "larderhand_failures_total", Help: "Ping messages that were not delivered, by what that means: unknown, wait, moved, gone or refused."}, []string{"platform", "kind"}),
		late: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "larderhand_late_seconds", Help: "How long after it was due a ping went out.",
			Buckets: []float64{1, 5, 15, 60, 300, 900, 3600, 4 * 3600, 12 * 3600, 24 * 3600, 3 * 24 * 3600}}),
		store: prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "larderhand_store_seconds", Help: "How long transactions took, waiting included.",
			Buckets: prometheus.ExponentialBuckets(0.0001, 4, 9)}, []string{"kind"}),
	}
	m.registry.MustRegister(m.messages, m.chores, m.failures, m.late, m.store,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Sent counts a message.
func (m *metrics) Sent(lane string, late time.Duration, chores int) {
	m.messages.WithLabelValues(lane).Inc()
	m.chores.WithLabelValues(lane).Add(float64(chores))
	m.late.Observe(late.Seconds())
}

// Failed counts a message that did not arrive.
func (m *metrics) Failed(lane string, kind store.FailureKind) {
	m.failures.WithLabelValues(lane, kind.String()).Inc()
}

// Ticked notes a look at what is due.
func (m *metrics) Ticked(now time.Time, err error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.ticked, m.failed = now, err
}

// transaction times one; see store.OnTransaction.
func (m *metrics) transaction(k store.Kind) func() {
	t := prometheus.NewTimer(m.store.WithLabelValues(string(k)))
	return func() { t.ObserveDuration() }
}

// backlog counts what waits whenever someone looks.
type backlog struct {
	db     *store.DB
	now    func() time.Time
	log    *slog.Logger
	due    *prometheus.Desc
	parked *prometheus.Desc
}

func newBacklog(db *store.DB, now func() time.Time, log *slog.Logger) *backlog {
	return &backlog{db: db, now: now, log: log,
		due:    prometheus.NewDesc("larderhand_chores_due", "Chores that are due and not said yet.", []string{"platform"}, nil),
		parked: prometheus.NewDesc("larderhand_conversations_parked", "Conversations that can't be reached.", nil, nil)}
}

// Describe names the two gauges.
func (b *backlog) Describe(c chan<- *prometheus.Desc) { c <- b.due; c <- b.parked }

// Collect counts. A store that can't be read gives none, and says so elsewhere.
func (b *backlog) Collect(c chan<- prometheus.Metric) {
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	got, err := b.db.Backlog(ctx, b.now())
	if err != nil {
		b.log.DebugContext(ctx, "could not count what is due", "error", err)
		return
	}
	for lane, n := range got.Due {
		c <- prometheus.MustNewConstMetric(b.due, prometheus.GaugeValue, float64(n), lane)
	}
	c <- prometheus.MustNewConstMetric(b.parked, prometheus.GaugeValue, float64(got.Parked))
}
