package discord

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// watch notes the keys that a door kept, in order.
type watch struct {
	mu   sync.Mutex
	keys []string
}

func (w *watch) on(c *Chat) {
	c.tried = func(key string, fresh bool, err error) {
		w.mu.Lock()
		defer w.mu.Unlock()
		if err == nil && fresh {
			w.keys = append(w.keys, key)
		}
	}
}

func (w *watch) all() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return slices.Clone(w.keys)
}

// stand is a fake, a desk and a door that is not started.
func stand(t *testing.T, change func(*Config)) (*fake, *bot.Desk, *Chat, *watch, *bottest.Clock) {
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	d := bottest.NewDesk(newLedger(t), clock)
	c := f.door(t, d, change)
	d.Doors = map[string]bot.Poster{Door: c}
	d.Roster = map[string]bot.Leads{Door: {Groups: []string{fakeLeadRole}}}
	w := &watch{}
	w.on(c)
	return f, d, c, w, clock
}

func same(*Config) {}

// Ensure a session that broke is resumed, where the gateway said it can be, and nothing said meanwhile is lost or kept twice.
func TestResume(t *testing.T) {
	for _, c := range []struct {
		name   string
		broken func(*fake)
	}{
		{"asked to reconnect (op 7)", func(f *fake) { f.gateNow().send(gateEvent{Op: 7}) }},
		{"the connection is cut", func(f *fake) { f.gateNow().drop() }},
		{"closed with 4000", func(f *fake) { f.gateNow().close(4000) }},
		{"closed with 1001", func(f *fake) { f.gateNow().close(1001) }},
		{"a gateway that falls silent", func(f *fake) { f.gateNow().silence() }},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			f, _, chat, w, _ := stand(t, same)
			chat.idle = 3 * beat * time.Millisecond
			f.start(t, chat)
			first := f.say(fakeRep, fakeOrders, "before")
			f.await("the first message", func() bool { return len(w.all()) == 1 })
			c.broken(f)
			away := f.say(fakeRep, fakeOrders, "while away")
			f.await("a second connection", func() bool { return f.connects > 1 && len(w.all()) == 2 })
			after := f.say(fakeRep, fakeOrders, "after")
			f.await("the last message", func() bool { return len(w.all()) == 3 })
			want := []string{messageKey(fakeOrders, first.ID), messageKey(fakeOrders, away.ID), messageKey(fakeOrders, after.ID)}
			if got := w.all(); !slices.Equal(got, want) {
				t.Errorf("kept %q, want %q", got, want)
			}
			g := f.gateNow()
			g.mu.Lock()
			defer g.mu.Unlock()
			if !strings.HasPrefix(g.path, "/resume") || !slices.Contains(g.heard, 6) || slices.Contains(g.heard, 2) {
				t.Errorf("connected to %s with ops %v, want a resume (6) at /resume and no identify (2)", g.path, g.heard)
			}
		})
	}
}

// Ensure a session that cannot be resumed is begun anew, and the history tells what was missed.
func TestInvalidSession(t *testing.T) {
	t.Parallel()
	f, _, chat, w, _ := stand(t, same)
	f.start(t, chat)
	f.say(fakeRep, fakeOrders, "before")
	f.await("the first message", func() bool { return len(w.all()) == 1 })
	chat.flush(t.Context())
	f.forget()
	for i := range 250 { // more than two pages of history
		f.say(fakeRep, fakeOrders, fmt.Sprintf("missed %d", i))
	}
	f.gateNow().drop()
	f.await("what was missed", func() bool { return len(w.all()) == 251 })
	if got := w.all(); !slices.IsSorted(got) {
		t.Errorf("kept out of order: %q", got)
	}
	live := f.say(fakeRep, fakeOrders, "live again")
	f.await("a live message", func() bool { return slices.Contains(w.all(), messageKey(fakeOrders, live.ID)) })
	f.await("free cursors", func() bool { chat.cursors.mu.Lock(); defer chat.cursors.mu.Unlock(); return !chat.cursors.held })
	chat.flush(t.Context())
	if at, err := chat.cfg.Desk.Ledger.Cursor(t.Context(), Door, fakeOrders); err != nil || at != live.ID {
		t.Errorf("the cursor stands at %s, %v; want %s", at, err, live.ID)
	}
}

