package webhook

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"golang.org/x/time/rate"

	"strikeoff/bot"
)

// Scope is something a source may do.
type Scope string

// The scopes.
const (
	WriteOrders Scope = "orders:write" // hand in orders
	ReadJobs    Scope = "jobs:read"    // read jobs and what happened to them
	AskPlans    Scope = "plans:ask"    // have an order planned without a job
)

// Scopes lists every scope.
var Scopes = []Scope{WriteOrders, ReadJobs, AskPlans}

// Source is a program that may use the API: a web form, a mail gateway, the shop's own software.
type Source struct {
	Name   string    // short, letters, digits and hyphens: the job's history names it
	Keys   Keys      // verify what it signs; only orders can come signed
	Tokens []Token   // bearer tokens it may use instead
	Scopes []Scope   // what it may do
	Room   bot.Place // where its jobs are talked about; the zero place is this door's own room with the source's name
	Rate   float64   // requests a second, in bursts of four seconds' worth; 0 is 10

	limit *rate.Limiter
}

// Token is the fingerprint of a bearer token; the token itself is not held.
type Token struct {
	sum [sha256.Size]byte
	set bool
}

// ParseToken takes a token as an operator wrote it: 24 to 256 characters of the alphabet of RFC 6750.
func ParseToken(s string) (Token, error) {
	if len(s) < 24 || len(s) > 256 {
		return Token{}, fmt.Errorf("a bearer token must be 24 to 256 characters long, this one has %d", len(s))
	}
	for _, c := range []byte(s) {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-._~+/=", c) >= 0) {
			return Token{}, errors.New("a bearer token may hold letters, digits and - . _ ~ + / = only")
		}
	}
	return Token{sum: sha256.Sum256([]byte(s)), set: true}, nil
}

// NewToken makes a token of 32 random bytes and returns it with its written form, which is shown once.
func NewToken() (Token, string) {
	b := make([]byte, 32)
	_, _ = rand.Read(b) // never fails: crypto/rand ends the program instead
	s := "so_" + base64.RawURLEncoding.EncodeToString(b)
	return Token{sum: sha256.Sum256([]byte(s)), set: true}, s
}

// check says what is wrong with a source's settings, and fills in what was left out.
func (s *Source) check() error {
	if s.Name == "" || len(s.Name) > 40 || strings.Trim(s.Name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") != "" {
		return fmt.Errorf("the source name %q must be 1 to 40 letters, digits and hyphens", s.Name)
	}
	for _, k := range s.Keys {
		if len(k.key) == 0 {
			return fmt.Errorf("source %s has an empty signing secret", s.Name)
		}
	}
	for _, t := range s.Tokens {
		if !t.set {
			return fmt.Errorf("source %s has an empty bearer token", s.Name)
		}
	}
	if len(s.Keys) == 0 && len(s.Tokens) == 0 {
		return fmt.Errorf("source %s has neither a signing secret nor a bearer token", s.Name)
	}
	if len(s.Keys) > 2 || len(s.Tokens) > 2 {
		return fmt.Errorf("source %s may have two live signing secrets and two live tokens at most", s.Name)
	}
	for _, sc := range s.Scopes {
		if !slices.Contains(Scopes, sc) {
			return fmt.Errorf("source %s has the scope %q, which is none of %v", s.Name, sc, Scopes)
		}
	}
	if s.Room == (bot.Place{}) {
		s.Room = bot.Place{Door: Door, Room: s.Name}
	}
	if s.Rate <= 0 {
		s.Rate = 10
	}
	s.limit = rate.NewLimiter(rate.Limit(s.Rate), max(1, int(4*s.Rate)))
	return nil
}

// bearer finds the source of a token. All are compared, so that the time taken tells nothing.
func (a *API) bearer(token string) *Source {
	sum := sha256.Sum256([]byte(token))
	var found *Source
	for i := range a.sources {
		for _, t := range a.sources[i].Tokens {
			if subtle.ConstantTimeCompare(t.sum[:], sum[:]) == 1 {
				found = &a.sources[i]
			}
		}
	}
	return found
}

// admit finds out who asks and whether they may. A request is either signed over its body or carries a bearer token; only a request that
// hands in an order can come signed, since a signature covers neither the method nor the address.
func (a *API) admit(r *http.Request, body []byte, need Scope, now time.Time) (*Source, string, error) {
	if auth := r.Header.Get("Authorization"); auth != "" {
		scheme, token, _ := strings.Cut(auth, " ")
		src := a.bearer(strings.TrimSpace(token))
		if !strings.EqualFold(scheme, "Bearer") || src == nil {
			return nil, "", problem{Status: http.StatusUnauthorized, Code: "unknown-token", Detail: "The Authorization header holds no bearer token that is known here.",
				Next: "Ask whoever runs strikeoff for a token.", realm: true}
		}
		return src, r.Header.Get(headerID), a.allow(src, need, now)
	}
	if need != WriteOrders {
		return nil, "", problem{Status: http.StatusUnauthorized, Code: "no-token", Detail: "This address needs a bearer token.",
			Next: "Send it as Authorization: Bearer …", realm: true}
	}
	err := ErrUnsigned
	for i := range a.sources {
		var id string
		if id, err = a.sources[i].Keys.Verify(r.Header, body, now); err == nil {
			return &a.sources[i], id, a.allow(&a.sources[i], need, now)
		} else if !errors.Is(err, ErrForged) {
			break
		}
	}
	if errors.Is(err, ErrUnsigned) {
		return nil, "", problem{Status: http.StatusUnauthorized, Code: "unsigned", Detail: "The request is neither signed nor carries a bearer token, so nothing was kept.",
			Next: "Sign it by Standard Webhooks (webhook-id, webhook-timestamp, webhook-signature), or send Authorization: Bearer …", realm: true}
	}
	return nil, "", problem{Status: http.StatusUnauthorized, Code: "bad-signature", Detail: "Nothing was kept: " + err.Error() + ".",
		Next: "Sign the exact bytes that are sent, with the current secret and a clock that is right.", realm: true}
}

// allow holds a known source to its scopes and its rate.
func (a *API) allow(src *Source, need Scope, now time.Time) error {
	if !slices.Contains(src.Scopes, need) {
		return problem{Status: http.StatusForbidden, Code: "scope", Detail: "The source " + src.Name + " is not allowed " + string(need) + ", so nothing was done.",
			Next: "Ask whoever runs strikeoff to give it that scope."}
	}
	if !src.limit.AllowN(now, 1) {
		p := errBusy
		p.Code, p.Detail = "rate", "The source "+src.Name+" sends more than its rate, so this request was put down."
		return p
	}
	return nil
}
