package webhook

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// FuzzHTTP sends anything to any address of the API. Whatever comes: no panic (a 500 is one), every refusal is a problem as openapi.yaml
// describes it, and an order is kept if and only if it was acknowledged.
func FuzzHTTP(f *testing.F) {
	f.Add("POST", "/v1/orders", "application/json", words, "m1", true)
	f.Add("POST", "/v1/orders", "text/plain", "72 tees", "m.1", true)
	f.Add("POST", "/v1/orders", "application/json", `{"order":{"lines":[{"quantity":1e99,"sizes":{"M":-1},"prints":[null]}]}}`, "m2", false)
	f.Add("POST", "/v1/orders", "multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\nx\r\n--b--\r\n", "m3", true)
	f.Add("POST", "/v1/orders", `multipart/form-data; boundary="`, "--", "m4", true)
	f.Add("POST", "/v1/plan", "application/json", `{"text":"72 tees","received":"2026-13-01"}`, "", true)
	f.Add("GET", "/v1/jobs?state=asking&due=2026-12-01&cursor=YmVsb3cgMg", "", "", "", true)
	f.Add("GET", "/v1/jobs/1/events?after=1&limit=1", "", "", "", true)
	f.Add("GET", "/v1/orders/%2e%2e", "", "", "", true)
	r := newRig(f)
	r.ledger.house(f)
	kept := 0
	f.Fuzz(func(t *testing.T, method, target, kind, body, id string, known bool) {
		req, err := http.NewRequest(method, "http://strikeoff.example"+target, strings.NewReader(body))
		if err != nil || !strings.HasPrefix(req.URL.Path, "/v1/") {
			return
		}
		req.RequestURI = target
		req.Header.Set("Content-Type", kind)
		req.Header.Set(headerID, id)
		if known {
			req.Header.Set("Authorization", "Bearer "+r.all)
		}
		w := httptest.NewRecorder()
		r.mux.ServeHTTP(w, req)
		if w.Code == http.StatusTemporaryRedirect || w.Code == http.StatusMovedPermanently {
			return // the mux cleans the path
		}
		if w.Code == 500 {
			t.Fatalf("%s %q: %s", method, target, w.Body)
		}
		if method != "HEAD" {
			described(t).hold(t, req, w)
		}
		if w.Code == http.StatusAccepted {
			kept++
		}
		r.ledger.mu.Lock()
		defer r.ledger.mu.Unlock()
		if len(r.ledger.kept) != kept {
			t.Fatalf("%d orders acknowledged, %d kept", kept, len(r.ledger.kept))
		}
	})
}
