package webhook

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"strikeoff/bot"
)

// Watched is what health is read from; every bot.Ledger is one.
type Watched interface {
	Health(ctx context.Context, now time.Time) (bot.Health, error)
	Due(ctx context.Context, now time.Time, n int) ([]bot.JobID, error)
}

// Watch answers whether the program lives, whether it is ready for work, and with what figures.
type Watch struct {
	ledger   Watched
	meters   *Meters
	now      func() time.Time
	log      *slog.Logger
	draining atomic.Bool
}

// Lateness is by how much an alert may be overdue before it counts as late. The desk looks every few seconds.
const Lateness = time.Minute

// probeTime is how long a health question to the ledger may take: a slower ledger is not ready.
const probeTime = 2 * time.Second

// NewWatch makes a Watch and adds the ledger's figures to the meters. log may be nil.
func NewWatch(l Watched, m *Meters, now func() time.Time, log *slog.Logger) (*Watch, error) {
	if l == nil || m == nil || now == nil {
		return nil, errors.New("a watch needs a ledger, meters and a clock")
	}
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	w := &Watch{ledger: l, meters: m, now: now, log: log}
	return w, m.reg.Register(w)
}

// Register puts /healthz, /readyz and /metrics on mux. They tell no secrets and nothing of customers, but belong on an inner address.
func (w *Watch) Register(mux *http.ServeMux) {
	mux.HandleFunc("GET /healthz", func(rw http.ResponseWriter, _ *http.Request) {
		writeJSON(rw, http.StatusOK, "application/json", map[string]string{"status": "alive"})
	})
	mux.HandleFunc("GET /readyz", w.ready)
	mux.Handle("GET /metrics", w.meters.Handler())
}

// Drain makes the program not ready from now on, so that a balancer sends nothing more before it stops.
func (w *Watch) Drain() { w.draining.Store(true) }

// readiness is the answer of /readyz.
type readiness struct {
	Ready    bool     `json:"ready"`
	Why      string   `json:"why"` // a sentence; "" where ready
	Ledger   string   `json:"ledger"`
	Durable  bool     `json:"durable"`
	Warnings []string `json:"warnings"`
	Inbox    int      `json:"inbox"`
	Outbox   int      `json:"outbox"`
	SetAside int      `json:"set_aside"`
}

func (w *Watch) ready(rw http.ResponseWriter, r *http.Request) {
	ctx, cancel := context.WithTimeout(r.Context(), probeTime)
	defer cancel()
	out := readiness{Warnings: []string{}}
	h, err := w.ledger.Health(ctx, w.now())
	switch {
	case err != nil:
		out.Why = "The ledger cannot be reached."
		w.log.Warn("not ready", "error", err)
	default:
		out.Ledger, out.Durable, out.Inbox, out.Outbox, out.SetAside = h.Kind, h.Durable, h.Inbox, h.Outbox, h.SetAside
		out.Warnings = append(out.Warnings, h.Warnings...)
		out.Ready = true
	}
	if w.draining.Load() {
		out.Ready, out.Why = false, "The program is being stopped."
	}
	status := http.StatusOK
	if !out.Ready {
		status = http.StatusServiceUnavailable
	}
	writeJSON(rw, status, "application/json", out)
}

// The ledger's figures, read when they are asked for.
var (
	descUp       = prometheus.NewDesc("strikeoff_ledger_up", "1 where the ledger answers, else 0.", nil, nil)
	descDurable  = prometheus.NewDesc("strikeoff_ledger_durable", "1 where what was acknowledged survives a crash of the machine.", nil, nil)
	descInbox    = prometheus.NewDesc("strikeoff_inbox_messages", "Kept messages that are not done.", nil, nil)
	descInboxAge = prometheus.NewDesc("strikeoff_inbox_age_seconds", "Age of the oldest kept message that is not done.", nil, nil)
	descOutbox   = prometheus.NewDesc("strikeoff_outbox_items", "Outbound items that wait.", nil, nil)
	descOutAge   = prometheus.NewDesc("strikeoff_outbox_age_seconds", "Age of the oldest due outbound item.", nil, nil)
	descAside    = prometheus.NewDesc("strikeoff_set_aside_items", "Items that could not be handled or sent.", nil, nil)
	descLate     = prometheus.NewDesc("strikeoff_alerts_late", "Jobs whose alert is overdue by more than a minute, counted up to 100.", nil, nil)
	descReady    = prometheus.NewDesc("strikeoff_draining", "1 while the program is being stopped.", nil, nil)
	descAll      = []*prometheus.Desc{descUp, descDurable, descInbox, descInboxAge, descOutbox, descOutAge, descAside, descLate, descReady}
)

// Describe implements prometheus.Collector.
func (w *Watch) Describe(ch chan<- *prometheus.Desc) {
	for _, d := range descAll {
		ch <- d
	}
}

// Collect implements prometheus.Collector. A ledger that does not answer gives no figures but up 0: an old figure would look like health.
func (w *Watch) Collect(ch chan<- prometheus.Metric) {
	ctx, cancel := context.WithTimeout(context.Background(), probeTime)
	defer cancel()
	put := func(d *prometheus.Desc, v float64) { ch <- prometheus.MustNewConstMetric(d, prometheus.GaugeValue, v) }
	flag := map[bool]float64{true: 1}
	put(descReady, flag[w.draining.Load()])
	now := w.now()
	h, err := w.ledger.Health(ctx, now)
	put(descUp, flag[err == nil])
	if err != nil {
		return
	}
	put(descDurable, flag[h.Durable])
	put(descInbox, float64(h.Inbox))
	put(descInboxAge, h.InboxAge.Seconds())
	put(descOutbox, float64(h.Outbox))
	put(descOutAge, h.OutboxAge.Seconds())
	put(descAside, float64(h.SetAside))
	if late, err := w.ledger.Due(ctx, now.Add(-Lateness), 100); err == nil {
		put(descLate, float64(len(late)))
	}
}
