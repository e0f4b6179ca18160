package slack

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// request is a signed request to the door.
func request(s *stage, contentType, body string, at time.Time) *http.Request {
	r := httptest.NewRequest(http.MethodPost, "/slack", strings.NewReader(body))
	stamp := strconv.FormatInt(at.Unix(), 10)
	r.Header.Set("Content-Type", contentType)
	r.Header.Set("X-Slack-Request-Timestamp", stamp)
	r.Header.Set("X-Slack-Signature", fake.Sign(signing, stamp, []byte(body)))
	return r
}

func (s *stage) serve(r *http.Request) *http.Response {
	w := httptest.NewRecorder()
	s.door.ServeHTTP(w, r)
	s.quiet()
	return w.Result()
}

const aMessage = `{"type":"event_callback","team_id":"T0TEST","event":{"type":"message","channel":"C0ORDERS","user":"U0REP","ts":"1764061200.000100","text":"72 tees"}}`

// Ensure that what Slack did not sign, or what is no proper request, is refused and nothing of it is kept.
func TestRefusedRequests(t *testing.T) {
	s, clock := hearing(t, func(c *Config) { c.Limits.BodyBytes = 1000 })
	for _, c := range []struct {
		name string
		make func() *http.Request
		want int
	}{
		{"GET", func() *http.Request { return httptest.NewRequest(http.MethodGet, "/slack", nil) }, http.StatusMethodNotAllowed},
		{"unsigned", func() *http.Request {
			return httptest.NewRequest(http.MethodPost, "/slack", strings.NewReader(aMessage))
		}, http.StatusUnauthorized},
		{"stale", func() *http.Request { return request(s, "application/json", aMessage, clock.Now().Add(-6*time.Minute)) }, http.StatusUnauthorized},
		{"from the future", func() *http.Request { return request(s, "application/json", aMessage, clock.Now().Add(6*time.Minute)) }, http.StatusUnauthorized},
		{"changed after signing", func() *http.Request {
			r := request(s, "application/json", aMessage, clock.Now())
			r.Body = io.NopCloser(bytes.NewReader([]byte(strings.Replace(aMessage, "72", "73", 1))))
			return r
		}, http.StatusUnauthorized},
		{"too large", func() *http.Request {
			return request(s, "application/json", aMessage+strings.Repeat(" ", 1000), clock.Now())
		}, http.StatusRequestEntityTooLarge},
		{"neither JSON nor form", func() *http.Request { return request(s, "text/plain", aMessage, clock.Now()) }, http.StatusBadRequest},
		{"no content type", func() *http.Request { return request(s, "", aMessage, clock.Now()) }, http.StatusBadRequest},
	} {
		r := s.serve(c.make())
		body, _ := io.ReadAll(r.Body)
		if r.StatusCode != c.want {
			t.Errorf("%s: %d %s, want %d", c.name, r.StatusCode, body, c.want)
		}
		if strings.Contains(string(body), "v0=") {
			t.Errorf("%s: the answer shows a signature: %s", c.name, body)
		}
	}
	s.none(clock)
	if r := s.serve(request(s, "application/json", aMessage, clock.Now())); r.StatusCode != http.StatusOK {
		t.Fatalf("a proper request: %d", r.StatusCode)
	}
	s.one(clock)
}

// Ensure that Slack's question whether we are here is answered in plain text, and only where Slack asked it.
func TestChallenge(t *testing.T) {
	s, clock := hearing(t, nil)
	r := s.serve(request(s, "application/json", `{"token":"x","challenge":"3eZbrw1aBm","type":"url_verification"}`, clock.Now()))
	body, _ := io.ReadAll(r.Body)
	if r.StatusCode != 200 || string(body) != "3eZbrw1aBm" || !strings.HasPrefix(r.Header.Get("Content-Type"), "text/plain") {
		t.Errorf("%d %q %s", r.StatusCode, body, r.Header.Get("Content-Type"))
	}
}

