package slack

import (
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The worked example of Slack's page "Verifying requests from Slack" (https://docs.slack.dev/authentication/verifying-requests-from-slack):
// secret, timestamp, body, and the signature that they give.
const (
	exampleSecret = "8f742231b10e8888abcd99yyyzzz85a5"
	exampleStamp  = "1531420618"
	exampleBody   = "token=xyzz0WbapA4vBCDEFasx0q6G&team_id=T1DC2JH3J&team_domain=testteamnow&channel_id=G8PSS9T3V&channel_name=foobar&user_id=U2CERLKJA&" +
		"user_name=roadrunner&command=%2Fwebhook-collect&text=&response_url=https%3A%2F%2Fhooks.slack.com%2Fcommands%2FT1DC2JH3J%2F397700885554%2F" +
		"96rGlfmibIGlgcZRskXaIFfN&trigger_id=398738663015.47445629121.803a0bc887a14d10d2c447fce8b6703c"
	exampleSignature = "v0=a2114d57b48eac39b9ad189dd8316235a7b4a8d21a10bd27519666489c69b503"
)

// Ensure that the published example verifies at its time.
func TestVerifyPublishedExample(t *testing.T) {
	h := http.Header{}
	h.Set("X-Slack-Request-Timestamp", exampleStamp)
	h.Set("X-Slack-Signature", exampleSignature)
	if err := verify(exampleSecret, h, []byte(exampleBody), time.Unix(1531420618, 0)); err != nil {
		t.Errorf("the published example is refused: %v", err)
	}
}

// Ensure that what is not quite the signed request is refused, and that no refusal gives the right signature away.
func TestVerifyRefuses(t *testing.T) {
	now := time.Unix(1531420618, 0)
	flipped := strings.Replace(exampleSignature, "a2114d", "a2114e", 1)
	for _, c := range []struct {
		name, secret, stamp, sig, body string
		now                            time.Time
	}{
		{"another secret", "another", exampleStamp, exampleSignature, exampleBody, now},
		{"no secret set", "", exampleStamp, exampleSignature, exampleBody, now},
		{"another body", exampleSecret, exampleStamp, exampleSignature, exampleBody + "x", now},
		{"another time, still fresh", exampleSecret, "1531420619", exampleSignature, exampleBody, now},
		{"5 minutes and a second later", exampleSecret, exampleStamp, exampleSignature, exampleBody, now.Add(301 * time.Second)},
		{"5 minutes and a second before", exampleSecret, exampleStamp, exampleSignature, exampleBody, now.Add(-301 * time.Second)},
		{"a digit flipped", exampleSecret, exampleStamp, flipped, exampleBody, now},
		{"no version", exampleSecret, exampleStamp, strings.TrimPrefix(exampleSignature, "v0="), exampleBody, now},
		{"cut short", exampleSecret, exampleStamp, exampleSignature[:20], exampleBody, now},
		{"no hex", exampleSecret, exampleStamp, "v0=zz", exampleBody, now},
		{"empty signature", exampleSecret, exampleStamp, "", exampleBody, now},
		{"empty timestamp", exampleSecret, "", exampleSignature, exampleBody, now},
		{"no timestamp", exampleSecret, "yesterday", exampleSignature, exampleBody, now},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := http.Header{}
			h.Set("X-Slack-Request-Timestamp", c.stamp)
			h.Set("X-Slack-Signature", c.sig)
			err := verify(c.secret, h, []byte(c.body), c.now)
			if err == nil {
				t.Fatal("accepted")
			}
			if right := hex.EncodeToString(mac(c.secret, c.stamp, []byte(c.body))); strings.Contains(err.Error(), right[:16]) {
				t.Errorf("the refusal gives the signature away: %v", err)
			}
		})
	}
	h := http.Header{}
	h.Set("X-Slack-Request-Timestamp", strconv.FormatInt(now.Unix(), 10))
	h.Set("X-Slack-Signature", exampleSignature)
	for _, off := range []time.Duration{-300 * time.Second, 300 * time.Second} {
		if err := verify(exampleSecret, h, []byte(exampleBody), now.Add(off)); err != nil {
			t.Errorf("%v off is refused: %v", off, err)
		}
	}
}
