package webhook

import (
	"encoding/json"
	"net/http"
	"strconv"
	"time"
)

// problem is an answer that says what was wrong, by RFC 9457 (Problem Details for HTTP APIs). Its type is always about:blank, which that
// RFC gives to problems that the status names; code tells ours apart. Two readers: detail and next are sentences for a person.
type problem struct {
	Type   string  `json:"type"`
	Title  string  `json:"title"` // the status in words
	Status int     `json:"status"`
	Detail string  `json:"detail"`           // what was wrong
	Code   string  `json:"code"`             // one short word for programs, see openapi.yaml
	Kept   bool    `json:"kept"`             // whether something of the request was kept
	Next   string  `json:"next"`             // what to do now
	Faults []fault `json:"faults,omitempty"` // what was wrong field by field

	after time.Duration // when to try again; 0 for unsaid
	realm bool          // ask for credentials
}

// fault is one field that could not be taken.
type fault struct {
	Pointer string `json:"pointer"` // RFC 6901 into the body
	Detail  string `json:"detail"`
}

func (p problem) Error() string { return p.Code + ": " + p.Detail }

// answer writes the problem.
func (p problem) answer(w http.ResponseWriter) {
	p.Type, p.Title = "about:blank", http.StatusText(p.Status)
	if p.realm {
		w.Header().Set("WWW-Authenticate", `Bearer realm="strikeoff"`)
	}
	if p.after > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(int((p.after+time.Second-1)/time.Second)))
	}
	writeJSON(w, p.Status, "application/problem+json", p)
}

// The problems that are the same wherever they arise.
var (
	errMethod = problem{Status: http.StatusMethodNotAllowed, Code: "method", Detail: "This address does not take that method.",
		Next: "See /v1/openapi.yaml for the methods of each address."}
	errPath = problem{Status: http.StatusNotFound, Code: "no-such-address", Detail: "There is nothing at this address.",
		Next: "See /v1/openapi.yaml for the addresses there are."}
	errNoJob = problem{Status: http.StatusNotFound, Code: "no-such-job", Detail: "There is no job with that number.",
		Next: "List the jobs with GET /v1/jobs."}
	errLedger = problem{Status: http.StatusServiceUnavailable, Code: "ledger-down", Detail: "The ledger cannot be reached, so nothing was kept or read.",
		Next: "Send the same request again after the time in Retry-After; the same webhook-id is kept once.", after: 5 * time.Second}
	errBusy = problem{Status: http.StatusTooManyRequests, Code: "busy", Detail: "Too much is being asked at once, so this request was put down unread.",
		Next: "Send the same request again after the time in Retry-After.", after: 2 * time.Second}
	errBacklog = problem{Status: http.StatusTooManyRequests, Code: "backlog", Detail: "More orders wait to be read than this shop set as its limit, so nothing was kept.",
		Next: "Send the same request again after the time in Retry-After.", after: 30 * time.Second}
	errDraining = problem{Status: http.StatusServiceUnavailable, Code: "stopping", Detail: "This server is being stopped, so nothing was kept.",
		Next: "Send the same request again after the time in Retry-After.", after: 5 * time.Second}
	errInside = problem{Status: http.StatusInternalServerError, Code: "internal", Detail: "Something went wrong inside; it is in the log.",
		Next: "Send the same request again later; the same webhook-id is kept once."}
)

// writeJSON writes v as JSON. What it writes is always ours, so it always marshals.
func writeJSON(w http.ResponseWriter, status int, kind string, v any) {
	b, err := json.Marshal(v)
	if err != nil {
		http.Error(w, "internal", http.StatusInternalServerError)
		return
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(append(b, '\n')) // a caller that went away has nothing to be told
}
