package slack

import (
	"context"
	"flag"
	"fmt"
	"log/slog"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
	"strikeoff/bot/ledger/redisledger"
	"strikeoff/bot/slack/fake"
)

// load is how long TestLoad runs: go test ./bot/slack -run TestLoad -load 30s. Without it TestLoad is skipped: its figures are the machine's.
var load = flag.Duration("load", 0, "how long to send 50 messages a second")

const perSecond = 50

// TestLoad sends 50 requests a second for a while, over both transports, on both ledgers with every write flushed to disk, with the shop's real
// reading and rules at work, and says how long it took until each was acknowledged and until its answer stood in its thread. It fails above
// 100 ms and 500 ms at the 99th percentile.
func TestLoad(t *testing.T) {
	if *load == 0 {
		t.Skip("a load run: give -load 30s")
	}
	for _, ledger := range []struct {
		name string
		open func(t *testing.T) bot.Ledger
	}{
		{"bolt", func(t *testing.T) bot.Ledger {
			l, err := boltledger.Open(filepath.Join(t.TempDir(), "ledger.db"), boltledger.Options{})
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
		{"redis", func(t *testing.T) bot.Ledger {
			l, err := redisledger.Dial(t.Context(), "redis://"+ledgertest.StartRedis(t).Addr+"/0", "load")
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
	} {
		for _, by := range []transport{overSocket, overHTTP} {
			t.Run(ledger.name+"/"+string(by), func(t *testing.T) { loadRun(t, ledger.open(t), by) })
		}
	}
}

func loadRun(t *testing.T, ledger bot.Ledger, by transport) {
	slack := newFake(t, time.Now, 3*time.Second)
	var rooms []string
	for i := range 100 { // Slack allows about one post a second in a channel: 50 a second need many
		id := fmt.Sprintf("C0LOAD%d", i)
		slack.AddChannel(id, fmt.Sprintf("orders-%d", i), true)
		rooms = append(rooms, id)
	}
	d := &bot.Desk{Ledger: ledger, Now: time.Now, Log: slog.New(slog.DiscardHandler)}
	c := Config{BotToken: botToken, SigningSecret: signing, Orders: rooms, APIURL: slack.APIURL(), Now: time.Now}
	if by == overSocket {
		c.AppToken = appToken
	}
	door, err := New(d, c)
	if err != nil {
		t.Fatal(err)
	}
	d.Doors = map[string]bot.Poster{Name: door}
	d.Roster = map[string]bot.Leads{Name: {Groups: []string{leads}}}
	ctx, stop := context.WithCancel(context.Background())
	var running sync.WaitGroup
	running.Go(func() { door.Run(ctx) })
	running.Go(func() { d.Run(ctx) })
	if by == overHTTP {
		web := httptest.NewServer(door)
		defer web.Close()
		slack.Target(web.URL)
	}
	for by == overSocket && slack.Sockets() == 0 {
		time.Sleep(time.Millisecond)
	}

	var mu sync.Mutex
	answered := map[string]time.Time{}
	slack.OnPost(func(m fake.Message) {
		mu.Lock()
		defer mu.Unlock()
		if _, there := answered[m.ThreadTS]; !there {
			answered[m.ThreadTS] = time.Now()
		}
	})
	type sent struct {
		ts string
		at time.Time
		d  *fake.Delivery
	}
	var all []sent
	tick := time.NewTicker(time.Second / perSecond)
	defer tick.Stop()
	for end := time.Now().Add(*load); time.Now().Before(end); <-tick.C {
		n := len(all)
		at := time.Now()
		ts, d := slack.Say(rooms[n*37%len(rooms)], repID, "", fmt.Sprintf("Hi, %d tees in tri-blend, navy, white front print 280 x 300 mm, for Larkspur Rowing, needed 18 Dec 2026", 20+n%200))
		all = append(all, sent{ts, at, d})
	}
	var acks, answers []time.Duration
	for _, s := range all {
		if _, err := s.d.Wait(); err != nil {
			t.Errorf("message %s: %v", s.ts, err)
			continue
		}
		acks = append(acks, s.d.Acked.Sub(s.at))
	}
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		mu.Lock()
		n := len(answered)
		mu.Unlock()
		if n >= len(all) {
			break
		}
	}
	stop()
	running.Wait()
	if err := ledger.Close(); err != nil {
		t.Error(err)
	}
	for _, s := range all {
		at, ok := answered[s.ts]
		if !ok {
			t.Errorf("message %s was never answered", s.ts)
			continue
		}
		answers = append(answers, at.Sub(s.at))
	}
	ack, ans := percentile(acks, 99), percentile(answers, 99)
	t.Logf("%d messages at %d a second: acknowledged p50 %v p99 %v max %v; answered p50 %v p99 %v max %v", len(all), perSecond,
		percentile(acks, 50), ack, percentile(acks, 100), percentile(answers, 50), ans, percentile(answers, 100))
	if ack > 100*time.Millisecond || ans > 500*time.Millisecond {
		t.Errorf("acknowledged in %v, answered in %v at p99; at most 100 ms and 500 ms", ack, ans)
	}
}

// percentile is the p-th percentile of durations, rounded to 0.1 ms.
func percentile(ds []time.Duration, p int) time.Duration {
	if len(ds) == 0 {
		return 0
	}
	s := slices.Sorted(slices.Values(ds))
	return s[min(len(s)*p/100, len(s)-1)].Round(100 * time.Microsecond)
}
