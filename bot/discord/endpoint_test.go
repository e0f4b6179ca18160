package discord

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// The test vectors of RFC 8032, section 7.1, tests 1 to 3: seed, public key, message, signature.
var rfc8032 = []struct{ seed, public, message, signature string }{
	{"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
		"d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
		"e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
	{"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
		"3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
		"92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
	{"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
		"fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
		"6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"},
}

// The form that Discord gives it: the stamp and the body under one signature. Made with the key of the RFC's first test.
const (
	derivedStamp     = "1700000000"
	derivedBody      = `{"type":1}`
	derivedSignature = "1695961a47c91a1ec033b819b7e87e3dbc583dd0cee6d1fd0216f58ac87b6228ae531ddbf91fb7bc28d7edf7f08604da16f54624f38a6bc0614e4dc13cd47f0f"
)

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Ensure the signatures are those of RFC 8032, section 7.1, and the derived one is checked as Discord makes it.
func TestVectors(t *testing.T) {
	for i, v := range rfc8032 {
		key := ed25519.NewKeyFromSeed(unhex(t, v.seed))
		if got := hex.EncodeToString(key.Public().(ed25519.PublicKey)); got != v.public {
			t.Errorf("test %d: public key %s, want %s", i+1, got, v.public)
		}
		if got := hex.EncodeToString(ed25519.Sign(key, unhex(t, v.message))); got != v.signature {
			t.Errorf("test %d: signature %s, want %s", i+1, got, v.signature)
		}
	}
	key := ed25519.PublicKey(unhex(t, rfc8032[0].public))
	h := http.Header{}
	h.Set("X-Signature-Timestamp", derivedStamp)
	h.Set("X-Signature-Ed25519", derivedSignature)
	at := time.Unix(1700000000, 0)
	if err := verify(key, h, []byte(derivedBody), at); err != nil {
		t.Errorf("the derived vector is refused: %v", err)
	}
	// The RFC's own signatures fit no stamp, and so fit nothing here.
	for i, v := range rfc8032 {
		h := http.Header{}
		h.Set("X-Signature-Timestamp", derivedStamp)
		h.Set("X-Signature-Ed25519", v.signature)
		if err := verify(unhex(t, v.public), h, unhex(t, v.message), at); err != errBadSignature {
			t.Errorf("test %d with a stamp before it: %v, want %v", i+1, err, errBadSignature)
		}
	}
}

// Ensure the endpoint answers what Discord signed lately, and nothing else, and never says what would have been right.
func TestEndpoint(t *testing.T) {
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	key := ed25519.NewKeyFromSeed(unhex(t, rfc8032[0].seed))
	f.key = key
	c := f.door(t, bottest.NewDesk(newLedger(t), clock), same)
	h := c.Interactions()
	now := clock.Now()
	good := func() *http.Request { return f.signed([]byte(derivedBody), now) }
	with := func(name, value string) *http.Request { r := good(); r.Header.Set(name, value); return r }
	flipped := []byte(good().Header.Get("X-Signature-Ed25519"))
	flipped[10] = map[bool]byte{true: '1', false: '0'}[flipped[10] == '0']
	for _, x := range []struct {
		name string
		r    *http.Request
		code int
	}{
		{"a ping", good(), 200},
		{"a ping of nearly five minutes ago", f.signed([]byte(derivedBody), now.Add(-4*time.Minute-59*time.Second)), 200},
		{"a stale stamp", f.signed([]byte(derivedBody), now.Add(-5*time.Minute-time.Second)), 401},
		{"a stamp of the future", f.signed([]byte(derivedBody), now.Add(5*time.Minute+2*time.Second)), 401},
		{"no signature", with("X-Signature-Ed25519", ""), 401},
		{"no stamp", with("X-Signature-Timestamp", ""), 401},
		{"another stamp", with("X-Signature-Timestamp", "1700000000"), 401},
		{"a stamp that is no number", func() *http.Request {
			r := good()
			r.Header.Set("X-Signature-Timestamp", "soon")
			r.Header.Set("X-Signature-Ed25519", hex.EncodeToString(ed25519.Sign(key, []byte("soon"+derivedBody))))
			return r
		}(), 401},
		{"one bit off", with("X-Signature-Ed25519", string(flipped)), 401},
		{"a signature that is too short", with("X-Signature-Ed25519", "00ff"), 401},
		{"a signature that is no hex", with("X-Signature-Ed25519", strings.Repeat("zz", 64)), 401},
		{"another body", func() *http.Request { r := good(); r.Body = io.NopCloser(strings.NewReader(`{"type":2}`)); return r }(), 401},
		{"another key", func() *http.Request {
			r := good()
			other := ed25519.NewKeyFromSeed(unhex(t, rfc8032[1].seed))
			r.Header.Set("X-Signature-Ed25519", hex.EncodeToString(ed25519.Sign(other, []byte(r.Header.Get("X-Signature-Timestamp")+derivedBody))))
			return r
		}(), 401},
		{"the derived vector long after", func() *http.Request {
			r := with("X-Signature-Timestamp", derivedStamp)
			r.Header.Set("X-Signature-Ed25519", derivedSignature)
			return r
		}(), 401},
		{"too large", f.signed(bytes.Repeat([]byte("x"), interactionLimit+1), now), 413},
		{"signed, and no interaction", f.signed([]byte("[]"), now), 400},
		{"a GET", func() *http.Request { r := good(); r.Method = http.MethodGet; return r }(), 405},
	} {
		t.Run(x.name, func(t *testing.T) {
			a := call2(h, x.r)
			if a.code != x.code {
				t.Errorf("status %d, want %d: %s", a.code, x.code, a.body)
			}
			if x.code == 200 && (string(a.body) != derivedBody || a.header.Get("Content-Type") != "application/json") {
				t.Errorf("a ping got %s as %s", a.body, a.header.Get("Content-Type"))
			}
			if x.code == 401 && len(a.body) > 80 {
				t.Errorf("the refusal says much: %s", a.body)
			}
		})
	}
}

// Ensure a key that is not of the right length is refused when the door is made, where the library would panic at the first call.
func TestKeyLength(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(newLedger(t), clock)
	for _, key := range []string{"00", "zz", rfc8032[0].public + "00", rfc8032[0].public[:62]} {
		if _, err := New(Config{Token: fakeToken, PublicKey: key, Desk: d, Now: clock.Now}); err == nil {
			t.Errorf("a key of %d digits was taken", len(key))
		}
	}
	c, err := New(Config{Token: fakeToken, Desk: d, Now: clock.Now})
	if err != nil {
		t.Fatal(err)
	}
	r, _ := http.NewRequest(http.MethodPost, "/", strings.NewReader(derivedBody))
	if a := call2(c.Interactions(), r); a.code != 404 {
		t.Errorf("without a key the endpoint answers %d, want 404", a.code)
	}
}

// Ensure settings that cannot work are refused with what to do, before anything is connected.
func TestSettings(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(newLedger(t), clock)
	for _, c := range []struct {
		cfg  Config
		want string // in the error; "" for none
	}{
		{Config{Desk: d, Now: clock.Now}, "no bot token"},
		{Config{Token: " \n", Desk: d, Now: clock.Now}, "no bot token"},
		{Config{Token: fakeToken, Now: clock.Now}, "a desk and a clock"},
		{Config{Token: fakeToken, Desk: d}, "a desk and a clock"},
		{Config{Token: fakeToken, Desk: d, Now: clock.Now, OrdersRooms: []string{"#orders"}}, "Copy ID"},
		{Config{Token: fakeToken, Desk: d, Now: clock.Now, GuildIDs: []string{""}}, "Copy ID"},
		{Config{Token: "Bot " + fakeToken + "\n", Desk: d, Now: clock.Now, OrdersRooms: []string{"300"}}, ""},
	} {
		chat, err := New(c.cfg)
		if (err == nil) != (c.want == "") || err != nil && (!strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), fakeToken)) {
			t.Errorf("New(%v) = %v, want %q", c.cfg, err, c.want)
		}
		if err == nil && chat.rest.token != fakeToken {
			t.Error("the token was not freed of what surrounds it")
		}
	}
}

