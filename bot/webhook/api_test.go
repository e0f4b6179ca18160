package webhook

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

const words = `{"text":"72 tees in tri-blend, navy, white front print","from":{"name":"Rea\u202e Ito (invented)"}}`

// decode reads an answer's body.
func decode[T any](t testing.TB, w *httptest.ResponseRecorder) T {
	t.Helper()
	var v T
	if err := json.Unmarshal(w.Body.Bytes(), &v); err != nil {
		t.Fatalf("%d %s: %v", w.Code, w.Body, err)
	}
	return v
}

func TestSignedOrderIsKeptThenAcknowledged(t *testing.T) {
	r := newRig(t)
	w := r.send(r.signed("m1", "application/json", words))
	got := decode[taken](t, w)
	if w.Code != http.StatusAccepted || !got.Kept || got.Repeat || w.Header().Get("Location") != "https://strikeoff.example/v1/orders/m1" {
		t.Fatalf("answer %d %+v, Location %q", w.Code, got, w.Header().Get("Location"))
	}
	in, ok := r.ledger.kept["webhook:web-form:m1"]
	if !ok {
		t.Fatalf("kept under another key: %v", r.ledger.kept)
	}
	if in.Sort != job.Shortcut || !in.By.Bot || in.By.ID != "source:web-form" || in.By.Name != "Rea Ito (invented) by web-form" ||
		in.Place != (job.Place{Door: Door, Room: "web-form", Thread: "m1"}) || !strings.HasPrefix(in.Text, "72 tees") {
		t.Errorf("kept as %+v", in)
	}
	w = r.send(r.signed("m1", "application/json", words))
	if got := decode[taken](t, w); w.Code != http.StatusOK || !got.Repeat || len(r.ledger.kept) != 1 {
		t.Errorf("the same id again: %d %+v, %d kept", w.Code, got, len(r.ledger.kept))
	}
}

// TestNothingKept: whatever is refused leaves no trace, and says so in a problem with two sentences.
func TestNothingKept(t *testing.T) {
	big := `{"text":"` + strings.Repeat("x", 300<<10) + `"}`
	for _, c := range []struct {
		name   string
		status int
		code   string
		req    func(r *rig) *http.Request
	}{
		{"unsigned", 401, "unsigned", func(r *rig) *http.Request { return r.bearer("", "POST", "/v1/orders", "application/json", words) }},
		{"forged", 401, "bad-signature", func(r *rig) *http.Request {
			req := r.signed("m", "application/json", words)
			req.Body = io.NopCloser(strings.NewReader(strings.Replace(words, "72", "73", 1)))
			return req
		}},
		{"signed with nobody's key", 401, "bad-signature", func(r *rig) *http.Request {
			req := r.signed("m", "application/json", words)
			Keys{newSecret(r.t)}.Sign(req.Header, "m", r.now, []byte(words))
			return req
		}},
		{"stale", 401, "bad-signature", func(r *rig) *http.Request {
			req := r.signed("m", "application/json", words)
			r.now = r.now.Add(Tolerance + time.Second)
			return req
		}},
		{"too large, said so", 413, "too-large", func(r *rig) *http.Request { return r.signed("m", "application/json", big) }},
		{"too large, not said", 413, "too-large", func(r *rig) *http.Request {
			req := r.signed("m", "application/json", big)
			req.ContentLength = -1
			return req
		}},
		{"unknown token", 401, "unknown-token", func(r *rig) *http.Request {
			return r.bearer(strings.Repeat("a", 40), "POST", "/v1/orders", "application/json", words)
		}},
		{"token without an id", 400, "webhook-id", func(r *rig) *http.Request { return r.bearer(r.all, "POST", "/v1/orders", "application/json", words) }},
		{"an empty request", 422, "empty", func(r *rig) *http.Request { return r.signed("m", "application/json", `{}`) }},
		{"blank words", 422, "empty", func(r *rig) *http.Request { return r.signed("m", "text/plain", " \n ") }},
		{"no JSON", 400, "json", func(r *rig) *http.Request { return r.signed("m", "application/json", `{"text":`) }},
		{"two values", 400, "json", func(r *rig) *http.Request { return r.signed("m", "application/json", words+words) }},
		{"not UTF-8", 400, "json", func(r *rig) *http.Request { return r.signed("m", "application/json", "{\"text\":\"\xff\"}") }},
		{"a misspelt field", 400, "json", func(r *rig) *http.Request { return r.signed("m", "application/json", `{"txt":"72 tees"}`) }},
		{"a misspelt field in the order", 400, "json", func(r *rig) *http.Request {
			return r.signed("m", "application/json", `{"order":{"lines":[{"quantiy":3}]}}`)
		}},
		{"a garment nobody knows", 422, "order", func(r *rig) *http.Request {
			return r.signed("m", "application/json", `{"order":{"lines":[{"garment":"spacesuit"}]}}`)
		}},
		{"another media type", 415, "media-type", func(r *rig) *http.Request { return r.signed("m", "application/xml", words) }},
		{"a form without a boundary", 400, "form", func(r *rig) *http.Request { return r.signed("m", "multipart/form-data", words) }},
		{"ledger down", 503, "ledger-down", func(r *rig) *http.Request {
			r.ledger.down = fmt.Errorf("dial: %w", job.ErrDown)
			return r.signed("m", "application/json", words)
		}},
		{"backlog", 429, "backlog", func(r *rig) *http.Request {
			r.ledger.health.Inbox = 5001
			return r.signed("m", "application/json", words)
		}},
		{"stopping", 503, "stopping", func(r *rig) *http.Request {
			r.api.Drain()
			return r.signed("m", "application/json", words)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t)
			w := r.send(c.req(r))
			p := decode[problem](t, w)
			if w.Code != c.status || p.Code != c.code || w.Header().Get("Content-Type") != "application/problem+json" {
				t.Fatalf("answer %d %s", w.Code, w.Body)
			}
			if len(r.ledger.kept) > 0 || p.Kept || p.Detail == "" || p.Next == "" || p.Title == "" || p.Status != c.status || p.Type != "about:blank" {
				t.Errorf("%d kept, problem %+v", len(r.ledger.kept), p)
			}
			if later := c.status == 429 || c.status == 503; later != (w.Header().Get("Retry-After") != "") {
				t.Errorf("Retry-After %q with %d", w.Header().Get("Retry-After"), c.status)
			}
			if ask := c.status == 401; ask != (w.Header().Get("WWW-Authenticate") != "") {
				t.Errorf("WWW-Authenticate %q with %d", w.Header().Get("WWW-Authenticate"), c.status)
			}
		})
	}
}

