package page

import (
	"context"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// ledger holds jobs in memory for the pages to read.
type ledger struct {
	mu     sync.Mutex
	jobs   []job.Job // by number
	hist   map[job.ID][]job.Entry
	cursor map[string]string
	down   error
}

func (l *ledger) Load(_ context.Context, id job.ID) (job.Job, error) {
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

func (l *ledger) Jobs(_ context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	var out []job.Job
	for _, j := range slices.Backward(l.jobs) {
		if len(out) < n && (below == 0 || j.ID < below) && slices.Contains(states, j.State) {
			out = append(out, j)
		}
	}
	return out, l.down
}

func (l *ledger) History(_ context.Context, id job.ID) ([]job.Entry, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.hist[id], l.down
}

func (l *ledger) Cursor(_ context.Context, door, room string) (string, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.cursor[door+"/"+room], l.down
}

func (l *ledger) SetCursor(_ context.Context, door, room, at string) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.cursor[door+"/"+room] = at
	return l.down
}

// do puts events on a job, 0 for a new one.
func (l *ledger) do(t testing.TB, id job.ID, now time.Time, es ...job.Event) job.ID {
	t.Helper()
	l.mu.Lock()
	defer l.mu.Unlock()
	j := job.Job{ID: job.ID(len(l.jobs) + 1)}
	if id != 0 {
		j = l.jobs[id-1]
	}
	next, entries, _, err := job.Apply(j, now, es...)
	if err != nil {
		t.Fatalf("job %d: %v", j.ID, err)
	}
	if id == 0 {
		l.jobs = append(l.jobs, next)
	} else {
		l.jobs[id-1] = next
	}
	l.hist[j.ID] = append(l.hist[j.ID], entries...)
	return j.ID
}

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// Both people are invented.
var (
	rep  = job.Actor{ID: "U1", Name: "Rea Ito", Role: job.Rep}
	lead = job.Actor{ID: "U2", Name: "Lin Ode", Role: job.Lead}
)

// order is an invented order of usual size: two lines, three prints.
func order(customer string, due rules.Date) rules.Order {
	white := rules.Print{Place: "front", WidthMM: rules.Said(280.0), HeightMM: rules.Said(300.0), Inks: rules.List[string]{"white"}, InkCount: rules.Said(1)}
	back := rules.Print{Place: "back", WidthMM: rules.Said(300.0), Inks: rules.List[string]{"white", "gold"}, InkCount: rules.Said(2)}
	return rules.Order{Customer: rules.Name(customer), Due: due, Lines: rules.List[rules.Line]{
		{Quantity: rules.Said(72), Garment: "t-shirt", Fabric: fibre.TriBlend, Fibres: rules.Blend{"polyester": 50, "cotton": 25, "viscose": 25}, Colours: rules.List[string]{"navy"}, Heather: true,
			Sizes: rules.Sizes{"S": 10, "M": 24, "L": 24, "XL": 10, "2XL": 4}, Prints: rules.List[rules.Print]{white, back}},
		{Quantity: rules.Said(24), Garment: "hoodie", Fabric: fibre.CVC, Fibres: rules.Blend{"cotton": 80, "polyester": 20}, Colours: rules.List[string]{"black"},
			Sizes: rules.Sizes{"M": 12, "L": 12}, Prints: rules.List[rules.Print]{white}},
	}}
}

// plan answers an order as a plan of usual size does, checklist and cautions included.
func plan(o rules.Order, picked bool) rules.Plan {
	p := rules.Plan{Summary: "Make a test print with plastisol on a low-bleed white base, and wash it.", WashTest: true, TestPrint: true}
	for range o.Lines {
		lp := rules.LinePlan{}
		for range o.Lines[len(p.Lines)].Prints {
			c := rules.Choice{Method: rules.Plastisol, Verdict: rules.Test, Score: 82, Setup: rules.Setup{Base: rules.LowBleedWhite, Additives: rules.List[rules.Additive]{rules.Softener, rules.LowCure},
				Screen: &rules.ScreenSetup{MeshCM: [2]int{43, 48}, MeshInch: [2]int{110, 123}, Passes: 1},
				Heat:   &rules.Heat{TempC: [2]float64{132, 138}, Seconds: [2]float64{60, 75}}}, Why: rules.List[rules.Reason]{
				{Rule: "heat", Text: "Polyester's dye moves at cure heat, so a low-bleed base and a low cure are used.", Basis: "common practice"},
				{Rule: "dark", Text: "White on navy needs a base that covers.", Basis: "common practice"}}}
			pp := rules.PrintPlan{Choices: rules.List[rules.Choice]{c, {Method: rules.DTF, Verdict: rules.Yes, Score: 60, Why: rules.List[rules.Reason]{{Rule: "hand", Text: "A transfer feels thicker.", Basis: "common practice"}}}}}
			if picked {
				pp.Pick = rules.Plastisol
			}
			lp.Prints = append(lp.Prints, pp)
		}
		p.Lines, p.Migration = append(p.Lines, lp), append(p.Migration, rules.Migration{Risk: rules.RiskHigh, After: rules.RiskLow})
	}
	if !picked {
		p.Summary = "Ask what the garments are made of before anything is printed."
		p.TestPrint, p.WashTest = false, false
		p.Questions = rules.List[rules.Question]{{Field: "lines[0].fabric", Text: "What are the garments made of?"}}
		return p
	}
	p.Cautions = rules.List[rules.Caution]{{Code: "dye-migration", Severity: rules.Care, Text: "The garment's dye may move into the white for days after printing.", Basis: "common practice"},
		{Code: "heather", Severity: rules.Info, Text: "Heather shades vary between dye lots.", Basis: "common practice"}}
	for _, c := range [][4]string{
		{"registration", "Registration", "Print one piece and look at every edge.", "No gap wider than 0.5 mm."},
		{"base", "Base cover", "Look at the white under the shop's light.", "No navy shows through."},
		{"cure", "Cure check", "Stretch the print to twice its length.", "No cracks."},
		{"temperature", "Garment temperature", "Put a donut probe on the print in the dryer.", "132 to 138 °C (270 to 280 °F) for 60 s."},
		{"crock", "Crock", "Rub ten times dry and ten times wet with white cotton.", "Grey scale 4 or better."},
		{"bleed", "Bleed", "Leave the print for a day and look at the white.", "No pink or blue cast."},
		{"wash", "Wash test", "Wash five times at 40 °C (104 °F), inside out.", "No cracks, no cast, no loss."},
		{"hand", "Hand", "Feel it beside the sample.", "The customer's wish for a soft hand is met."},
	} {
		p.Checklist = append(p.Checklist, rules.Check{Code: c[0], Title: c[1], How: c[2], Pass: c[3], WaitHours: map[string]float64{"bleed": 24, "wash": 24}[c[0]]})
	}
	return p
}

// opened is the event that opens a job.
func opened(o rules.Order, picked bool, text string) job.Event {
	p := plan(o, picked)
	return job.Event{Kind: job.Opened, By: rep, Where: job.Place{Door: "paper", Room: "orders", Thread: "1"}, Message: "m", Text: text, Order: &o, Plan: &p}
}

// house is a ledger with seven open jobs in the states of a busy week, all invented, and one that is closed.
func house(t testing.TB) *ledger {
	t.Helper()
	l := &ledger{hist: map[job.ID][]job.Entry{}, cursor: map[string]string{}}
	l.do(t, 0, noon, opened(order("Nobody Choir", ""), false, "hoodies for the choir, white front print"))
	l.do(t, 0, noon, opened(order("Larkspur Rowing", "2026-11-27"), true, "72 navy tri-blend tees and 24 black hoodies, white front <script>alert(1)</script> & \"gold\" back"))
	l.do(t, 0, noon, opened(order("Quarry Street Climbers", "2026-12-18"), true, "same as last year"))
	for _, due := range []rules.Date{"2026-12-04", "2026-11-23", "2026-11-30"} {
		id := l.do(t, 0, noon, opened(order("Tall Ships Bakery", due), true, "72 tees"))
		l.do(t, id, noon.Add(time.Minute), job.Event{Kind: job.Printed, By: lead, PlanRev: 1})
	}
	l.do(t, 4, noon.Add(time.Hour), job.Event{Kind: job.StepRead, By: lead, Step: "cure", Pass: true, Note: "no cracks"})
	l.do(t, 5, noon.Add(30*time.Hour), job.Event{Kind: job.StepRead, By: lead, Step: "wash", Note: "pink cast in the white", Plan: &l.jobs[4].Plan})
	later := noon.Add(30 * time.Hour)
	for _, c := range l.jobs[5].Plan.Checklist {
		l.do(t, 6, later, job.Event{Kind: job.StepRead, By: lead, Step: c.Code, Pass: true})
	}
	l.do(t, 6, later, job.Event{Kind: job.SignedOff, By: lead, PlanRev: 1})
	l.do(t, l.do(t, 0, noon, opened(order("Gone Away Cycles", "2026-12-01"), true, "50 jerseys")), noon, job.Event{Kind: job.ClosedIt, By: rep, Note: "the customer went away"})
	return l
}

// site is the pages on a server, with a browser's cookies.
type site struct {
	t      testing.TB
	ledger *ledger
	pages  *Pages
	url    string
	client *http.Client
	now    func() time.Time
	mu     sync.Mutex
	at     time.Time
}

func newSite(t testing.TB, l *ledger, change ...func(*Config)) *site {
	t.Helper()
	s := &site{t: t, ledger: l, at: noon.Add(31 * time.Hour)}
	s.now = func() time.Time { s.mu.Lock(); defer s.mu.Unlock(); return s.at }
	mux := http.NewServeMux()
	srv := httptest.NewServer(mux)
	t.Cleanup(func() { srv.CloseClientConnections(); srv.Close() }) // a board that is still open would hold the server open
	s.url = srv.URL
	c := Config{Jobs: l, Card: func(j bot.Job) bot.Card { return bot.CardOf(j, s.now(), time.UTC) }, Row: func(j bot.Job) bot.Row { return bot.RowOf(j, s.now(), time.UTC) },
		Now: s.now, Base: srv.URL, Keys: [][]byte{[]byte(strings.Repeat("k", 32))}, Poll: 20 * time.Millisecond}
	for _, f := range change {
		f(&c)
	}
	p, err := New(c)
	if err != nil {
		t.Fatal(err)
	}
	s.pages = p
	p.Register(mux)
	s.fresh()
	return s
}

// fresh takes a browser without cookies.
func (s *site) fresh() {
	jar, err := cookiejar.New(nil)
	if err != nil {
		s.t.Fatal(err)
	}
	s.client = &http.Client{Jar: jar, Timeout: 10 * time.Second}
}

// get reads a page, by an address of the site or a whole link.
func (s *site) get(path string) (*http.Response, string) {
	s.t.Helper()
	if strings.HasPrefix(path, "/") {
		path = s.url + path
	}
	resp, err := s.client.Get(path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer resp.Body.Close()
	return resp, readAll(s.t, resp)
}