// Ensure refusals that are final end the door at once, with a sentence that says what to do.
func TestFinalCodes(t *testing.T) {
	if len(finals) != 6 {
		t.Fatalf("%d final codes, want the six of Discord's list", len(finals))
	}
	for code, say := range finals {
		t.Run(fmt.Sprint(code), func(t *testing.T) {
			t.Parallel()
			f, _, chat, _, _ := stand(t, same)
			f.greets = func(n int, c *fakeConn) bool {
				c.send(gateEvent{Op: 10, Data: json.RawMessage(`{"heartbeat_interval":45000}`)})
				if n == 1 { // the first is a passing trouble
					c.drop()
					return true
				}
				if _, _, err := c.ws.ReadMessage(); err != nil {
					t.Errorf("no identify: %v", err)
				}
				c.close(code)
				return true
			}
			err := chat.Run(t.Context())
			var final *FinalError
			if !errors.As(err, &final) || final.Code != code || final.Say != say || !strings.HasSuffix(say, ".") {
				t.Errorf("Run = %v, want the final error %d", err, code)
			}
			if n := f.connected(); n != 2 {
				t.Errorf("%d connections, want 2", n)
			}
		})
	}
}

// Ensure a token that Discord does not know ends the door at once.
func TestWrongToken(t *testing.T) {
	t.Parallel()
	f, _, chat, _, _ := stand(t, func(c *Config) { c.Token = "another-invented-token" })
	err := chat.Run(t.Context())
	var final *FinalError
	if !errors.As(err, &final) || final.Code != 401 || f.connected() != 0 || strings.Contains(err.Error(), "another-invented-token") {
		t.Errorf("Run = %v after %d connections, want the final error 401 and none", err, f.connected())
	}
}

// Ensure a bot without the intent to read messages says where to switch it on, and still hears what calls it.
func TestNoMessageIntent(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	f, _, chat, w, _ := stand(t, func(c *Config) { c.Log = slog.New(slog.NewTextHandler(&log, nil)) })
	f.appFlags = 0
	f.start(t, chat)
	if !strings.Contains(log.String(), "Switch on Message Content Intent in the developer portal") {
		t.Errorf("the log does not say where to switch the intent on:\n%s", log.String())
	}
	f.say(fakeRep, fakeOrders, "") // what Discord delivers of a message that may not be read
	m := f.say(fakeRep, fakeOrders, "<@"+fakeBot+"> 72 tees in tri-blend", func(m *fakeMessage) { m.Mentions = []map[string]any{{"id": fakeBot, "username": "strikeoff"}} })
	f.await("the mention", func() bool { return len(w.all()) == 1 })
	if got := w.all(); got[0] != messageKey(fakeOrders, m.ID) {
		t.Errorf("kept %q, want the mention", got)
	}
}

type syncBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *syncBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}
func (s *syncBuffer) String() string { s.mu.Lock(); defer s.mu.Unlock(); return s.b.String() }

// Ensure a gateway that never greets is left after a while.
func TestSilentGreeting(t *testing.T) {
	t.Parallel()
	f, _, chat, _, _ := stand(t, same)
	chat.idle = 100 * time.Millisecond
	f.greets = func(n int, c *fakeConn) bool {
		if n > 2 {
			return false
		}
		c.read() // says nothing
		return true
	}
	f.start(t, chat)
	if n := f.connected(); n != 3 {
		t.Errorf("%d connections, want the third to be the good one", n)
	}
}