func TestScopes(t *testing.T) {
	r := newRig(t)
	r.ledger.house(t)
	for _, path := range []string{"/v1/jobs", "/v1/jobs/1", "/v1/jobs/1/events", "/v1/orders/m"} {
		for token, want := range map[string]int{"": 401, "wrong-but-long-enough-token": 401, r.orders: 403} {
			if w := r.send(r.bearer(token, "GET", path, "", "")); w.Code != want {
				t.Errorf("GET %s: %d, want %d: %s", path, w.Code, want, w.Body)
			}
		}
		req := r.bearer("", "GET", path, "", "")
		r.form.Sign(req.Header, "m", r.now, nil)
		if w := r.send(req); w.Code != 401 {
			t.Errorf("GET %s came signed and was answered %d", path, w.Code)
		}
	}
	if w := r.send(r.bearer(r.orders, "POST", "/v1/plan", "text/plain", "1 tee")); w.Code != 403 {
		t.Errorf("a token without plans:ask got %d", w.Code)
	}
	req := r.bearer(r.orders, "POST", "/v1/orders", "text/plain", "12 tees")
	req.Header.Set(headerID, "t1")
	if w := r.send(req); w.Code != http.StatusAccepted {
		t.Errorf("a token with orders:write got %d %s", w.Code, w.Body)
	}
}

// TestSourcesAreApart: the same id from two sources is two orders, and one source cannot ask for another's.
func TestSourcesAreApart(t *testing.T) {
	r := newRig(t)
	r.send(r.signed("m1", "text/plain", "12 tees"))
	req := r.bearer(r.all, "POST", "/v1/orders", "text/plain", "12 tees")
	req.Header.Set(headerID, "m1")
	if w := r.send(req); w.Code != http.StatusAccepted || len(r.ledger.kept) != 2 {
		t.Fatalf("%d, %d kept", w.Code, len(r.ledger.kept))
	}
	r.ledger.from["webhook:web-form:m1"] = 1
	if w := r.send(r.bearer(r.all, "GET", "/v1/orders/m1", "", "")); w.Code != 404 {
		t.Errorf("office read the job of web-form's order: %d %s", w.Code, w.Body)
	}
	r.ledger.from["webhook:office:m1"] = 2
	if got := decode[opened](t, r.send(r.bearer(r.all, "GET", "/v1/orders/m1", "", ""))); got.Job != 2 {
		t.Errorf("found %+v", got)
	}
}

