package webhook

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
	"strikeoff/intake"
	"strikeoff/rules"
)

// shelfedLedger is a small ledger in memory for what the API reads and keeps. Health and failures are whatever a test sets.
type shelfedLedger struct {
	mu     sync.Mutex
	kept   map[string]bot.Inbound
	jobs   []job.Job // by number, oldest first
	hist   map[job.ID][]job.Entry
	from   map[string]job.ID
	health bot.Health
	down   error
	late   []job.ID
}

func newLedger() *shelfedLedger {
	return &shelfedLedger{kept: map[string]bot.Inbound{}, hist: map[job.ID][]job.Entry{}, from: map[string]job.ID{}}
}

func (l *shelfedLedger) Keep(_ context.Context, in bot.Inbound) (bool, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.down != nil {
		return false, l.down
	}
	_, had := l.kept[in.Key]
	if !had {
		l.kept[in.Key] = in
	}
	return !had, nil
}

func (l *shelfedLedger) Load(_ context.Context, id job.ID) (job.Job, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.down != nil {
		return job.Job{}, l.down
	}
	if id < 1 || int(id) > len(l.jobs) {
		return job.Job{}, job.ErrNoJob
	}
	return l.jobs[id-1], nil
}

func (l *shelfedLedger) FromMessage(_ context.Context, key string) (job.ID, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if id, ok := l.from[key]; ok {
		return id, l.down
	}
	return 0, job.ErrNoJob
}

func (l *shelfedLedger) Jobs(_ context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	var out []job.Job
	for _, j := range slices.Backward(l.jobs) {
		if len(out) < n && (below == 0 || j.ID < below) && (len(states) == 0 || slices.Contains(states, j.State)) {
			out = append(out, j)
		}
	}
	return out, l.down
}

func (l *shelfedLedger) History(_ context.Context, id job.ID) ([]job.Entry, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.hist[id], l.down
}

func (l *shelfedLedger) Health(context.Context, time.Time) (bot.Health, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.health, l.down
}

func (l *shelfedLedger) Due(context.Context, time.Time, int) ([]job.ID, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.late, l.down
}

// noon is the day on which every test happens.
var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

var (
	rep  = job.Actor{ID: "source:web-form", Name: "Rea Ito (invented)", Role: job.Rep}
	lead = job.Actor{ID: "U2", Name: "Lin Ode (invented)", Role: job.Lead}
)

