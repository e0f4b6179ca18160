package discord

import (
	"context"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/ledger/boltledger"
)

// newLedger is an empty ledger in a file.
func newLedger(t *testing.T) bot.Ledger {
	l, err := boltledger.Open(filepath.Join(t.TempDir(), "ledger.db"), boltledger.Options{NoSyncForTests: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

// stage is the door set up against the fake.
type stage struct {
	*fake
	t    *testing.T
	desk *bot.Desk
	chat *Chat
	send way
	last func()

	mu   sync.Mutex
	kept map[string]bool // keys that the door tried to keep
}

var ids = map[bottest.Who]string{bottest.Rep: fakeRep, bottest.Lead: fakeLead}

// open starts a door on a desk and waits until it is connected and has caught up.
func open(t *testing.T, d *bot.Desk, overHTTP bool) *stage {
	f := newFake(t, d.Now)
	s := &stage{fake: f, t: t, desk: d, kept: map[string]bool{}}
	s.chat = f.door(t, d, func(c *Config) {})
	s.chat.tried = func(key string, _ bool, _ error) { s.mu.Lock(); s.kept[key] = true; s.mu.Unlock() }
	d.Doors = map[string]bot.Poster{Door: s.chat}
	d.Roster = map[string]bot.Leads{Door: {Groups: []string{fakeLeadRole}}}
	d.Production = map[string]bot.Place{Door: {Door: Door, Room: fakeProduction}}
	f.start(t, s.chat)
	s.send = f.overGateway()
	if overHTTP {
		s.send = f.overHTTP(s.chat.Interactions())
	}
	return s
}

// door makes a door that talks to the fake. It is not started.
func (f *fake) door(t testing.TB, d *bot.Desk, change func(*Config)) *Chat {
	cfg := Config{Token: fakeToken, PublicKey: f.publicKey(), GuildIDs: []string{fakeGuild}, OrdersRooms: []string{fakeOrders}, PerSecond: 5000, Transport: f,
		Desk: d, Now: d.Now}
	change(&cfg)
	c, err := New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	c.restart = 20 * time.Millisecond
	return c
}

// start runs a door until the test ends, and waits until it has caught up. The returned function stops it sooner.
func (f *fake) start(t testing.TB, c *Chat) (stop func()) {
	ctx, cancel := context.WithCancel(context.Background())
	caught := make(chan struct{}, 100)
	before := c.caught
	c.caught = func() {
		if before != nil {
			before()
		}
		caught <- struct{}{}
	}
	done := make(chan error, 1)
	go func() { done <- c.Run(ctx) }()
	select {
	case <-caught:
	case err := <-done:
		t.Fatalf("the door ended: %v", err)
	case <-time.After(10 * time.Second):
		t.Fatal("the door never caught up")
	}
	stop = sync.OnceFunc(func() {
		cancel()
		select {
		case err := <-done:
			if err != nil {
				t.Errorf("the door ended with %v, want nil", err)
			}
		case <-time.After(10 * time.Second):
			t.Error("the door does not end")
		}
	})
	t.Cleanup(stop)
	return stop
}

// wasKept waits until the door tried to keep a message.
func (s *stage) wasKept(key string) {
	s.t.Helper()
	s.await("the door to keep "+key, func() bool { s.mu.Lock(); defer s.mu.Unlock(); return s.kept[key] })
}

func (s *stage) Say(who bottest.Who, thread, text string) string {
	s.t.Helper()
	ch := fakeOrders
	s.fake.mu.Lock()
	if s.channels[thread] != nil {
		ch = thread
	}
	s.fake.mu.Unlock()
	m := s.say(ids[who], ch, text)
	s.last = func() { s.dispatch("MESSAGE_CREATE", m) }
	s.wasKept(messageKey(ch, m.ID))
	if thread != "" {
		return thread
	}
	return m.ID
}

func (s *stage) Press(who bottest.Who, thread, command string) {
	s.t.Helper()
	if s.press(s.send, ids[who], command, thread) {
		return
	}
	s.slash(s.send, ids[who], s.channelOf(thread), command)
}

func (s *stage) channelOf(thread string) string {
	s.fake.mu.Lock()
	defer s.fake.mu.Unlock()
	if s.channels[thread] != nil {
		return thread
	}
	return fakeOrders
}

func (s *stage) Seen(thread string) []string {
	if thread == bottest.Production {
		thread = fakeProduction
	}
	var out []string
	for _, m := range s.posts(thread) {
		out = append(out, rendered(m))
	}
	// Posts in the room that answer the request count as its thread: that is where people read them.
	for _, m := range s.posts(fakeOrders) {
		if m.Reference["message_id"] == thread {
			out = append(out, rendered(m))
		}
	}
	return out
}

func (s *stage) Private(who bottest.Who) []string { return s.private(ids[who]) }

func (s *stage) Redeliver() { s.last() }

func (s *stage) Edit(_ bottest.Who, anchor, text string) {
	s.edit(fakeOrders, anchor, text)
	s.fake.mu.Lock()
	key := messageKey(fakeOrders, anchor) + ":e:" + *s.find(fakeOrders, anchor).Edited
	s.fake.mu.Unlock()
	s.wasKept(key)
}

func (s *stage) Delete(_ bottest.Who, anchor string) {
	s.remove(fakeOrders, anchor)
	s.wasKept(messageKey(fakeOrders, anchor) + ":d")
}

func (s *stage) Ask(who bottest.Who, anchor, _ string) {
	s.readAs(s.send, ids[who], fakeOrders, anchor)
}

func (s *stage) Retries() bool { return true }

var escaped = regexp.MustCompile(`\\[^0-9A-Za-z\s]`)

// Harmless looks for markup that would work in what was sent. An escaped character works as nothing.
func (s *stage) Harmless(t *testing.T, thread, text string) {
	found := false
	for _, m := range s.posts(thread) {
		raw := m.Content
		for _, e := range m.Embeds {
			raw += "\n" + e.Title + "\n" + e.Description
			for _, f := range e.Fields {
				raw += "\n" + f.Name + "\n" + f.Value
			}
		}
		found = found || strings.Contains(rendered(m), text)
		live := escaped.ReplaceAllString(raw, "\u00b7")
		for _, bad := range []string{"<@", "<!", "<#", "@everyone", "@here", "](", "://", "`", "*bold*", "<b>"} {
			if strings.Contains(live, bad) {
				t.Errorf("%q works in what was sent:\n%s", bad, raw)
			}
		}
		for _, r := range m.Components {
			for _, c := range r.Components {
				if strings.Contains(c.Label, "everyone") || strings.Contains(c.Custom, "everyone") {
					t.Errorf("the customer's words became a button: %+v", c)
				}
			}
		}
	}
	if !found {
		t.Errorf("no post shows the customer's words %q:\n%s", text, strings.Join(s.Seen(thread), "\n---\n"))
	}
}

// Ensure the door passes the contract of all doors, with presses over the gateway and over HTTP.
func TestContract(t *testing.T) {
	for _, c := range []struct {
		name string
		http bool
	}{{"interactions over the gateway", false}, {"interactions over HTTP", true}} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			bottest.Run(t, newLedger, func(t *testing.T, d *bot.Desk) bottest.Stage { return open(t, d, c.http) })
		})
	}
}
