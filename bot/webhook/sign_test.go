package webhook

import (
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"
)

// The worked example of the Standard Webhooks project (github.com/standard-webhooks/standard-webhooks, tests of its reference libraries).
const (
	vectorSecret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"
	vectorID     = "msg_p5jXN8AQM9LWM0D4loKWxJek"
	vectorStamp  = 1614265330
	vectorBody   = `{"test": 2432232314}`
	vectorSig    = "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE="
)

func mustSecret(t testing.TB, s string) Secret {
	t.Helper()
	sec, err := ParseSecret(s)
	if err != nil {
		t.Fatal(err)
	}
	return sec
}

// newSecret is a key for a test.
func newSecret(t testing.TB) Secret {
	t.Helper()
	s, written := NewSecret()
	if back := mustSecret(t, written); string(back.key) != string(s.key) {
		t.Fatal("a new secret does not read back as it was written")
	}
	return s
}

func vectorHeader() http.Header {
	h := http.Header{}
	h.Set(headerID, vectorID)
	h.Set(headerStamp, fmt.Sprint(vectorStamp))
	h.Set(headerSignature, vectorSig)
	return h
}

func TestPublishedVector(t *testing.T) {
	keys := Keys{mustSecret(t, vectorSecret)}
	at := time.Unix(vectorStamp, 0)
	h := http.Header{}
	keys.Sign(h, vectorID, at, []byte(vectorBody))
	if got := h.Get(headerSignature); got != vectorSig {
		t.Errorf("signature = %q, want %q", got, vectorSig)
	}
	if id, err := keys.Verify(vectorHeader(), []byte(vectorBody), at); err != nil || id != vectorID {
		t.Errorf("Verify = %q, %v", id, err)
	}
}

func TestVerifyRefuses(t *testing.T) {
	at := time.Unix(vectorStamp, 0)
	good := Keys{mustSecret(t, vectorSecret)}
	for _, c := range []struct {
		name string
		keys Keys
		now  time.Time
		body string
		set  map[string]string
		want error
	}{
		{name: "another body", body: `{"test": 2432232315}`, want: ErrForged},
		{name: "another key", keys: Keys{newSecret(t)}, want: ErrForged},
		{name: "no key at all", keys: Keys{}, want: ErrForged},
		{name: "a zero key", keys: Keys{{}}, want: ErrForged},
		{name: "another id", set: map[string]string{headerID: "msg_other"}, want: ErrForged},
		{name: "no signature", set: map[string]string{headerSignature: ""}, want: ErrUnsigned},
		{name: "empty v1", set: map[string]string{headerSignature: "v1,"}, want: ErrForged},
		{name: "only another version", set: map[string]string{headerSignature: "v1a," + vectorSig[3:]}, want: ErrForged},
		{name: "not base64", set: map[string]string{headerSignature: "v1,!!!"}, want: ErrForged},
		{name: "no id", set: map[string]string{headerID: ""}, want: ErrID},
		{name: "a dot in the id", set: map[string]string{headerID: "msg.1"}, want: ErrID},
		{name: "an id too long", set: map[string]string{headerID: strings.Repeat("a", 129)}, want: ErrID},
		{name: "no stamp", set: map[string]string{headerStamp: ""}, want: ErrStamp},
		{name: "stamp with a sign", set: map[string]string{headerStamp: "+1614265330"}, want: ErrStamp},
		{name: "stamp beyond time", set: map[string]string{headerStamp: "9223372036854775807"}, want: ErrStamp},
		{name: "stale", now: at.Add(Tolerance + time.Second), want: ErrStamp},
		{name: "from the future", now: at.Add(-Tolerance - time.Second), want: ErrStamp},
	} {
		t.Run(c.name, func(t *testing.T) {
			keys, now, body, h := good, at, vectorBody, vectorHeader()
			if c.keys != nil {
				keys = c.keys
			}
			if !c.now.IsZero() {
				now = c.now
			}
			if c.body != "" {
				body = c.body
			}
			for k, v := range c.set {
				h.Set(k, v)
			}
			id, err := keys.Verify(h, []byte(body), now)
			if !errors.Is(err, c.want) || id != "" {
				t.Fatalf("Verify = %q, %v, want %v", id, err, c.want)
			}
			if strings.Contains(err.Error(), vectorSig[3:20]) {
				t.Errorf("the error gives the right signature away: %v", err)
			}
		})
	}
}

// TestRotation: while a secret is changed over, a receiver with either key takes what we sign, and we take what either key signed.
func TestRotation(t *testing.T) {
	old, fresh := newSecret(t), newSecret(t)
	at, body := time.Unix(1_800_000_000, 0), []byte(`{"text":"invented"}`)
	h := http.Header{}
	Keys{fresh, old}.Sign(h, "m1", at, body)
	for name, k := range map[string]Keys{"old": {old}, "new": {fresh}, "both": {old, fresh}} {
		if _, err := k.Verify(h, body, at); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	Keys{old}.Sign(h, "m2", at, body)
	if _, err := (Keys{fresh, old}).Verify(h, body, at); err != nil {
		t.Errorf("the old key no longer verifies while it is live: %v", err)
	}
	if _, err := (Keys{fresh}).Verify(h, body, at); !errors.Is(err, ErrForged) {
		t.Errorf("the old key still verifies after it was taken out: %v", err)
	}
}

func TestParseSecretRefuses(t *testing.T) {
	of := func(n int) string { return "whsec_" + base64.StdEncoding.EncodeToString(make([]byte, n)) }
	for _, s := range []string{"", "whsec_", "MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", of(1), of(23), of(65), "whsec_%%%"} {
		if sec, err := ParseSecret(s); err == nil {
			t.Errorf("ParseSecret(%q) took a key of %d bytes", s, len(sec.key))
		}
	}
	for _, n := range []int{24, 32, 64} {
		if _, err := ParseSecret(of(n)); err != nil {
			t.Errorf("a key of %d bytes: %v", n, err)
		}
	}
}

func TestSecretHides(t *testing.T) {
	s := mustSecret(t, vectorSecret)
	for _, got := range []string{fmt.Sprint(s), fmt.Sprintf("%+v", s), fmt.Sprintf("%#v", s), fmt.Sprintf("%+v", struct{ K Keys }{Keys{s}})} {
		if !strings.Contains(got, "hidden") || strings.Contains(got, "MfKQ") {
			t.Errorf("printed as %q", got)
		}
	}
}
