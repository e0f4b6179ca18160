package redisledger_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/alicebob/miniredis/v2"
	"github.com/redis/go-redis/v9"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/ledgertest"
	"strikeoff/bot/ledger/redisledger"
)

// cutter is a connection whose replies to scripts are thrown away, and which then ends, as often as left says: the server did what it was
// told, and the client cannot know.
type cutter struct {
	net.Conn
	left   *atomic.Int32
	cutOff bool
}

func (c *cutter) Write(b []byte) (int, error) {
	if bytes.Contains(bytes.ToLower(b), []byte("evalsha")) && c.left.Load() > 0 {
		c.cutOff = true
	}
	return c.Conn.Write(b)
}

func (c *cutter) Read(b []byte) (int, error) {
	n, err := c.Conn.Read(b)
	if c.cutOff && err == nil && c.left.Add(-1) >= 0 {
		c.Conn.Close()
		return 0, net.ErrClosed
	}
	return n, err
}

// Ensure that a lost reply, after which the client sends the script again, has exactly one effect.
func TestLostRepliesHaveOneEffect(t *testing.T) {
	for name, addr := range map[string]func(*testing.T) string{
		"stand-in": func(t *testing.T) string { return miniredis.RunT(t).Addr() },
		"server":   func(t *testing.T) string { return ledgertest.StartRedis(t).Addr },
	} {
		t.Run(name, func(t *testing.T) { lostReplies(t, addr(t)) })
	}
}

