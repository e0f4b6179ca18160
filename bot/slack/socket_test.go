package slack

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// socketing is a hearing over the socket.
func socketing(t *testing.T) (*stage, *bottest.Clock) {
	clock := bottest.NewClock()
	return open(t, bottest.NewDesk(newLedger(t), clock), overSocket, nil), clock
}

// Ensure that a socket that is cut, again and again, in the middle of what comes in loses nothing and doubles nothing.
func TestSocketDrops(t *testing.T) {
	s, clock := socketing(t)
	var ds []*fake.Delivery
	const n = 30
	for i := range n {
		_, d := s.slack.Say(orders, repID, "", fmt.Sprintf("message %d", i))
		ds = append(ds, d)
		if i%10 == 5 {
			s.slack.DropSockets()
		}
	}
	for _, d := range ds {
		d.Wait()
	}
	s.until("all were kept", func() bool { h, err := s.desk.Health(t.Context()); return err == nil && h.Inbox == n })
	seen := map[string]bool{}
	for _, in := range kept(t, s.desk.Ledger, clock.Now()) {
		if seen[in.Text] {
			t.Errorf("%q was kept twice", in.Text)
		}
		seen[in.Text] = true
	}
	if len(seen) != n {
		t.Errorf("%d messages were kept, want %d", len(seen), n)
	}
}

// Ensure that when Slack asks for a new connection one is made, and what comes meanwhile is kept.
func TestSocketReconnects(t *testing.T) {
	s, clock := socketing(t)
	for i := range 3 {
		s.slack.AskReconnect()
		_, d := s.slack.Say(orders, repID, "", fmt.Sprintf("message %d", i))
		if !s.settle(d) {
			t.Errorf("message %d was not acknowledged", i)
		}
	}
	if got := kept(t, s.desk.Ledger, clock.Now()); len(got) != 3 {
		t.Errorf("%d messages were kept", len(got))
	}
	if log := s.logs.text(); strings.Contains(log, "connecting anew") {
		t.Errorf("it waited before it connected, as after a failure:\n%s", log)
	}
}

// Ensure that frames that cannot be read, or are of no known kind, do not end the connection; what can be acknowledged is.
func TestSocketOddFrames(t *testing.T) {
	s, clock := socketing(t)
	for _, f := range []string{"", "{", "null", "[]", `{"type":"hello"}`, `{"type":7}`, `{"envelope_id":"e1","type":"holograms","payload":{}}`,
		`{"envelope_id":"e2","type":"events_api"}`, `{"envelope_id":"e3","type":"interactive","payload":"x"}`, `{"envelope_id":"e4","type":"events_api","payload":{"type":"event_callback","event":{"type":"message","display_as_bot":"false"}}}`} {
		s.slack.SendRaw([]byte(f))
	}
	_, d := s.slack.Say(orders, repID, "", "72 tees")
	if !s.settle(d) || d.Attempts != 1 {
		t.Errorf("after odd frames: %d attempts\n%s", d.Attempts, s.logs.text())
	}
	s.one(clock)
}

// Ensure that a message that could not be kept is not acknowledged, and is kept when Slack sends it again.
func TestSocketOutage(t *testing.T) {
	clock := bottest.NewClock()
	out := &bottest.Outage{Ledger: newLedger(t)}
	s := open(t, bottest.NewDesk(out, clock), overSocket, nil)
	out.Down.Store(true)
	_, d := s.slack.Say(orders, repID, "", "72 tees")
	s.until("the first attempt failed", func() bool { return strings.Contains(s.logs.text(), "was not kept") })
	out.Down.Store(false)
	if !s.settle(d) || d.Attempts < 2 {
		t.Errorf("%d attempts", d.Attempts)
	}
	s.desk.Ledger = out.Ledger
	s.one(clock)
}

// Ensure that wrong tokens end Run at once with a sentence, and no token in it.
func TestWrongTokens(t *testing.T) {
	clock := bottest.NewClock()
	slack := newFake(t, clock.Now, time.Second)
	for _, c := range []Config{{BotToken: "xoxb-wrong", AppToken: appToken}, {BotToken: botToken, AppToken: "xapp-wrong"}} {
		c.APIURL, c.Now = slack.APIURL(), clock.Now
		door, err := New(bottest.NewDesk(newLedger(t), clock), c)
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
		err = door.Run(ctx)
		if err == nil || ctx.Err() != nil || strings.Contains(err.Error(), "wrong") || !strings.Contains(err.Error(), "invalid_auth") {
			t.Errorf("Run = %v", err)
		}
		cancel()
	}
}

// Ensure that Run outlives a Slack that cannot be reached at the start, and ends when told to.
func TestRunWaitsForSlack(t *testing.T) {
	clock := bottest.NewClock()
	slack := newFake(t, clock.Now, time.Second)
	slack.Fail("auth.test", fake.Fault{CutBefore: true}, fake.Fault{Status: 502})
	slack.Fail("apps.connections.open", fake.Fault{CutBefore: true})
	d := bottest.NewDesk(newLedger(t), clock)
	door, err := New(d, Config{BotToken: botToken, AppToken: appToken, APIURL: slack.APIURL(), Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	d.Doors = map[string]bot.Poster{Name: door}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- door.Run(ctx) }()
	for end := time.Now().Add(15 * time.Second); slack.Sockets() == 0; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it never connected")
		}
	}
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("Run did not end")
	}
}

// Ensure that deliveries of one channel share a lane, so that they are kept in order.
func TestLanes(t *testing.T) {
	e := func(payload string) envelope { return envelope{payload: json.RawMessage(payload)} }
	a := laneOf(e(`{"event":{"channel":"C1","user":"U1"}}`))
	for _, p := range []string{`{"event":{"channel":"C1","user":"U2"}}`, `{"channel":{"id":"C1"},"user":{"id":"U3"}}`, `{"channel_id":"C1","user_id":"U4"}`} {
		if laneOf(e(p)) != a {
			t.Errorf("%s is in another lane", p)
		}
	}
	laneOf(e(`[`))
	used := map[int]bool{}
	for i := range 100 {
		used[laneOf(e(fmt.Sprintf(`{"event":{"channel":"C%d"}}`, i)))] = true
	}
	if len(used) != lanes {
		t.Errorf("100 channels use %d lanes of %d", len(used), lanes)
	}
}
