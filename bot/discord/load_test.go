package discord

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
	"strikeoff/bot/ledger/redisledger"
)

// TestLoad measures, on both ledgers with every write on disk, how soon a message is kept, a press acknowledged and a request answered,
// while 50 requests a second come in over 20 rooms and a press every fifth of a second. It runs only where STRIKEOFF_LOAD is set: it takes
// the machine for itself, and says little on a busy one.
func TestLoad(t *testing.T) {
	if os.Getenv("STRIKEOFF_LOAD") == "" {
		t.Skip("set STRIKEOFF_LOAD=1 to measure")
	}
	t.Run("one file", func(t *testing.T) {
		l, err := boltledger.Open(filepath.Join(t.TempDir(), "ledger.db"), boltledger.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer l.Close()
		load(t, l)
	})
	t.Run("Redis", func(t *testing.T) {
		c := redis.NewClient(&redis.Options{Addr: ledgertest.StartRedis(t).Addr, ContextTimeoutEnabled: true, DisableIdentity: true})
		defer c.Close()
		l, err := redisledger.Open(t.Context(), c, "load")
		if err != nil {
			t.Fatal(err)
		}
		load(t, l)
	})
}

// stopwatch notes when things began and ended.
type stopwatch struct {
	mu    sync.Mutex
	begin map[string]time.Time
	took  map[string]time.Duration
}

func (s *stopwatch) start(key string) { s.mu.Lock(); s.begin[key] = time.Now(); s.mu.Unlock() }

func (s *stopwatch) stop(key string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if b, ok := s.begin[key]; ok && s.took[key] == 0 {
		s.took[key] = time.Since(b)
	}
}

func (s *stopwatch) report(t *testing.T, name string, want int, most time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var all []time.Duration
	for _, d := range s.took {
		all = append(all, d)
	}
	slices.Sort(all)
	if len(all) != want || want == 0 {
		t.Errorf("%s: %d of %d ended", name, len(all), want)
		return
	}
	p := func(q float64) time.Duration {
		return all[min(len(all)-1, int(q*float64(len(all))))].Round(100 * time.Microsecond)
	}
	t.Logf("%s: n %d, p50 %v, p99 %v, most %v", name, len(all), p(.5), p(.99), all[len(all)-1].Round(100*time.Microsecond))
	if p(.99) > most {
		t.Errorf("%s: p99 is %v, want below %v", name, p(.99), most)
	}
}

func newStopwatch() *stopwatch {
	return &stopwatch{begin: map[string]time.Time{}, took: map[string]time.Duration{}}
}

func load(t *testing.T, ledger bot.Ledger) {
	const (
		seconds = 20
		rate    = 50
	)
	f := newFake(t, time.Now)
	var rooms []string
	for i := range 20 {
		id := fmt.Sprint(310 + i)
		f.channels[id] = &fakeChannel{ID: id, Guild: fakeGuild, Name: "orders"}
		rooms = append(rooms, id)
	}
	d := &bot.Desk{Ledger: ledger, Now: time.Now}
	c := f.door(t, d, func(c *Config) { c.OrdersRooms = rooms })
	kept, answered, pressed := newStopwatch(), newStopwatch(), newStopwatch()
	c.tried = func(key string, _ bool, _ error) { kept.stop(key) }
	f.posted = answered.stop
	f.acted = pressed.stop
	d.Doors = map[string]bot.Poster{Door: c}
	d.Roster = map[string]bot.Leads{Door: {Groups: []string{fakeLeadRole}}}
	f.start(t, c)
	ctx, stop := context.WithCancel(t.Context())
	var run sync.WaitGroup
	run.Go(func() { d.Run(ctx) })
	defer run.Wait()
	defer stop()

	tick := time.NewTicker(time.Second / rate)
	defer tick.Stop()
	presses := 0
	for i := range seconds * rate {
		<-tick.C
		text := fmt.Sprintf("Hi, %d t-shirts, 50/25/25 tri-blend, navy heather, white front print 11 x 12 in, for Marsh Lane Choir, in hand by Dec 18", i+24)
		room := rooms[i%len(rooms)]
		m := f.write(fakeRep, room, text)
		kept.start(messageKey(room, m.ID))
		answered.start(m.ID)
		f.dispatch("MESSAGE_CREATE", m)
		if i%10 == 0 {
			in, body := f.interact(fakeRep, room, interCommand, map[string]any{"id": "1", "type": commandTyped, "name": "jobs"}, nil)
			pressed.start(in.id)
			presses++
			f.dispatch("INTERACTION_CREATE", body)
		}
	}
	end := time.Now().Add(20 * time.Second)
	for time.Now().Before(end) {
		answered.mu.Lock()
		done := len(answered.took) == seconds*rate
		answered.mu.Unlock()
		if done {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	kept.report(t, "message kept", seconds*rate, 100*time.Millisecond)
	pressed.report(t, "press acknowledged", presses, 100*time.Millisecond)
	answered.report(t, "request answered", seconds*rate, 500*time.Millisecond)
}