func lostReplies(t *testing.T, addr string) {
	o, err := redisledger.Options("redis://" + addr)
	if err != nil {
		t.Fatal(err)
	}
	var left atomic.Int32
	cuts := 0
	o.Dialer = func(ctx context.Context, network, addr string) (net.Conn, error) {
		c, err := (&net.Dialer{}).DialContext(ctx, network, addr)
		if err != nil {
			return nil, err
		}
		return &cutter{Conn: c, left: &left}, nil
	}
	ctx := t.Context()
	l, err := redisledger.Open(ctx, redis.NewUniversalClient(o), "cut")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	lose := func(doing string, f func() error) {
		t.Helper()
		left.Store(2)
		if err := f(); err != nil {
			t.Errorf("%s: %v", doing, err)
		}
		if left.Load() > 0 {
			t.Errorf("%s: only %d replies were cut", doing, 2-left.Load())
		}
		left.Store(0)
		cuts++
	}
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	lose("keep", func() error { _, err := l.Keep(ctx, ledgertest.Inbound("m")); return err })
	c := ledgertest.NewJob(1, "m")
	c.Done, c.Out = "m", []job.Outbound{ledgertest.Post("p", "room", "card", noon)}
	lose("save", func() error { return l.Save(ctx, c) })
	alone := ledgertest.Step(*c.Job, noon, job.Event{Kind: job.AlertSent, By: job.Actor{Role: job.Desk}, Key: "k"})
	alone.Out = []job.Outbound{ledgertest.Post("q", "room", "", noon)}
	lose("save without a message", func() error { return l.Save(ctx, alone) })
	if outs, err := l.Post(ctx, noon, time.Minute, 9); err != nil || len(outs) != 1 {
		t.Errorf("leased %d posts, %v", len(outs), err)
	}
	lose("sent", func() error { return l.Sent(ctx, "p", 1, "ref") })
	if outs, err := l.Post(ctx, noon, time.Minute, 9); err != nil || len(outs) != 1 {
		t.Errorf("leased %d posts, %v", len(outs), err)
	}
	// A repeated Retry finds that the item is not leased any more, and may say so: it waits all the same.
	left.Store(2)
	if err := l.Retry(ctx, "q", 1, noon.Add(time.Hour), "busy"); err != nil && !errors.Is(err, job.ErrNotMine) {
		t.Errorf("retry: %v", err)
	}
	left.Store(0)
	if outs, err := l.Post(ctx, noon.Add(time.Hour), time.Minute, 9); err != nil || len(outs) != 1 || outs[0].Tries != 2 {
		t.Errorf("after the retry: %+v, %v", outs, err)
	}
	entries, err := l.History(ctx, 1)
	if err != nil || len(entries) != 2 {
		t.Errorf("%d entries, %v; want 2", len(entries), err)
	}
	j, err := l.Load(ctx, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := job.VerifyJob(j, entries); err != nil {
		t.Error(err)
	}
	if err := l.Save(ctx, c); !errors.Is(err, job.ErrDone) {
		t.Errorf("a second call with the same change: %v, want ErrDone", err)
	}
	if cuts == 0 {
		t.Fatal("nothing was cut")
	}
}

// Ensure that with the server gone every method says so within its deadline, and that what was acknowledged is there when it is back: the
// server is killed as by a crash.
func TestServerKilled(t *testing.T) {
	r := ledgertest.StartRedis(t)
	l := open(t, r.Addr, "one")
	defer l.Close()
	ctx := t.Context()
	for i := range 20 {
		if fresh, err := l.Keep(ctx, ledgertest.Inbound(fmt.Sprint("m", i))); err != nil || !fresh {
			t.Fatal(fresh, err)
		}
	}
	c := ledgertest.NewJob(1, "m0")
	c.Done, c.Out = "m0", []job.Outbound{ledgertest.Post("p", "room", "", time.Unix(0, 0))}
	if err := l.Save(ctx, c); err != nil {
		t.Fatal(err)
	}
	r.Kill()
	short, cancel := context.WithTimeout(ctx, 300*time.Millisecond)
	defer cancel()
	begun := time.Now()
	if _, err := l.Keep(short, ledgertest.Inbound("lost")); !errors.Is(err, job.ErrDown) {
		t.Errorf("keeping while Redis is down: %v, want ErrDown", err)
	}
	if _, err := l.Health(short, begun); !errors.Is(err, job.ErrDown) {
		t.Errorf("health while Redis is down: %v, want ErrDown", err)
	}
	if _, err := redisledger.Open(short, client(t, r.Addr), "one"); !errors.Is(err, job.ErrDown) {
		t.Errorf("opening while Redis is down: %v, want ErrDown", err)
	}
	r.Start()
	ins, err := l.Take(ctx, begun, time.Minute, 99)
	if err != nil || len(ins) != 19 {
		t.Errorf("%d messages after the crash, %v; want 19", len(ins), err)
	}
	outs, err := l.Post(ctx, begun, time.Minute, 9)
	if err != nil || len(outs) != 1 {
		t.Errorf("%d posts after the crash, %v; want 1", len(outs), err)
	}
	// The scripts are loaded anew without anybody's doing.
	if j, err := l.Load(ctx, 1); err != nil || j.Revision != 1 {
		t.Errorf("the job after the crash: %+v, %v", j, err)
	}
}

// Ensure Health says what keeps a server from being safe, and nothing where it is.
func TestHealthWarns(t *testing.T) {
	safe := open(t, ledgertest.StartRedis(t).Addr, "one")
	defer safe.Close()
	h, err := safe.Health(t.Context(), time.Unix(0, 0))
	if err != nil || !h.Durable || len(h.Warnings) > 0 {
		t.Errorf("a safe server: %+v, %v", h, err)
	}
	lax := open(t, ledgertest.StartRedis(t, "--appendonly", "no", "--appendfsync", "everysec", "--maxmemory-policy", "allkeys-lru").Addr, "one")
	defer lax.Close()
	h, err = lax.Health(t.Context(), time.Unix(0, 0))
	if err != nil || h.Durable || len(h.Warnings) != 3 {
		t.Errorf("a lax server: %+v, %v", h, err)
	}
	for i, word := range []string{"appendonly yes", "appendfsync everysec", "maxmemory-policy allkeys-lru"} {
		if i < len(h.Warnings) && !strings.Contains(h.Warnings[i], word) {
			t.Errorf("warning %q, want one that says %q", h.Warnings[i], word)
		}
	}
	standIn := open(t, miniredis.RunT(t).Addr(), "one")
	defer standIn.Close()
	if h, err = standIn.Health(t.Context(), time.Unix(0, 0)); err != nil || h.Durable {
		t.Errorf("the stand-in: %+v, %v", h, err)
	}
}

// Ensure a ledger of a later version, or something that is no ledger, is refused and left alone.
func TestForeignVersions(t *testing.T) {
	m := miniredis.RunT(t)
	for field, want := range map[string]error{"layout": job.ErrTooNew, "record": job.ErrTooNew} {
		m.FlushAll()
		m.HSet("so:{one}:version", field, "99")
		before := m.Dump()
		if _, err := redisledger.Open(t.Context(), client(t, m.Addr()), "one"); !errors.Is(err, want) {
			t.Errorf("%s 99: %v, want %v", field, err, want)
		}
		if m.Dump() != before {
			t.Errorf("%s 99: something was written", field)
		}
	}
	m.FlushAll()
	m.HSet("so:{one}:version", "layout", "banana")
	if _, err := redisledger.Open(t.Context(), client(t, m.Addr()), "one"); !errors.Is(err, job.ErrCorrupt) {
		t.Errorf("banana: %v, want ErrCorrupt", err)
	}
	m.FlushAll()
	if err := m.Set("so:{one}:version", "something else"); err != nil {
		t.Fatal(err)
	}
	if _, err := redisledger.Open(t.Context(), client(t, m.Addr()), "one"); !errors.Is(err, job.ErrCorrupt) {
		t.Errorf("another kind of value: %v, want ErrCorrupt", err)
	}
}

// Ensure a job whose history lost the entry that holds its plan is told as damaged, and not shown without one.
func TestLostHistory(t *testing.T) {
	m := miniredis.RunT(t)
	l := open(t, m.Addr(), "one")
	defer l.Close()
	if err := l.Save(t.Context(), ledgertest.NewJob(1, "m")); err != nil {
		t.Fatal(err)
	}
	m.Del("so:{one}:history:1")
	if _, err := l.Load(t.Context(), 1); !errors.Is(err, job.ErrCorrupt) {
		t.Errorf("loading: %v, want ErrCorrupt", err)
	}
	if _, err := l.Jobs(t.Context(), nil, 0, 9); !errors.Is(err, job.ErrCorrupt) {
		t.Errorf("listing: %v, want ErrCorrupt", err)
	}
}

// Ensure keys of what is done expire after 14 days, and those of jobs never.
func TestExpiry(t *testing.T) {
	m := miniredis.RunT(t)
	l := open(t, m.Addr(), "one")
	defer l.Close()
	ctx := t.Context()
	noon := time.Unix(0, 0)
	for _, key := range []string{"m", "n"} {
		if _, err := l.Keep(ctx, ledgertest.Inbound(key)); err != nil {
			t.Fatal(err)
		}
	}
	c := ledgertest.NewJob(1, "m")
	c.Done, c.Out = "m", []job.Outbound{ledgertest.Post("p", "room", "", noon), ledgertest.Post("q", "room", "", noon)}
	if err := l.Save(ctx, c); err != nil {
		t.Fatal(err)
	}
	if _, err := l.Post(ctx, noon, time.Minute, 1); err != nil {
		t.Fatal(err)
	}
	if err := l.Sent(ctx, "p", 1, ""); err != nil {
		t.Fatal(err)
	}
	const day = 24 * time.Hour
	expires := 0
	for _, key := range m.Keys() {
		ttl := m.TTL(key)
		switch {
		case key == "so:{one}:msg:m" || key == "so:{one}:post:p":
			expires++
			if ttl != 14*day {
				t.Errorf("%s expires in %v, want 14 days", key, ttl)
			}
		case ttl != 0:
			t.Errorf("%s expires in %v, want never", key, ttl)
		}
	}
	if expires != 2 {
		t.Errorf("%d keys expire, want 2; keys: %q", expires, m.Keys())
	}
}