// Ensure the same signed interaction sent again within its five minutes does nothing twice.
func TestReplay(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	f.start(t, chat)
	m := f.say(fakeRep, fakeOrders, order(48))
	f.await("the request", func() bool { return len(w.all()) == 1 })
	bottest.Settle(t, d)
	_, body := f.interact(fakeLead, m.ID, interComponent, map[string]any{"custom_id": "do:sign 1", "component_type": 2}, f.posts(m.ID)[0])
	b, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		if a := call2(chat.Interactions(), f.signed(b, f.now())); a.code != 200 || !strings.Contains(string(a.body), `"type":6`) {
			t.Errorf("answered %d %s", a.code, a.body)
		}
	}
	bottest.Settle(t, d)
	h, err := d.History(t.Context(), 1)
	if err != nil || len(h) != 2 {
		t.Errorf("%d entries, %v; want the opening and one sign-off", len(h), err)
	}
}

// Ensure odd interactions are answered with a sentence and never with a panic.
func TestOddInteractions(t *testing.T) {
	t.Parallel()
	f, _, chat, _, _ := stand(t, same)
	for _, body := range []string{`{"type":2}`, `{"type":3}`, `{"type":4}`, `{"type":5}`, `{"type":77}`, `{"type":2,"data":{"type":3,"name":"Read as order","target_id":"5"}}`,
		`{"type":2,"data":{"type":"x","name":7}}`, `{"type":3,"data":{"custom_id":"ref:unknown"}}`, `{"type":3,"data":{"custom_id":"elsewhere"}}`,
		`{"type":5,"data":{"custom_id":"in note:pass 1 x","components":[{"type":1,"components":[{"type":4,"custom_id":"said","value":"by row"}]}]}}`} {
		a := call2(chat.Interactions(), f.signed([]byte(body), f.now()))
		var got struct {
			Type int `json:"type"`
		}
		if a.code != 200 || json.Unmarshal(a.body, &got) != nil || got.Type == 0 {
			t.Errorf("%s was answered %d %s", body, a.code, a.body)
		}
	}
}

