package page

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"
)

// FuzzPages asks for anything with anything in hand. Whatever comes: no failure inside, every answer carries the policy, nobody is sent to
// another site, and nobody sees a job that they have no link to.
func FuzzPages(f *testing.F) {
	s := newSite(f, house(f))
	mux := http.NewServeMux()
	s.pages.Register(mux)
	keyOf := func(link string) string {
		u, err := url.Parse(link)
		if err != nil {
			f.Fatal(err)
		}
		return u.Query().Get(keyParam)
	}
	// What may be in hand: nothing, the link to job 2, the board's.
	keys := []string{"", keyOf(s.pages.JobLink(2, s.hour())), keyOf(s.pages.BoardLink(s.hour()))}
	f.Add("GET", "/board", "", uint8(0))
	f.Add("GET", "/board", "", uint8(2))
	f.Add("GET", "/board/changes", "", uint8(2))
	f.Add("GET", "/jobs/2/ticket?paper=letter", "", uint8(1))
	f.Add("GET", "/jobs/4", keys[1], uint8(1))
	f.Add("GET", "/jobs/4?key="+keys[1], "", uint8(0))
	f.Add("GET", "/jobs/9223372036854775808/pictures/..%2f..%2fx", "w.", uint8(2))
	f.Add("HEAD", "//elsewhere.example/board?key="+keys[2], "b.1.", uint8(0))
	f.Add("GET", "/static/look.css", "", uint8(0))
	f.Fuzz(func(t *testing.T, method, target, cookie string, hand uint8) {
		ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond) // the changes of a board go on for ever
		defer cancel()
		req, err := http.NewRequestWithContext(ctx, method, "http://strikeoff.example"+target, nil)
		if err != nil || req.URL.Host != "strikeoff.example" || !strings.HasPrefix(req.URL.Path, "/") {
			return
		}
		req.RequestURI = target
		key := keys[int(hand)%len(keys)]
		if key != "" {
			req.AddCookie(&http.Cookie{Name: keyCookie, Value: key})
		}
		if cookie != "" {
			req.Header.Add("Cookie", keyCookie+"="+cookie)
		}
		w := httptest.NewRecorder()
		mux.ServeHTTP(w, req)
		if w.Code >= 500 {
			t.Fatalf("%s %q: %d\n%s", method, target, w.Code, w.Body)
		}
		if to := w.Header().Get("Location"); to != "" && (!strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") || strings.HasPrefix(to, `/\`)) {
			t.Fatalf("%s %q sends people to %q", method, target, to)
		}
		_, route := mux.Handler(req)
		if route != "" && w.Header().Get("Content-Security-Policy") != policy && w.Header().Get("Location") == "" && w.Code != http.StatusMethodNotAllowed {
			t.Fatalf("%s %q: no policy", method, target)
		}
		body := w.Body.String()
		known := strings.Contains(cookie, keys[1]) || strings.Contains(target, keys[1]) || key == keys[1]
		all := strings.Contains(cookie, keys[2]) || strings.Contains(target, keys[2]) || key == keys[2]
		for _, c := range []struct {
			customer string
			may      bool
		}{{"Larkspur Rowing", known || all}, {"Tall Ships Bakery", all}, {"Nobody Choir", all}, {"Gone Away Cycles", all}} {
			if strings.Contains(body, c.customer) && !c.may {
				t.Fatalf("%s %q shows %s to somebody who has no link to it", method, target, c.customer)
			}
		}
	})
}