// Ensure what is said in one channel is kept in the order in which it was said.
func TestOrder(t *testing.T) {
	t.Parallel()
	f, _, chat, w, _ := stand(t, same)
	f.start(t, chat)
	for i := range 200 {
		f.say(fakeRep, fakeOrders, fmt.Sprintf("line %d", i))
	}
	f.await("all of them", func() bool { return len(w.all()) == 200 })
	if got := w.all(); !slices.IsSortedFunc(got, func(a, b string) int {
		if newer(a, b) {
			return 1
		}
		return -1
	}) {
		t.Errorf("kept out of order: %q", got)
	}
}

// Ensure a part of a kind that nobody knows costs neither the message nor the page of history that it stands on.
func TestUnknownParts(t *testing.T) {
	t.Parallel()
	f, d, chat, w, _ := stand(t, same)
	stop := f.start(t, chat)
	odd := func(m *fakeMessage) { m.odd = true }
	live := f.say(fakeRep, fakeOrders, bottest.Request, odd)
	f.await("the odd message", func() bool { return len(w.all()) == 1 })
	f.dispatch("MESSAGE_CREATE", map[string]any{"id": 7, "channel_id": []int{1}, "content": "not a message at all"})
	f.dispatch("MESSAGE_CREATE", "nor this")
	f.dispatch("INTERACTION_CREATE", []int{1})
	f.dispatch("A_NEW_EVENT", map[string]any{"of": "tomorrow"})
	bottest.Settle(t, d)
	if len(f.posts(live.ID)) == 0 {
		t.Error("the odd message got no answer")
	}
	stop()
	missed := f.say(fakeRep, fakeOrders, bottest.Request, odd)
	again := f.door(t, d, same)
	w.on(again)
	f.start(t, again)
	if !slices.Contains(w.all(), messageKey(fakeOrders, missed.ID)) {
		t.Error("the odd message of the history was not kept")
	}
}

// Ensure the gateway is reached over TLS, with the server's name checked, and that the watch sees frames and not their cipher.
func TestGatewayTLS(t *testing.T) {
	t.Parallel()
	got := make(chan string, 1)
	srv := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { got <- r.Proto; io.WriteString(w, "hello") }))
	defer srv.Close()
	g, err := newGateway(fakeToken, 0, http.DefaultTransport, slog.New(slog.DiscardHandler), func(string, []byte) {})
	if err != nil {
		t.Fatal(err)
	}
	address := srv.Listener.Addr().String()
	if _, err := g.dialTLS(t.Context(), "tcp", address); err == nil {
		t.Fatal("a certificate that nobody vouches for was taken")
	}
	roots := x509.NewCertPool()
	roots.AddCert(srv.Certificate())
	g.tls = &tls.Config{RootCAs: roots}
	c, err := g.dialTLS(t.Context(), "tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := io.WriteString(c, "GET / HTTP/1.1\r\nHost: x\r\n\r\n"); err != nil {
		t.Fatal(err)
	}
	if proto := <-got; proto != "HTTP/1.1" {
		t.Errorf("spoke %s, want HTTP/1.1", proto)
	}
	if n, err := c.Write([]byte{closeFrame, 2, 3, 232}); n != 4 || err != nil {
		t.Errorf("the goodbye: %d, %v; want it swallowed", n, err)
	}
	if _, err := c.Write([]byte("x")); err == nil {
		t.Error("the connection is still up after the goodbye")
	}
}

// Ensure a door whose context ends while it connects ends without an error.
func TestStopWhileConnecting(t *testing.T) {
	t.Parallel()
	f, _, chat, _, _ := stand(t, same)
	greeted := make(chan struct{}, 10)
	f.greets = func(_ int, c *fakeConn) bool { greeted <- struct{}{}; c.read(); return true }
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- chat.Run(ctx) }()
	<-greeted
	cancel()
	select {
	case err := <-done:
		if err != nil {
			t.Errorf("Run = %v, want nil", err)
		}
	case <-time.After(5 * time.Second):
		t.Error("Run does not end")
	}
}
