package webhook

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// Tolerance is how far a signed stamp may lie from our clock, before or after. Source: Standard Webhooks specification, "Verifying webhook
// authenticity", which leaves the figure to the receiver; five minutes is what its reference libraries use.
const Tolerance = 5 * time.Minute

// The three headers of a signed message, by the Standard Webhooks specification.
const (
	headerID        = "Webhook-Id"
	headerStamp     = "Webhook-Timestamp"
	headerSignature = "Webhook-Signature"
)

// What can be wrong with a signature. None of the texts says what the right signature would have been.
var (
	ErrUnsigned = errors.New("the message carries no signature")
	ErrID       = errors.New("the webhook-id is missing or has characters beyond letters, digits and - _ : + = @ ~")
	ErrStamp    = errors.New("the webhook-timestamp is missing, is no whole number of seconds, or is more than five minutes from our clock")
	ErrForged   = errors.New("the signature is not that of a key known here")
)

// Secret is one signing key. Its zero value signs nothing and verifies nothing.
type Secret struct{ key []byte }

// ParseSecret reads a key written as "whsec_" and base64. The key must be 24 to 64 bytes long: the Standard Webhooks specification asks
// for that, and a shorter one, above all an empty one from an unset variable, would let anybody sign.
func ParseSecret(s string) (Secret, error) {
	body, ok := strings.CutPrefix(strings.TrimSpace(s), "whsec_")
	if !ok {
		return Secret{}, errors.New("a signing secret starts with whsec_")
	}
	key, err := base64.StdEncoding.DecodeString(body)
	if err != nil {
		return Secret{}, errors.New("what follows whsec_ in a signing secret must be base64") // the cause would quote the secret
	}
	if len(key) < 24 || len(key) > 64 {
		return Secret{}, fmt.Errorf("a signing secret must be 24 to 64 bytes long, this one is %d", len(key))
	}
	return Secret{key}, nil
}

// NewSecret makes a key of 32 random bytes and returns it with its written form, which is shown once and kept by the operator.
func NewSecret() (Secret, string) {
	key := make([]byte, 32)
	_, _ = rand.Read(key) // never fails: crypto/rand ends the program instead
	return Secret{key}, "whsec_" + base64.StdEncoding.EncodeToString(key)
}

// String hides the key, so that a logged settings struct does not give it away.
func (s Secret) String() string { return "whsec_(hidden)" }

// GoString hides the key as String does.
func (s Secret) GoString() string { return s.String() }

// MarshalText hides the key as String does.
func (s Secret) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// mac is the signature of one message with one key.
func (s Secret) mac(id, stamp string, body []byte) []byte {
	h := hmac.New(sha256.New, s.key)
	h.Write([]byte(id + "." + stamp + "."))
	h.Write(body)
	return h.Sum(nil)
}

// Keys are the keys that are live at once: one, or two while a secret is changed over. The first is the one to keep.
type Keys []Secret

// Sign sets the three headers on h for the exact bytes of body. Every key signs, so that a receiver holding either verifies.
func (k Keys) Sign(h http.Header, id string, at time.Time, body []byte) {
	stamp := strconv.FormatInt(at.Unix(), 10)
	sigs := make([]string, 0, len(k))
	for _, s := range k {
		if len(s.key) > 0 {
			sigs = append(sigs, "v1,"+base64.StdEncoding.EncodeToString(s.mac(id, stamp, body)))
		}
	}
	h.Set(headerID, id)
	h.Set(headerStamp, stamp)
	h.Set(headerSignature, strings.Join(sigs, " "))
}

// Verify returns the message's id where one of the keys signed it and its stamp lies within Tolerance of now. It compares in constant time.
// It remembers nothing: that a message is new is for whoever keeps it to say.
func (k Keys) Verify(h http.Header, body []byte, now time.Time) (id string, err error) {
	sigs := h.Get(headerSignature)
	if sigs == "" {
		return "", ErrUnsigned
	}
	id, stamp := h.Get(headerID), h.Get(headerStamp)
	if !goodID(id) {
		return "", ErrID
	}
	secs, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil || stamp != strconv.FormatInt(secs, 10) || secs < 0 || secs > 1<<40 {
		return "", ErrStamp
	}
	if d := now.Sub(time.Unix(secs, 0)); d > Tolerance || d < -Tolerance {
		return "", ErrStamp
	}
	var got [][]byte
	for sig := range strings.FieldsSeq(sigs) {
		if b64, ok := strings.CutPrefix(sig, "v1,"); ok && len(got) < 8 { // other versions are for other receivers
			if mac, err := base64.StdEncoding.DecodeString(b64); err == nil {
				got = append(got, mac)
			}
		}
	}
	match := 0
	for _, s := range k {
		if len(s.key) == 0 {
			continue
		}
		want := s.mac(id, stamp, body)
		for _, mac := range got {
			if hmac.Equal(mac, want) {
				match = 1
			}
		}
	}
	if match == 0 {
		return "", ErrForged
	}
	return id, nil
}

// goodID reports whether a message id can stand in a signature and in a key: 1 to 128 characters, and no ".", since "m.1" signed at 5 would
// read as "m" signed at "1.5".
func goodID(id string) bool {
	if id == "" || len(id) > 128 {
		return false
	}
	for _, c := range []byte(id) {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-_:+=@~", c) >= 0) {
			return false
		}
	}
	return true
}
