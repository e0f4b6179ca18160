package page

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

func readAll(t testing.TB, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(io.LimitReader(r.Body, 1<<20))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func (s *site) hour() time.Time { return s.now().Add(time.Hour) }

func TestBoardShowsWhatIsOpen(t *testing.T) {
	s := newSite(t, house(t))
	resp, body := s.get(s.pages.BoardLink(s.hour()))
	if resp.StatusCode != 200 || strings.Contains(resp.Request.URL.String(), "key=") {
		t.Fatalf("%d at %s", resp.StatusCode, resp.Request.URL)
	}
	for _, want := range []string{"Open jobs: 6", "Larkspur Rowing", "test due", "on test", "refused", "cleared", "no date said", "3 days late", "due tomorrow", "Dates in danger"} {
		if !strings.Contains(body, want) {
			t.Errorf("the board does not say %q", want)
		}
	}
	if strings.Contains(body, "Gone Away") {
		t.Error("a closed job is on the board")
	}
	alarm, _, _ := strings.Cut(body[strings.Index(body, "Dates in danger"):], "</section>")
	for id, want := range map[int]bool{1: false, 2: true, 3: false, 4: false, 5: true, 6: false} { // 6 is cleared, though it is due soon
		if got := strings.Contains(alarm, fmt.Sprintf(`href="/jobs/%d"`, id)); got != want {
			t.Errorf("job %d in danger: %v, want %v", id, got, want)
		}
	}
	if late, soon := strings.Index(alarm, `/jobs/5"`), strings.Index(alarm, `/jobs/2"`); late > soon {
		t.Error("the job that is due tomorrow stands before the one that is late")
	}
}

func TestHeaders(t *testing.T) {
	s := newSite(t, house(t), func(c *Config) { c.Base = "https://strikeoff.example" })
	s.client.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	link := strings.Replace(s.pages.BoardLink(s.hour()), "https://strikeoff.example", s.url, 1)
	for _, path := range []string{link, "/board", "/jobs/1", "/static/look.css?v=1", "/static/board.js"} {
		resp, _ := s.get(path)
		h := resp.Header
		csp := h.Get("Content-Security-Policy")
		if !strings.Contains(csp, "default-src 'none'") || strings.Contains(csp, "unsafe") || strings.Contains(csp, "http") || h.Get("X-Content-Type-Options") != "nosniff" ||
			h.Get("Referrer-Policy") != "no-referrer" || h.Get("Strict-Transport-Security") == "" {
			t.Errorf("%s: headers %v", path, h)
		}
	}
	resp, _ := s.get(link)
	c := resp.Cookies()
	if resp.StatusCode != http.StatusSeeOther || len(c) != 1 || !c[0].HttpOnly || !c[0].Secure || c[0].SameSite != http.SameSiteLaxMode || c[0].MaxAge != 3600 || resp.Header.Get("Location") != "/board" {
		t.Errorf("%d to %q, cookies %v", resp.StatusCode, resp.Header.Get("Location"), c)
	}
}

// TestNothingInline: a page has no code or style of its own and loads nothing from elsewhere, or its policy would not hold.
func TestNothingInline(t *testing.T) {
	s := newSite(t, house(t))
	s.get(s.pages.BoardLink(s.hour()))
	for _, path := range []string{"/board", "/jobs/2", "/jobs/2/ticket", "/jobs/99"} {
		_, body := s.get(path)
		for _, bad := range []string{"<style", " style=", "onclick=", "onload=", "javascript:", "http://", "https://", "<script>"} {
			if strings.Contains(strings.ReplaceAll(body, "http://www.w3.org/2000/svg", ""), bad) {
				t.Errorf("%s holds %q", path, bad)
			}
		}
	}
}

func TestCustomersWordsAreNeverMarkup(t *testing.T) {
	l := house(t)
	o := order(`<img src=x onerror=alert(1)>"'`, "2026-12-18")
	o.Unread = append(o.Unread, "</q><b>bold</b>")
	o.Lines[0].Colours[0] = "<i>navy"
	l.do(t, 0, noon, opened(o, true, "</blockquote><script>alert(2)</script>"))
	s := newSite(t, l)
	s.get(s.pages.BoardLink(s.hour()))
	for _, path := range []string{"/board", "/jobs/8", "/jobs/8/ticket"} {
		resp, body := s.get(path)
		if resp.StatusCode != 200 {
			t.Fatalf("%s: %d", path, resp.StatusCode)
		}
		for _, bad := range []string{"<img src=x", "<script>alert", "<b>bold", "<i>navy"} {
			if strings.Contains(body, bad) {
				t.Errorf("%s shows the customer's words as markup: %s", path, bad)
			}
		}
	}
}

func TestJobPage(t *testing.T) {
	s := newSite(t, house(t), func(c *Config) {
		c.Pictures = func(_ context.Context, j bot.Job) ([]Picture, error) {
			return []Picture{{Name: "art.svg", Alt: "The front print (invented)", Type: "image/svg+xml", Data: []byte("<svg/>")}}, nil
		}
	})
	resp, body := s.get(s.pages.JobLink(5, s.hour()))
	if resp.StatusCode != 200 {
		t.Fatal(resp.StatusCode, body)
	}
	for _, want := range []string{"Job 5", "Tall Ships Bakery", "refused", "3 days late", "Lin Ode, lead", "failed wash", "pink cast in the white", "made the test print of plan 1", "72 tees",
		`src="/jobs/5/pictures/art.svg"`, `alt="The front print (invented)"`} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if resp, _ := s.get("/jobs/5/pictures/art.svg"); resp.StatusCode != 200 || !strings.Contains(resp.Header.Get("Content-Security-Policy"), "sandbox") {
		t.Errorf("picture: %d %s", resp.StatusCode, resp.Header.Get("Content-Security-Policy"))
	}
	if resp, _ := s.get("/jobs/5/pictures/other.svg"); resp.StatusCode != 404 {
		t.Errorf("no such picture: %d", resp.StatusCode)
	}
}

func TestTicket(t *testing.T) {
	s := newSite(t, house(t))
	resp, body := s.get(strings.Replace(s.pages.JobLink(2, s.hour()), "/jobs/2?", "/jobs/2/ticket?", 1))
	if resp.StatusCode != 200 {
		t.Fatal(resp.StatusCode, body)
	}
	for _, want := range []string{"Larkspur Rowing", ">2XL<", ">24<", "plastisol", "low bleed white", "132 to 138 °C (270 to 280 °F), 60 to 75 s", "softener, low cure", "43 to 48/cm (110 to 123/in)", "Wash test", "sign 2", "<path d=\"M"} {
		if !strings.Contains(body, want) {
			t.Errorf("the ticket does not say %q", want)
		}
	}
	if n := strings.Count(body, `class="box"`); n != 16 {
		t.Errorf("%d boxes for 8 checks", n)
	}
}

func TestLinks(t *testing.T) {
	s := newSite(t, house(t))
	board, one := s.pages.BoardLink(s.hour()), s.pages.JobLink(2, s.hour())
	strange := newSite(t, house(t), func(c *Config) { c.Keys = [][]byte{[]byte(strings.Repeat("x", 32))} }).pages.BoardLink(s.hour())
	_, key, _ := strings.Cut(strange, "key=")
	_, boardKey, _ := strings.Cut(board, "key=")
	for _, c := range []struct {
		name string
		open []string // links opened before
		path string
		want int
	}{
		{"nobody", nil, "/board", 403}, {"nobody", nil, "/jobs/2", 403}, {"nobody", nil, "/board/changes", 403}, {"nobody, no such job", nil, "/jobs/99", 403},
		{"board", []string{board}, "/board", 200}, {"board sees jobs", []string{board}, "/jobs/2", 200}, {"board, no such job", []string{board}, "/jobs/99", 404},
		{"board, bad number", []string{board}, "/jobs/x", 404},
		{"one job", []string{one}, "/jobs/2", 200}, {"its ticket", []string{one}, "/jobs/2/ticket", 200}, {"not another", []string{one}, "/jobs/3", 403},
		{"not the board", []string{one}, "/board", 403}, {"both", []string{one, board}, "/jobs/3", 200},
		{"another shop's key", nil, "/board?key=" + key, 403}, {"changed", nil, "/board?key=" + strings.Replace(boardKey, "b.", "b.1", 1), 403},
		{"job key on the board", nil, strings.Replace(one, "/jobs/2?", "/board?", 1), 403}, {"garbage", nil, "/board?key=%00%ff", 403}, {"empty proof", nil, "/board?key=b.99999999999.", 403},
		{"no wall was made", nil, "/board?key=w.", 403},
	} {
		s.fresh()
		for _, l := range c.open {
			s.get(l)
		}
		if resp, body := s.get(c.path); resp.StatusCode != c.want || c.want != 200 && !strings.Contains(body, "<h1>") {
			t.Errorf("%s: %s answered %d, want %d", c.name, c.path, resp.StatusCode, c.want)
		}
	}
	s.fresh()
	s.get(board)
	s.mu.Lock()
	s.at = s.at.Add(time.Hour)
	s.mu.Unlock()
	if resp, body := s.get("/board"); resp.StatusCode != 403 || !strings.Contains(body, "over") {
		t.Errorf("an hour later: %d", resp.StatusCode)
	}
}

// TestKeysChangeOver: links of the old key stay good while it is still listed.
func TestKeysChangeOver(t *testing.T) {
	l := house(t)
	old, fresh := []byte(strings.Repeat("o", 32)), []byte(strings.Repeat("n", 32))
	link := func(keys ...[]byte) *site { return newSite(t, l, func(c *Config) { c.Keys = keys }) }
	_, key, _ := strings.Cut(link(old).pages.BoardLink(noon.Add(1000*time.Hour)), "key=")
	if resp, _ := link(fresh, old).get("/board?key=" + key); resp.StatusCode != 200 {
		t.Errorf("while both are listed: %d", resp.StatusCode)
	}
	if resp, _ := link(fresh).get("/board?key=" + key); resp.StatusCode != 403 {
		t.Errorf("after the old was taken out: %d", resp.StatusCode)
	}
}

func TestWallLink(t *testing.T) {
	s := newSite(t, house(t))
	first, err := s.pages.MakeWall(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if resp, _ := s.get(first); resp.StatusCode != 200 {
		t.Fatalf("the wall link: %d", resp.StatusCode)
	}
	for k, v := range s.ledger.cursor {
		if _, key, _ := strings.Cut(first, "key="); strings.Contains(v, key) || v == "" {
			t.Errorf("the ledger keeps %s = %q", k, v)
		}
	}
	second, err := s.pages.MakeWall(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if resp, _ := s.get("/board"); resp.StatusCode != 403 {
		t.Errorf("the first link still opens: %d", resp.StatusCode)
	}
	s.get(second)
	if err := s.pages.RevokeWall(context.Background()); err != nil {
		t.Fatal(err)
	}
	if resp, _ := s.get("/board"); resp.StatusCode != 403 {
		t.Errorf("after it was taken back: %d", resp.StatusCode)
	}
}

func TestLedgerDown(t *testing.T) {
	s := newSite(t, house(t))
	s.get(s.pages.BoardLink(s.hour()))
	s.ledger.mu.Lock()
	s.ledger.down = fmt.Errorf("redis://secret: %w", job.ErrDown)
	s.ledger.mu.Unlock()
	if resp, body := s.get("/board"); resp.StatusCode != 503 || strings.Contains(body, "secret") || resp.Header.Get("Retry-After") == "" {
		t.Errorf("%d %s", resp.StatusCode, body)
	}
}

// events reads a stream's data lines.
func (s *site) events(ctx context.Context) <-chan string {
	req, err := http.NewRequestWithContext(ctx, "GET", s.url+"/board/changes", nil)
	if err != nil {
		s.t.Fatal(err)
	}
	c := *s.client
	c.Timeout = 0
	resp, err := c.Do(req)
	if err != nil {
		s.t.Fatal(err)
	}
	out := make(chan string, 16)
	go func() {
		defer close(out)
		defer resp.Body.Close()
		for sc := bufio.NewScanner(resp.Body); sc.Scan(); {
			if d, ok := strings.CutPrefix(sc.Text(), "data: "); ok {
				out <- d
			}
		}
	}()
	return out
}

// wait is the next event, which must come soon.
func wait(t testing.TB, c <-chan string) string {
	t.Helper()
	select {
	case v := <-c:
		return v
	case <-time.After(10 * time.Second):
		t.Fatal("no event came")
		return ""
	}
}

func TestStreamTellsOfChanges(t *testing.T) {
	s := newSite(t, house(t), func(c *Config) { c.Streams = 2 })
	wall, err := s.pages.MakeWall(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	s.get(wall)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	a, b := s.events(ctx), s.events(ctx)
	first := wait(t, a)
	if other := wait(t, b); other != first {
		t.Errorf("two boards were told of %q and %q", first, other)
	}
	if resp, _ := s.get("/board/changes"); resp.StatusCode != 503 {
		t.Errorf("a third stream of two: %d", resp.StatusCode)
	}
	if _, body := s.get("/board"); !strings.Contains(body, `data-version="`+first+`"`) {
		t.Error("the board does not carry the version that the stream tells")
	}
	s.ledger.do(t, 3, s.now(), job.Event{Kind: job.Printed, By: lead, PlanRev: 1})
	s.pages.Nudge()
	if second := wait(t, a); second == first {
		t.Error("a job moved and the version stayed")
	}
	if err := s.pages.RevokeWall(context.Background()); err != nil {
		t.Fatal(err)
	}
	for v := range a { // the channel closes when the server ends the stream
		if v == "over" {
			return
		}
	}
	t.Error("the wall link was taken back and the stream ended without saying so")
}

func TestNewRefuses(t *testing.T) {
	good := newSite(t, house(t)).pages.c
	for name, change := range map[string]func(*Config){
		"no ledger": func(c *Config) { c.Jobs = nil }, "no address": func(c *Config) { c.Base = "" }, "no key": func(c *Config) { c.Keys = nil },
		"an empty key": func(c *Config) { c.Keys = [][]byte{{}} }, "a short second key": func(c *Config) { c.Keys = append(c.Keys, []byte("short")) },
	} {
		bad := good
		change(&bad)
		if _, err := New(bad); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
