package webhook

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
	"strings"
	"sync/atomic"
	"time"

	"strikeoff/bot"
	"strikeoff/rules"
)

// Door is this door's name in a bot.Place.
const Door = "webhook"

// Keeper keeps an order before it is acknowledged; bot.Desk is one.
type Keeper interface {
	Keep(ctx context.Context, in bot.Inbound) (fresh bool, err error)
}

// Jobs is what the API reads; every bot.Ledger is one.
type Jobs interface {
	Load(ctx context.Context, id bot.JobID) (bot.Job, error)
	FromMessage(ctx context.Context, key string) (bot.JobID, error)
	Jobs(ctx context.Context, states []bot.State, below bot.JobID, n int) ([]bot.Job, error)
	History(ctx context.Context, id bot.JobID) ([]bot.Entry, error)
	Health(ctx context.Context, now time.Time) (bot.Health, error)
}

// Config is what the API is made of. Desk, Jobs, Read, Decide, Now and at least one source are required.
type Config struct {
	Desk    Keeper
	Jobs    Jobs
	Read    func(text string, received rules.Date) (o rules.Order, isOrder bool) // for POST /v1/plan
	Decide  func(o rules.Order, today rules.Date) rules.Plan                     // likewise, with the shop's settings
	Now     func() time.Time                                                     // in the shop's own zone: its day is "today"
	Sources []Source
	Shelf   Shelf        // where artwork is put; nil refuses artwork
	Sink    bot.FileSink // is handed the artwork of every kept order as well, to measure it; nil for nobody
	Base    string       // "https://strikeoff.example": what links in answers begin with; "" makes them relative
	Limits  Limits
	Meters  *Meters      // nil counts nothing
	Log     *slog.Logger // nil is silence
}

// API is the HTTP API. Make it with New.
type API struct {
	c        Config
	sources  []Source
	gate     *gate
	uploads  *gate
	backlog  backlog
	draining atomic.Bool
}

// New checks the settings and makes the API.
func New(c Config) (*API, error) {
	if c.Desk == nil || c.Jobs == nil || c.Read == nil || c.Decide == nil || c.Now == nil {
		return nil, errors.New("the API needs a desk, a ledger, a reader, a decider and a clock")
	}
	if len(c.Sources) == 0 || len(c.Sources) > 32 {
		return nil, errors.New("the API needs 1 to 32 sources, each with a signing secret or a bearer token")
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	c.Limits, c.Base = c.Limits.usual(), strings.TrimSuffix(c.Base, "/")
	a := &API{c: c, gate: newGate(c.Limits.InFlight, c.Limits.Queue, c.Limits.Wait), uploads: newGate(c.Limits.Uploads, c.Limits.Uploads, c.Limits.Wait)}
	names := map[string]bool{}
	for _, s := range c.Sources {
		if err := s.check(); err != nil {
			return nil, err
		}
		if names[s.Name] {
			return nil, fmt.Errorf("two sources are called %s", s.Name)
		}
		names[s.Name] = true
		a.sources = append(a.sources, s)
	}
	return a, nil
}

// Register puts the API's addresses on mux, all under /v1/.
func (a *API) Register(mux *http.ServeMux) {
	get := map[string]handler{
		"/v1/openapi.yaml":     nil,
		"/v1/orders/{id}":      a.order,
		"/v1/jobs":             a.list,
		"/v1/jobs/{id}":        a.job,
		"/v1/jobs/{id}/events": a.events,
	}
	post := map[string]handler{"/v1/orders": a.take, "/v1/plan": a.plan}
	for path, h := range get {
		if h == nil {
			mux.Handle("GET "+path, a.outside(path, http.HandlerFunc(serveOpenAPI)))
		} else {
			mux.Handle("GET "+path, a.outside(path, a.inside(h)))
		}
	}
	for path, h := range post {
		mux.Handle("POST "+path, a.outside(path, a.inside(h)))
	}
	for _, path := range []string{"/v1/openapi.yaml", "/v1/orders/{id}", "/v1/jobs", "/v1/jobs/{id}", "/v1/jobs/{id}/events", "/v1/orders", "/v1/plan"} {
		allow := "POST"
		if _, ok := get[path]; ok {
			allow = "GET, HEAD"
		}
		mux.Handle(path, a.outside(path, http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Allow", allow)
			errMethod.answer(w)
		})))
	}
	mux.Handle("/v1/", a.outside("other", http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { errPath.answer(w) })))
}

// Drain refuses new orders from now on, so that what is in hand can be finished.
func (a *API) Drain() { a.draining.Store(true) }

// handler answers a request, or says with an error why not: a problem as it is, anything else as its kind.
type handler func(w http.ResponseWriter, r *http.Request) error

// inside lets a request in where there is room, bounds its time, and turns an error into an answer.
func (a *API) inside(h handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), a.c.Limits.Time)
		defer cancel()
		if !a.gate.enter(ctx) {
			errBusy.answer(w)
			return
		}
		defer a.gate.leave()
		// A body that trickles in holds a place: it gets as long as the request. A recorder in a test has no deadline to set.
		_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(a.c.Limits.Time))
		if err := h(w, r.WithContext(ctx)); err != nil {
			a.fail(w, r, err)
		}
	})
}

// fail answers with an error and logs what is ours to know.
func (a *API) fail(w http.ResponseWriter, r *http.Request, err error) {
	var p problem
	switch {
	case errors.As(err, &p):
	case errors.Is(err, bot.ErrNoJob):
		p = errNoJob
	case errors.Is(err, bot.ErrDown), errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		p = errLedger
	default:
		p = errInside
	}
	if p.Status >= 500 {
		a.c.Log.Error("request failed", "path", r.URL.Path, "message", r.Header.Get(headerID), "error", err)
	}
	p.answer(w)
}

// outside is around every address: headers, the count, the log line, and a last net under a panic.
func (a *API) outside(path string, h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		start := time.Now()
		seen := &StatusWriter{ResponseWriter: w}
		hd := w.Header()
		hd.Set("X-Content-Type-Options", "nosniff")
		hd.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
		hd.Set("Referrer-Policy", "no-referrer")
		defer func() {
			if v := recover(); v != nil {
				a.c.Log.Error("a handler panicked", "path", path, "panic", v, "stack", string(debug.Stack()))
				if seen.Status == 0 {
					errInside.answer(seen)
				}
			}
			took := time.Since(start)
			a.c.Meters.request(path, seen.Status, took)
			a.c.Log.Debug("request", "method", r.Method, "path", r.URL.Path, "status", seen.Status, "message", r.Header.Get(headerID), "took", took)
		}()
		h.ServeHTTP(seen, r)
	})
}
