package webhook

import (
	"net/http"
	"strconv"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"strikeoff/rules"
)

// Meters count what an operator watches. A nil Meters counts nothing. Every series name is pinned by a test, since alert rules depend on it.
type Meters struct {
	reg       *prometheus.Registry
	requests  *prometheus.CounterVec
	seconds   *prometheus.HistogramVec
	calls     *prometheus.HistogramVec
	failures  *prometheus.CounterVec
	verdicts  *prometheus.CounterVec
	undecided prometheus.Counter
	sent      *prometheus.CounterVec
}

// NewMeters makes meters with a registry of their own.
func NewMeters() *Meters {
	secs := []float64{.001, .002, .005, .01, .02, .05, .1, .2, .5, 1, 2, 5, 10}
	m := &Meters{
		reg: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "strikeoff_requests_total",
			Help: "Requests answered, by address and status."}, []string{"path", "status"}),
		seconds: prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "strikeoff_request_seconds",
			Help: "Time to answer a request, by address.", Buckets: secs}, []string{"path"}),
		calls: prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "strikeoff_ledger_seconds",
			Help: "Time of a ledger call, by call.", Buckets: secs}, []string{"call"}),
		failures: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "strikeoff_ledger_failures_total",
			Help: "Ledger calls that failed because the ledger did, by call."}, []string{"call"}),
		verdicts: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "strikeoff_plan_verdicts_total",
			Help: "Verdicts given in plans, by method and verdict."}, []string{"method", "verdict"}),
		undecided: prometheus.NewCounter(prometheus.CounterOpts{Name: "strikeoff_plan_undecided_total",
			Help: "Prints planned without a pick: a fact is missing or a person must decide."}),
		sent: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "strikeoff_events_sent_total",
			Help: "Attempts to send an event to a target, by outcome: done, retry or given-up."}, []string{"target", "outcome"}),
	}
	m.reg.MustRegister(m.requests, m.seconds, m.calls, m.failures, m.verdicts, m.undecided, m.sent,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Handler serves the meters in the Prometheus text format.
func (m *Meters) Handler() http.Handler {
	return promhttp.HandlerFor(m.reg, promhttp.HandlerOpts{MaxRequestsInFlight: 4})
}

// request counts one answered request.
func (m *Meters) request(path string, status int, took time.Duration) {
	if m == nil {
		return
	}
	m.requests.WithLabelValues(path, strconv.Itoa(status)).Inc()
	m.seconds.WithLabelValues(path).Observe(took.Seconds())
}

// plan counts the verdicts of a plan.
func (m *Meters) plan(p rules.Plan) {
	if m == nil {
		return
	}
	for _, l := range p.Lines {
		for _, pr := range l.Prints {
			if pr.Pick == "" {
				m.undecided.Inc()
			}
			for _, c := range pr.Choices {
				m.verdicts.WithLabelValues(string(c.Method), string(c.Verdict)).Inc()
			}
		}
	}
}

// event counts one attempt to send an event.
func (m *Meters) event(target, outcome string) {
	if m != nil {
		m.sent.WithLabelValues(target, outcome).Inc()
	}
}
