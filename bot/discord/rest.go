package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/textproto"
	"net/url"
	"strconv"
	"strings"
	"time"
)

const (
	apiBase     = "https://discord.com/api/v10"
	answerLimit = 8 << 20 // bytes of an answer that are read; a page of 100 long messages stays well below
	callTries   = 5       // attempts at one call, the waits that Discord asks for included
)

// rest speaks to Discord's HTTP API. Unlike the library's client it waits with one eye on the context, never repeats a call whose
// repetition would show, and keeps tokens out of its errors.
type rest struct {
	base   string
	token  string
	client *http.Client
	now    func() time.Time
	wait   func(ctx context.Context, d time.Duration) error
	limits *limits
}

// call is one request.
type call struct {
	method string
	path   string // below the base, starting with "/"
	query  url.Values
	body   any
	file   *upload
	free   bool // an interaction's endpoint: it needs no token of ours and does not count against the global limit
	again  bool // safe to repeat where the outcome of an attempt is unknown
}

// upload is a file that goes with a call.
type upload struct {
	name string
	data []byte
}

// apiError is an answer of Discord that is no success.
type apiError struct {
	Method, Path string // the path with its tokens taken out
	Status       int
	Code         int    // Discord's own code; 0 where it gave none
	Message      string // Discord's own words
	after        time.Duration
	global       bool
}

func (e *apiError) Error() string {
	return fmt.Sprintf("discord: %s %s: status %d, code %d: %s", e.Method, e.Path, e.Status, e.Code, e.Message)
}

// Discord's own codes, from its documentation's list of JSON error codes.
const (
	codeUnknownChannel = 10003
	codeUnknownMessage = 10008
	codeUnknownHook    = 10015 // the interaction's token has run out
	codeUnknownInter   = 10062 // the same, at the callback
	codeAcknowledged   = 40060 // the interaction was answered already
	codeNotOurs        = 50005 // cannot edit a message of another author
	codeHookToken      = 50027 // invalid webhook token: the same again
	codeArchived       = 50083 // the thread is archived
	codeHasThread      = 160004
)

// is reports whether err is an answer of Discord's with one of the codes.
func is(err error, codes ...int) bool {
	var e *apiError
	if !errors.As(err, &e) {
		return false
	}
	for _, c := range codes {
		if e.Code == c {
			return true
		}
	}
	return false
}

// refused reports whether Discord understood the call and will refuse it however often it is repeated.
func refused(err error) bool {
	var e *apiError
	return errors.As(err, &e) && e.Status >= 400 && e.Status < 500 && e.Status != http.StatusTooManyRequests && e.Status != http.StatusUnauthorized &&
		e.Status != http.StatusRequestTimeout
}

// do makes a call and decodes the answer into out, unless out is nil. It waits for the route's bucket and the global limit before, and as
// long as Discord asks after a 429, but never beyond ctx.
func (r *rest) do(ctx context.Context, c call, out any) error {
	body, kind, err := encode(c)
	if err != nil {
		return fmt.Errorf("discord: encode for %s %s: %w", c.method, scrubPath(c.path), err)
	}
	for try := 1; ; try++ {
		if err := r.limits.take(ctx, c, r.now, r.wait); err != nil {
			return fmt.Errorf("discord: waiting to %s %s: %w", c.method, scrubPath(c.path), err)
		}
		answer, err := r.once(ctx, c, body, kind)
		if err == nil {
			if out == nil || len(answer) == 0 {
				return nil
			}
			if err := json.Unmarshal(answer, out); err != nil {
				return fmt.Errorf("discord: read the answer to %s %s: %w", c.method, scrubPath(c.path), err)
			}
			return nil
		}
		pause, more := r.repeat(c, err, try)
		if !more || try >= callTries {
			return err
		}
		if within(ctx, pause, r.wait) != nil {
			return err
		}
	}
}

// encode writes a call's body: JSON, or parts where a file goes with it.
func encode(c call) (body []byte, kind string, err error) {
	if c.body == nil {
		return nil, "", nil
	}
	body, err = json.Marshal(c.body)
	if err != nil || c.file == nil {
		return body, "application/json", err
	}
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	part, err := w.CreatePart(textproto.MIMEHeader{"Content-Disposition": {`form-data; name="payload_json"`}, "Content-Type": {"application/json"}})
	if err == nil {
		_, err = part.Write(body)
	}
	if err == nil {
		part, err = w.CreateFormFile("files[0]", c.file.name)
	}
	if err == nil {
		_, err = part.Write(c.file.data)
	}
	if err == nil {
		err = w.Close()
	}
	return b.Bytes(), w.FormDataContentType(), err
}