// apply puts events on a job of the ledger.
func (l *shelfedLedger) apply(t testing.TB, j job.Job, now time.Time, es ...job.Event) job.Job {
	t.Helper()
	next, entries, _, err := job.Apply(j, now, es...)
	if err != nil {
		t.Fatalf("job %d: %v", j.ID, err)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if int(j.ID) > len(l.jobs) {
		l.jobs = append(l.jobs, next)
	} else {
		l.jobs[j.ID-1] = next
	}
	l.hist[j.ID] = append(l.hist[j.ID], entries...)
	return next
}

// open makes a job of a text that the toy shop reads.
func (l *shelfedLedger) open(t testing.TB, text string) job.Job {
	t.Helper()
	r := bottest.Read(text, intake.Options{})
	plan := bottest.Decide(r.Order, rules.Shop{}, rules.Record{})
	id := job.ID(len(l.jobs) + 1)
	e := job.Event{Kind: job.Opened, By: rep, Where: job.Place{Door: Door, Room: "web-form", Thread: "m"}, Message: "webhook:web-form:m", Text: text, Order: &r.Order, Plan: &plan}
	return l.apply(t, job.Job{ID: id}, noon, e)
}

// house fills a ledger with one job in each state, all invented: 1 asking, 2 planned, 3 test-due, 4 on-test, 5 refused, 6 cleared by a
// passed test print, 7 closed.
func (l *shelfedLedger) house(t testing.TB) {
	t.Helper()
	const tested = "72 tees in tri-blend, navy, white front print, for Larkspur Rowing 2026-12-18"
	l.open(t, "10 tees, red, for Nobody Choir")
	l.open(t, "20 cotton tees, black, for Nobody Choir 2026-12-01")
	l.open(t, tested)
	for range 4 {
		j := l.open(t, tested)
		if j.ID == 7 {
			l.apply(t, j, noon, job.Event{Kind: job.ClosedIt, By: rep, Note: "the customer went away"})
			continue
		}
		j = l.apply(t, j, noon, job.Event{Kind: job.Printed, By: lead, PlanRev: j.PlanRev})
		later := noon.Add(30 * time.Hour)
		switch j.ID {
		case 4:
			l.apply(t, j, noon, job.Event{Kind: job.StepRead, By: lead, Step: "cure", Pass: true, Note: "no cracks"})
		case 5:
			l.apply(t, j, later, job.Event{Kind: job.StepRead, By: lead, Step: "wash", Pass: false, Note: "pink <b>white</b>", Plan: &j.Plan})
		case 6:
			j = l.apply(t, j, later, job.Event{Kind: job.StepRead, By: lead, Step: "cure", Pass: true}, job.Event{Kind: job.StepRead, By: lead, Step: "wash", Pass: true})
			l.apply(t, j, later, job.Event{Kind: job.SignedOff, By: lead, PlanRev: j.PlanRev})
		}
	}
	want := []job.State{job.Asking, job.Planned, job.TestDue, job.OnTest, job.Refused, job.Cleared, job.Closed}
	for i, j := range l.jobs {
		if j.State != want[i] {
			t.Fatalf("job %d is %s, the house wants %s", j.ID, j.State, want[i])
		}
	}
}

// rig is the API on a ledger in memory, with one source of each kind.
type rig struct {
	t      testing.TB
	ledger *shelfedLedger
	api    *API
	mux    *http.ServeMux
	now    time.Time
	form   Keys
	all    string // a token with every scope
	orders string // a token that may only hand in orders
}

func newRig(t testing.TB, change ...func(*Config)) *rig {
	t.Helper()
	r := &rig{t: t, ledger: newLedger(), now: noon, form: Keys{newSecret(t)}}
	all, allS := NewToken()
	orders, ordersS := NewToken()
	r.all, r.orders = allS, ordersS
	c := Config{Desk: r.ledger, Jobs: r.ledger, Now: func() time.Time { return r.now },
		Read: func(text string, d rules.Date) (rules.Order, bool) {
			got := bottest.Read(text, intake.Options{Received: d})
			return got.Order, got.IsOrder
		},
		Decide: func(o rules.Order, _ rules.Date) rules.Plan { return bottest.Decide(o, rules.Shop{}, rules.Record{}) },
		Sources: []Source{
			{Name: "web-form", Keys: r.form, Scopes: []Scope{WriteOrders}, Rate: 1e6},
			{Name: "office", Tokens: []Token{all}, Scopes: Scopes, Rate: 1e6},
			{Name: "till", Tokens: []Token{orders}, Scopes: []Scope{WriteOrders}, Rate: 1e6},
		},
		Base: "https://strikeoff.example", Meters: NewMeters(),
	}
	for _, f := range change {
		f(&c)
	}
	api, err := New(c)
	if err != nil {
		t.Fatal(err)
	}
	r.api, r.mux = api, http.NewServeMux()
	api.Register(r.mux)
	return r
}

// send sends one request and returns the answer, which must be as openapi.yaml describes it.
func (r *rig) send(req *http.Request) *httptest.ResponseRecorder {
	r.t.Helper()
	w := httptest.NewRecorder()
	r.mux.ServeHTTP(w, req)
	described(r.t).hold(r.t, req, w)
	return w
}

// bearer makes a request with a token; body "" is none.
func (r *rig) bearer(token, method, path, kind, body string) *http.Request {
	var rd io.Reader
	if body != "" {
		rd = strings.NewReader(body)
	}
	req := httptest.NewRequest(method, path, rd)
	if kind != "" {
		req.Header.Set("Content-Type", kind)
	}
	if token != "" {
		req.Header.Set("Authorization", "Bearer "+token)
	}
	return req
}

// signed makes a signed order.
func (r *rig) signed(id, kind, body string) *http.Request {
	req := r.bearer("", "POST", "/v1/orders", kind, body)
	r.form.Sign(req.Header, id, r.now, []byte(body))
	return req
}
