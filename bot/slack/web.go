package slack

import (
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"net/url"
)

// ServeHTTP takes Slack's requests: events, interactions and slash commands, all at one address. A request that Slack did not sign in the
// last 5 minutes is refused and nothing of it is read further. An event that could not be kept is answered 503, so that Slack sends it again;
// that a request is such a second one (its X-Slack-Retry headers) changes nothing, for it may be the only one that gets through.
func (d *Door) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodPost {
		w.Header().Set("Allow", http.MethodPost)
		http.Error(w, "only POST", http.StatusMethodNotAllowed)
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, d.c.Limits.BodyBytes))
	if err != nil {
		if _, big := errors.AsType[*http.MaxBytesError](err); big {
			http.Error(w, "the request is too large", http.StatusRequestEntityTooLarge)
			return
		}
		http.Error(w, "the request could not be read", http.StatusBadRequest)
		return
	}
	if err := verify(d.c.SigningSecret, r.Header, body, d.c.Now()); err != nil {
		d.log.Warn("a request was refused", "why", err)
		http.Error(w, "the request is not signed by Slack, or too old", http.StatusUnauthorized)
		return
	}
	kind, payload, challenge, err := sorted(r.Header.Get("Content-Type"), body)
	if err != nil {
		http.Error(w, "the request is neither JSON nor a form", http.StatusBadRequest)
		return
	}
	if challenge != "" { // Slack asks once whether we are here
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		io.WriteString(w, challenge)
		return
	}
	rep, err := d.take(r.Context(), kind, payload)
	if err != nil {
		d.log.Error("a delivery was not kept; Slack will send it again", "kind", kind, "err", d.scrub.err(err))
		w.Header().Set("Retry-After", "1")
		http.Error(w, "not kept, send it again", http.StatusServiceUnavailable)
		return
	}
	if rep.body != nil {
		w.Header().Set("Content-Type", "application/json; charset=utf-8")
		json.NewEncoder(w).Encode(rep.body)
	}
	d.later(rep.after)
}

// sorted tells the kinds of request apart and gives the payload as JSON.
func sorted(contentType string, body []byte) (kind string, payload []byte, challenge string, err error) {
	ct, _, err := mime.ParseMediaType(contentType)
	if err != nil {
		return "", nil, "", err
	}
	switch ct {
	case "application/json":
		if f, err := readFields(body); err == nil && f.str("type") == "url_verification" {
			return kindEvent, nil, f.str("challenge"), nil
		}
		return kindEvent, body, "", nil
	case "application/x-www-form-urlencoded":
		form, err := url.ParseQuery(string(body))
		if err != nil {
			return "", nil, "", err
		}
		if p := form.Get("payload"); p != "" {
			return kindPress, []byte(p), "", nil
		}
		flat := map[string]string{}
		for k := range form {
			flat[k] = form.Get(k)
		}
		return kindSlash, mustJSON(flat), "", nil
	}
	return "", nil, "", errors.New("content type " + ct)
}