func TestOrderByContract(t *testing.T) {
	r := newRig(t)
	w := r.send(r.signed("m1", "application/json", `{"order":{"due":"2026-12-18","lines":[{"quantity":72,"garment":"t-shirt","fabric":"cotton","prints":[{"place":"front"}]}]}}`))
	in := r.ledger.kept["webhook:web-form:m1"]
	if w.Code != http.StatusAccepted || in.Order == nil || in.Order.Due != "2026-12-18" || in.Order.Lines[0].Quantity.Or(0) != 72 {
		t.Fatalf("%d %s, kept %+v", w.Code, w.Body, in.Order)
	}
	if !in.Order.Lines[0].Quantity.Known || in.Order.Lines[0].Prints[0].WidthMM.Known {
		t.Error("said and unsaid were not told apart")
	}
	w = r.send(r.signed("m2", "application/json", `{"order":{"due":"18 Dec","uses":["moon"],"lines":[{"quantity":-1,"fibres":{"cotton":120},"sizes":{"":1},"prints":[{"coverage_percent":101,"place":"roof"}]}]}}`))
	p := decode[problem](t, w)
	want := []string{"/order/due", "/order/uses/0", "/order/lines/0/quantity", "/order/lines/0/sizes/0", "/order/lines/0/fibres", "/order/lines/0/prints/0/place", "/order/lines/0/prints/0/coverage_percent"}
	for _, ptr := range want {
		found := false
		for _, f := range p.Faults {
			found = found || f.Pointer == ptr && f.Detail != ""
		}
		if !found {
			t.Errorf("nothing is said about %s: %+v", ptr, p.Faults)
		}
	}
}