// FuzzWire: whatever Discord, or somebody with its key, sends, nothing panics, and every interaction is answered.
func FuzzWire(f *testing.F) {
	for _, s := range []string{`{"id":"1","channel_id":"300","content":"48 tees","author":{"id":"5"},"referenced_message":{"id":"2"}}`,
		`{"type":5,"id":"1","token":"t","application_id":"1","data":{"custom_id":"in note:pass 1 x","components":[{"component":{"custom_id":"said","value":"x"}}]}}`,
		`{"type":2,"data":{"name":"pass","options":[{"name":"job","value":1e999},{"name":"step"}]},"member":{"user":null}}`,
		`{"type":4,"data":{"name":"pass","options":[{"name":"step","focused":true},{"name":"job","value":"x"}]}}`,
		`{"type":3,"message":{"message_reference":{}},"channel":{"id":"1","type":11},"data":{"values":[""],"custom_id":"do:"}}`,
		`{"type":2,"data":{"type":3,"target_id":"1","resolved":{"messages":{"1":{}}}}}`} {
		f.Add([]byte(s))
	}
	clock := bottest.NewClock()
	out := &bottest.Outage{}
	out.Down.Store(true)
	d := bottest.NewDesk(deaf{out}, clock)
	c, err := New(Config{Token: fakeToken, Desk: d, Now: clock.Now, Transport: unreachable{}})
	if err != nil {
		f.Fatal(err)
	}
	c.rest.wait = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	f.Fuzz(func(t *testing.T, b []byte) {
		var m message
		if json.Unmarshal(b, &m) == nil {
			in, ok, err := c.inbound(t.Context(), m, len(b)%2 == 0)
			if ok && (err != nil || in.Key == "") {
				t.Errorf("handed in %+v, %v", in, err)
			}
		}
		var in interaction
		if json.Unmarshal(b, &in) == nil {
			if a := c.act(t.Context(), in); a.Type == 0 {
				t.Errorf("no answer to %s", b)
			} else if _, err := json.Marshal(a); err != nil {
				t.Errorf("an answer cannot be written: %v", err)
			}
		}
		for _, typ := range []string{"READY", "GUILD_CREATE", "THREAD_CREATE", "MESSAGE_DELETE_BULK", "MESSAGE_CREATE", "INTERACTION_CREATE"} {
			c.event(t.Context(), typ, b)
		}
		for _, lane := range append(c.lanes.talk[:], c.lanes.press, c.lanes.files) {
			for len(lane) > 0 {
				<-lane
			}
		}
	})
}

// unreachable is a network that is down.
type unreachable struct{}

func (unreachable) RoundTrip(*http.Request) (*http.Response, error) {
	return nil, errors.New("the network is down")
}

// deaf is a ledger that cannot be reached at all.
type deaf struct{ *bottest.Outage }

func (deaf) Cursor(context.Context, string, string) (string, error) { return "", bot.ErrDown }
func (deaf) Load(context.Context, bot.JobID) (bot.Job, error)       { return bot.Job{}, bot.ErrDown }
func (deaf) Jobs(context.Context, []bot.State, bot.JobID, int) ([]bot.Job, error) {
	return nil, bot.ErrDown
}
func (deaf) InThread(context.Context, bot.Place) (bot.JobID, error) { return 0, bot.ErrDown }