// repeat says whether a failed call is worth another attempt, and after how long.
func (r *rest) repeat(c call, err error, try int) (time.Duration, bool) {
	var e *apiError
	switch {
	case !errors.As(err, &e):
		return time.Duration(try) * 250 * time.Millisecond, c.again // the connection broke: nobody knows what became of the call
	case e.Status == http.StatusTooManyRequests:
		return e.after, true // it was not carried out, whatever it was
	case e.Status >= 500:
		return time.Duration(try) * 500 * time.Millisecond, c.again
	}
	return 0, false
}

// once makes one attempt.
func (r *rest) once(ctx context.Context, c call, body []byte, kind string) ([]byte, error) {
	address := r.base + c.path
	if len(c.query) > 0 {
		address += "?" + c.query.Encode()
	}
	var rd io.Reader
	if body != nil {
		rd = bytes.NewReader(body)
	}
	req, err := http.NewRequestWithContext(ctx, c.method, address, rd)
	if err != nil {
		return nil, scrubbed(err, c.method, c.path)
	}
	req.Header.Set("User-Agent", "DiscordBot (https://strikeoff.invalid, 1)")
	if body != nil {
		req.Header.Set("Content-Type", kind)
	}
	if !c.free {
		req.Header.Set("Authorization", "Bot "+r.token)
	}
	res, err := r.client.Do(req)
	if err != nil {
		return nil, scrubbed(err, c.method, c.path)
	}
	defer res.Body.Close()
	answer, err := io.ReadAll(io.LimitReader(res.Body, answerLimit))
	r.limits.learn(c, res.Header, r.now())
	if res.StatusCode >= 200 && res.StatusCode < 300 {
		if err != nil {
			return nil, scrubbed(err, c.method, c.path)
		}
		return answer, nil
	}
	e := &apiError{Method: c.method, Path: scrubPath(c.path), Status: res.StatusCode, Message: http.StatusText(res.StatusCode)}
	var said struct {
		Code    int     `json:"code"`
		Message string  `json:"message"`
		After   float64 `json:"retry_after"`
		Global  bool    `json:"global"`
	}
	if json.Unmarshal(answer, &said) == nil {
		e.Code, e.global, e.after = said.Code, said.Global, seconds(said.After)
		if said.Message != "" {
			e.Message = said.Message
		}
	}
	if res.StatusCode == http.StatusTooManyRequests {
		if s, err := strconv.ParseFloat(res.Header.Get("Retry-After"), 64); err == nil && seconds(s) > e.after {
			e.after = seconds(s)
		}
		if e.after <= 0 {
			e.after = time.Second
		}
		if e.global || res.Header.Get("X-RateLimit-Global") == "true" {
			r.limits.halt(r.now().Add(e.after))
		}
	}
	return nil, e
}

// seconds is a number of seconds as Discord writes them, as a duration.
func seconds(s float64) time.Duration {
	if s <= 0 || s > 1e6 {
		return 0
	}
	return time.Duration(s * float64(time.Second))
}

// scrubPath is a path fit for a log: what follows a webhook's or an interaction's id is a secret.
func scrubPath(path string) string {
	parts := strings.Split(path, "/")
	for i := 0; i+2 < len(parts); i++ {
		if parts[i] == "webhooks" || parts[i] == "interactions" {
			parts[i+2] = "…"
		}
	}
	return strings.Join(parts, "/")
}

// scrubbed is a transport error without the address in it, since the address may carry a token.
func scrubbed(err error, method, path string) error {
	var u *url.Error
	if errors.As(err, &u) {
		err = u.Err
	}
	return fmt.Errorf("discord: %s %s: %w", method, scrubPath(path), err)
}

// sleep waits for d, or until ctx ends.
func sleep(ctx context.Context, d time.Duration) error {
	if d <= 0 {
		return ctx.Err()
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-t.C:
		return nil
	}
}
