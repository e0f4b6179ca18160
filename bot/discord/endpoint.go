package discord

import (
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strconv"
	"time"
)

const (
	interactionLimit = 1 << 20         // bytes of an interaction that are read
	stampAge         = 5 * time.Minute // how far from now an interaction's stamp may be
)

// The refusals of a call to the endpoint. None says what would have been right.
var (
	errNoSignature  = errors.New("the call is not signed")
	errBadSignature = errors.New("the signature does not fit")
	errStale        = errors.New("the call was signed too long ago, or in the future")
)

// Interactions is the HTTP endpoint for presses, commands and forms, for a bot whose interactions the portal sends to an address. It
// answers 401 to what Discord did not sign, or signed more than five minutes from now. Without a PublicKey it answers 404.
func (c *Chat) Interactions() http.Handler {
	if c.key == nil {
		return http.NotFoundHandler()
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodPost {
			w.Header().Set("Allow", http.MethodPost)
			http.Error(w, "only POST is answered here", http.StatusMethodNotAllowed)
			return
		}
		body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, interactionLimit))
		if err != nil {
			var large *http.MaxBytesError
			if errors.As(err, &large) {
				http.Error(w, "the call is too large", http.StatusRequestEntityTooLarge)
				return
			}
			http.Error(w, "the call could not be read", http.StatusBadRequest)
			return
		}
		if err := verify(c.key, r.Header, body, c.cfg.Now()); err != nil {
			c.log.Warn("a call to the interactions endpoint was refused", "err", err)
			http.Error(w, err.Error(), http.StatusUnauthorized)
			return
		}
		var in interaction
		if err := json.Unmarshal(body, &in); err != nil {
			http.Error(w, "the call is no interaction", http.StatusBadRequest)
			return
		}
		out, err := json.Marshal(c.act(r.Context(), in))
		if err != nil {
			c.log.Error("an answer could not be written", "err", err)
			http.Error(w, "the answer could not be written", http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		if _, err := w.Write(out); err != nil {
			c.log.Warn("an answer could not be delivered", "err", err)
		}
	})
}

// verify checks that Discord signed a call: Ed25519 (RFC 8032) over the stamp and the raw body, by the application's key.
func verify(key ed25519.PublicKey, h http.Header, body []byte, now time.Time) error {
	stamp, sig := h.Get("X-Signature-Timestamp"), h.Get("X-Signature-Ed25519")
	if stamp == "" || sig == "" {
		return errNoSignature
	}
	s, err := hex.DecodeString(sig)
	if err != nil || len(s) != ed25519.SignatureSize || len(key) != ed25519.PublicKeySize {
		return errBadSignature
	}
	if !ed25519.Verify(key, append([]byte(stamp), body...), s) {
		return errBadSignature
	}
	// The stamp is under the signature: only after it was checked does it say anything.
	at, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil {
		return errStale
	}
	if age := now.Sub(time.Unix(at, 0)); age > stampAge || age < -stampAge {
		return errStale
	}
	return nil
}