// Ensure that a door without a signing secret takes no request at all.
func TestNoSigningSecret(t *testing.T) {
	s, clock := hearing(t, func(c *Config) { c.SigningSecret, c.AppToken = "", appToken })
	if r := s.serve(request(s, "application/json", aMessage, clock.Now())); r.StatusCode != http.StatusUnauthorized {
		t.Errorf("%d", r.StatusCode)
	}
	s.none(clock)
}

// Ensure that an event that could not be kept is answered 503, and that its redelivery, which says that it is one, is kept: it may be the
// only one that gets through.
func TestRedeliveryAfterOutage(t *testing.T) {
	clock := bottest.NewClock()
	out := &bottest.Outage{Ledger: newLedger(t)}
	s := open(t, bottest.NewDesk(out, clock), overHTTP, nil)
	out.Down.Store(true)
	if r := s.serve(request(s, "application/json", aMessage, clock.Now())); r.StatusCode != http.StatusServiceUnavailable {
		t.Fatalf("%d, want 503", r.StatusCode)
	}
	out.Down.Store(false)
	for n := 1; n <= 3; n++ {
		r := request(s, "application/json", aMessage, clock.Now())
		r.Header.Set("X-Slack-Retry-Num", strconv.Itoa(n))
		r.Header.Set("X-Slack-Retry-Reason", "http_error")
		if r := s.serve(r); r.StatusCode != http.StatusOK {
			t.Fatalf("redelivery %d: %d", n, r.StatusCode)
		}
	}
	s.desk.Ledger = out.Ledger
	if in := s.one(clock); in.Text != "72 tees" {
		t.Errorf("kept %+v", in)
	}
}

// Ensure that what was not kept is fetched before a later message of the channel is kept, so that a reply is not read before its request.
func TestOrderAfterOutage(t *testing.T) {
	clock := bottest.NewClock()
	out := &bottest.Outage{Ledger: newLedger(t)}
	s := open(t, bottest.NewDesk(out, clock), overHTTP, nil)
	ts := s.Say(bottest.Rep, "", bottest.Request)
	out.Down.Store(true)
	_, d := s.slack.Say(orders, repID, ts, "make it 60")
	if s.settle(d) {
		t.Fatal("acknowledged though it was not kept")
	}
	out.Down.Store(false)
	s.Say(bottest.Rep, ts, "no, 61")
	got := kept(t, out.Ledger, clock.Now())
	if len(got) != 3 || got[0].Text != bottest.Request || got[1].Text != "make it 60" || got[2].Text != "no, 61" {
		t.Errorf("kept %+v", got)
	}
}

// Ensure that whatever bytes come with a right signature, the door does not panic.
func FuzzServe(f *testing.F) {
	f.Add("application/json", aMessage)
	f.Add("application/x-www-form-urlencoded", "payload=%7B%22type%22%3A%22block_actions%22%2C%22actions%22%3A%5B%7B%22type%22%3A%22button%22%2C%22value%22%3A%22x%22%7D%5D%7D")
	f.Add("application/x-www-form-urlencoded", "command=%2Fstrikeoff&text=help&trigger_id=1")
	f.Add("application/x-www-form-urlencoded", `payload={"type":"view_submission","view":{"callback_id":"words","private_metadata":"{}"}}`)
	f.Add("application/x-www-form-urlencoded", `payload={"type":"message_action","message":{"ts":"x"}}`)
	clock := bottest.NewClock()
	slack := newFake(f, clock.Now, time.Second)
	d := bottest.NewDesk(newLedger(f), clock)
	door, err := New(d, Config{BotToken: botToken, SigningSecret: signing, APIURL: slack.APIURL(), Now: clock.Now})
	if err != nil {
		f.Fatal(err)
	}
	d.Doors = map[string]bot.Poster{Name: door}
	f.Fuzz(func(t *testing.T, contentType, body string) {
		s := &stage{t: t, door: door}
		if r := s.serve(request(s, contentType, body, clock.Now())); r.StatusCode >= 500 {
			t.Errorf("%d for %q", r.StatusCode, body)
		}
	})
}
