package slack

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// The reasons for which a request is refused. None of them says what the right signature would have been.
var (
	errNoSecret  = errors.New("no signing secret is set")
	errNoHeaders = errors.New("the request is not signed")
	errStale     = errors.New("the request's timestamp is more than 5 minutes off")
	errForged    = errors.New("the request's signature is wrong")
)

// fresh is how far a request's timestamp may be from now, either way: a copied request is of no use after.
const fresh = 5 * time.Minute

// verify checks that Slack signed a request: HMAC-SHA256 over "v0:timestamp:body", compared in constant time.
// https://docs.slack.dev/authentication/verifying-requests-from-slack
func verify(secret string, h http.Header, body []byte, now time.Time) error {
	if secret == "" {
		return errNoSecret
	}
	at, sig := h.Get("X-Slack-Request-Timestamp"), h.Get("X-Slack-Signature")
	if at == "" || sig == "" {
		return errNoHeaders
	}
	sec, err := strconv.ParseInt(at, 10, 64)
	if err != nil {
		return errStale
	}
	if off := now.Sub(time.Unix(sec, 0)); off > fresh || off < -fresh {
		return errStale
	}
	given, err := hex.DecodeString(strings.TrimPrefix(sig, "v0="))
	if err != nil || !strings.HasPrefix(sig, "v0=") {
		return errForged
	}
	if !hmac.Equal(given, mac(secret, at, body)) {
		return errForged
	}
	return nil
}

// mac is the signature's bytes.
func mac(secret, at string, body []byte) []byte {
	m := hmac.New(sha256.New, []byte(secret))
	m.Write([]byte("v0:" + at + ":"))
	m.Write(body)
	return m.Sum(nil)
}