// form makes a multipart body.
func form(t testing.TB, fields map[string]string, art map[string][]byte) (kind, body string) {
	t.Helper()
	var b bytes.Buffer
	mw := multipart.NewWriter(&b)
	for k, v := range fields {
		if err := mw.WriteField(k, v); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range art {
		w, err := mw.CreateFormFile("artwork", name)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = w.Write(data)
	}
	_ = mw.Close()
	return mw.FormDataContentType(), b.String()
}

var onePixel = []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR")

func TestArtworkIsPutOnTheShelf(t *testing.T) {
	shelf, err := NewFolder(t.TempDir(), 64)
	if err != nil {
		t.Fatal(err)
	}
	r := newRig(t, func(c *Config) { c.Shelf = shelf })
	kind, body := form(t, map[string]string{"text": "72 tees", "from": "Rea Ito (invented)"}, map[string][]byte{"../../logo.png": onePixel})
	for _, want := range []int{http.StatusAccepted, http.StatusOK} {
		if w := r.send(r.signed("m1", kind, body)); w.Code != want {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	}
	in := r.ledger.kept["webhook:web-form:m1"]
	if len(in.Files) != 1 || in.Files[0].Type != "image/png" || in.Files[0].Bytes != int64(len(onePixel)) || strings.Contains(in.Files[0].Name, "/") {
		t.Fatalf("files %+v", in.Files)
	}
	f, err := shelf.Open(context.Background(), in.Files[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if back, _ := io.ReadAll(f); !bytes.Equal(back, onePixel) {
		t.Error("the artwork came back changed")
	}
	for _, id := range []string{"", "../x", strings.Repeat("a", 64), strings.Repeat("/", 64)} {
		if _, err := shelf.Open(context.Background(), id); err == nil {
			t.Errorf("Open(%q) opened something", id)
		}
	}
	kind, body = form(t, map[string]string{"text": "x"}, map[string][]byte{"a.png": append(bytes.Clone(onePixel), make([]byte, 60)...)})
	if w := r.send(r.signed("m2", kind, body)); w.Code != http.StatusInsufficientStorage {
		t.Errorf("a full shelf: %d %s", w.Code, w.Body)
	}
	kind, body = form(t, map[string]string{"text": "x"}, map[string][]byte{"a.png": []byte("MZ this is a program")})
	if w := r.send(r.signed("m3", kind, body)); w.Code != http.StatusUnsupportedMediaType {
		t.Errorf("a program called a.png: %d %s", w.Code, w.Body)
	}
	kind, body = form(t, map[string]string{"text": strings.Repeat("x", 300<<10)}, nil)
	if w := r.send(r.signed("m4", kind, body)); w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("a long text in a form: %d", w.Code)
	}
	if len(r.ledger.kept) != 1 {
		t.Errorf("%d orders were kept, want 1", len(r.ledger.kept))
	}
	if again, err := NewFolder(shelf.dir, 64); err != nil || again.used != int64(len(onePixel)) {
		t.Errorf("opened again, the shelf counts %d bytes (%v)", again.used, err)
	}
}

func TestListPages(t *testing.T) {
	r := newRig(t)
	r.ledger.house(t)
	var seen []job.ID
	path := "/v1/jobs?limit=3"
	for pages := 0; pages < 10; pages++ {
		got := decode[listView](t, r.send(r.bearer(r.all, "GET", path, "", "")))
		for _, j := range got.Jobs {
			seen = append(seen, j.Job)
		}
		if got.Next == "" {
			break
		}
		path = "/v1/jobs?limit=3&cursor=" + got.Next
	}
	if fmt.Sprint(seen) != "[7 6 5 4 3 2 1]" {
		t.Errorf("pages held %v", seen)
	}
	for query, want := range map[string]string{
		"state=on-test,refused":                 "[5 4]",
		"state=on-test&state=asking":            "[4 1]",
		"due=2026-12-01":                        "[2]",
		"due=2026-11-30":                        "[]",
		"due=2026-12-18&state=test-due&limit=1": "[3]",
	} {
		var ids []job.ID
		for _, j := range decode[listView](t, r.send(r.bearer(r.all, "GET", "/v1/jobs?"+query, "", ""))).Jobs {
			ids = append(ids, j.Job)
		}
		if got := fmt.Sprint(ids); got != want {
			t.Errorf("%s lists %s, want %s", query, got, want)
		}
	}
	for _, query := range []string{"state=lost", "due=tomorrow", "limit=0", "limit=101", "limit=x", "cursor=%21", "cursor=YQ", "stat=asking", "due=2026-12-01&due=2026-12-02", "%zz"} {
		if w := r.send(r.bearer(r.all, "GET", "/v1/jobs?"+query, "", "")); w.Code != http.StatusBadRequest {
			t.Errorf("%s was answered %d", query, w.Code)
		}
	}
}

func TestJobAndEvents(t *testing.T) {
	r := newRig(t)
	r.ledger.house(t)
	w := r.send(r.bearer(r.all, "GET", "/v1/jobs/6", "", ""))
	got := decode[jobView](t, w)
	if got.State != job.Cleared || got.Sign == nil || got.Sign.By.Name != lead.Name || len(got.Reads) != 2 || got.Printed == nil {
		t.Errorf("job 6 reads %+v", got)
	}
	req := r.bearer(r.all, "GET", "/v1/jobs/6", "", "")
	req.Header.Set("If-None-Match", w.Header().Get("ETag"))
	if w := r.send(req); w.Code != http.StatusNotModified || w.Body.Len() > 0 {
		t.Errorf("an unchanged job was answered %d %s", w.Code, w.Body)
	}
	first := decode[eventsView](t, r.send(r.bearer(r.all, "GET", "/v1/jobs/6/events?limit=2", "", "")))
	rest := decode[eventsView](t, r.send(r.bearer(r.all, "GET", fmt.Sprintf("/v1/jobs/6/events?after=%d", first.Next), "", "")))
	all := append(first.Events, rest.Events...)
	if len(all) != 5 || rest.Next != 0 || all[0].Kind != job.Opened || all[4].Kind != job.SignedOff || all[2].Pass == nil || !*all[2].Pass || all[0].Pass != nil {
		t.Errorf("events %+v", all)
	}
	for i, e := range all {
		if e.Seq != i+1 || e.Hash == "" || i > 0 && e.Prev != all[i-1].Hash {
			t.Errorf("event %d breaks the chain: %+v", i, e)
		}
	}
	for _, path := range []string{"/v1/jobs/99", "/v1/jobs/0", "/v1/jobs/-1", "/v1/jobs/x", "/v1/jobs/99/events", "/v1/jobs/9999999999999999999999"} {
		if w := r.send(r.bearer(r.all, "GET", path, "", "")); w.Code != http.StatusNotFound {
			t.Errorf("%s was answered %d", path, w.Code)
		}
	}
}

func TestPlanIsStateless(t *testing.T) {
	r := newRig(t)
	w := r.send(r.bearer(r.all, "POST", "/v1/plan", "application/json", `{"text":"72 tees in tri-blend, navy, white front print"}`))
	got := decode[planned](t, w)
	if w.Code != 200 || !got.IsOrder || got.Plan.Lines[0].Prints[0].Pick != "plastisol" || len(r.ledger.kept) > 0 {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func TestAddresses(t *testing.T) {
	r := newRig(t)
	for _, c := range []struct {
		method, path string
		want         int
		allow        string
	}{
		{"DELETE", "/v1/jobs/1", 405, "GET, HEAD"}, {"GET", "/v1/orders", 405, "POST"}, {"PUT", "/v1/plan", 405, "POST"},
		{"GET", "/v1/nothing", 404, ""}, {"GET", "/v1/", 404, ""}, {"GET", "/v1/openapi.yaml", 200, ""},
	} {
		w := r.send(r.bearer(r.all, c.method, c.path, "", ""))
		if w.Code != c.want || w.Header().Get("Allow") != c.allow || w.Header().Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s %s: %d, Allow %q", c.method, c.path, w.Code, w.Header().Get("Allow"))
		}
	}
}

func TestRateAndCrowd(t *testing.T) {
	r := newRig(t, func(c *Config) { c.Sources[1].Rate = 1 })
	codes := map[int]int{}
	for range 10 {
		codes[r.send(r.bearer(r.all, "GET", "/v1/jobs", "", "")).Code]++
	}
	if codes[200] != 4 || codes[429] != 6 {
		t.Errorf("at a rate of 1 a second, bursts of 4, ten at once were answered %v", codes)
	}
	// Two places, none may wait: a third that comes while two are held is put down.
	hold, held := make(chan struct{}), make(chan struct{}, 2)
	r = newRig(t, func(c *Config) { c.Limits = Limits{InFlight: 2, Queue: 1, Wait: time.Millisecond} })
	r.api.c.Jobs = slowJobs{r.ledger, hold, held}
	done := make(chan int, 2)
	for range 2 {
		go func() { done <- r.send(r.bearer(r.all, "GET", "/v1/jobs", "", "")).Code }()
	}
	<-held
	<-held
	if w := r.send(r.bearer(r.all, "GET", "/v1/jobs", "", "")); w.Code != 429 || w.Header().Get("Retry-After") == "" {
		t.Errorf("the third was answered %d", w.Code)
	}
	close(hold)
	if a, b := <-done, <-done; a != 200 || b != 200 {
		t.Errorf("those inside were answered %d and %d", a, b)
	}
}

// slowJobs holds every list until it is let go.
type slowJobs struct {
	*shelfedLedger
	hold, held chan struct{}
}

func (s slowJobs) Jobs(ctx context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	s.held <- struct{}{}
	<-s.hold
	return s.shelfedLedger.Jobs(ctx, states, below, n)
}

func TestPanicIsAnswered(t *testing.T) {
	r := newRig(t, func(c *Config) { c.Decide = func(rules.Order, rules.Date) rules.Plan { panic("boom") } })
	w := r.send(r.bearer(r.all, "POST", "/v1/plan", "text/plain", "12 tees"))
	if p := decode[problem](t, w); w.Code != 500 || p.Code != "internal" || strings.Contains(w.Body.String(), "boom") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func TestNewRefuses(t *testing.T) {
	tok, _ := NewToken()
	for name, change := range map[string]func(*Config){
		"no source":         func(c *Config) { c.Sources = nil },
		"a zero secret":     func(c *Config) { c.Sources[0].Keys = Keys{{}} },
		"a zero token":      func(c *Config) { c.Sources[1].Tokens = []Token{{}} },
		"no way in":         func(c *Config) { c.Sources[0].Keys = nil },
		"three secrets":     func(c *Config) { c.Sources[0].Keys = Keys{newSecret(t), newSecret(t), newSecret(t)} },
		"a scope unknown":   func(c *Config) { c.Sources[0].Scopes = []Scope{"sign:off"} },
		"a name with space": func(c *Config) { c.Sources[0].Name = "web form" },
		"two of one name":   func(c *Config) { c.Sources[1].Name = "web-form" },
		"no clock":          func(c *Config) { c.Now = nil },
		"too many sources":  func(c *Config) { c.Sources = make([]Source, 33) },
	} {
		c := newRig(t).api.c
		c.Sources = []Source{{Name: "web-form", Keys: Keys{newSecret(t)}}, {Name: "office", Tokens: []Token{tok}}}
		change(&c)
		if _, err := New(c); err == nil {
			t.Errorf("%s: New took it", name)
		}
	}
	for _, s := range []string{"", "short", strings.Repeat("a", 257), "has a space in it, is long enough"} {
		if _, err := ParseToken(s); err == nil {
			t.Errorf("ParseToken(%q) took it", s)
		}
	}
}
