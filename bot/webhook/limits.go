package webhook

import (
	"context"
	"sync"
	"sync/atomic"
	"time"
)

// Limits bound what the API takes. Every zero means the usual value, named beside it.
type Limits struct {
	Body     int64         // bytes of a body without artwork: 256 KiB
	Upload   int64         // bytes of a body with artwork: 24 MiB
	Uploads  int           // bodies with artwork read at once: 4
	Files    int           // pieces of artwork in one order: 8
	InFlight int           // requests worked on at once: 64
	Queue    int           // requests that wait for a place beyond those: 128
	Wait     time.Duration // how long one waits for a place: 2 s
	Time     time.Duration // how long one request may take, its body's arrival included: 15 s
	Backlog  int           // kept orders not yet read beyond which no more are taken: 5000
}

func (l Limits) usual() Limits {
	set := func(v *int, usual int) {
		if *v <= 0 {
			*v = usual
		}
	}
	if l.Body <= 0 {
		l.Body = 256 << 10
	}
	if l.Upload <= 0 {
		l.Upload = 24 << 20
	}
	if l.Wait <= 0 {
		l.Wait = 2 * time.Second
	}
	if l.Time <= 0 {
		l.Time = 15 * time.Second
	}
	set(&l.Uploads, 4)
	set(&l.Files, 8)
	set(&l.InFlight, 64)
	set(&l.Queue, 128)
	set(&l.Backlog, 5000)
	return l
}

// gate lets a bounded number in and lets a bounded number wait.
type gate struct {
	places  chan struct{}
	waiting atomic.Int64
	queue   int64
	wait    time.Duration
}

func newGate(places, queue int, wait time.Duration) *gate {
	return &gate{places: make(chan struct{}, places), queue: int64(queue), wait: wait}
}

// enter takes a place, or reports that there is none to be had.
func (g *gate) enter(ctx context.Context) bool {
	select {
	case g.places <- struct{}{}:
		return true
	default:
	}
	if g.waiting.Add(1) > g.queue {
		g.waiting.Add(-1)
		return false
	}
	defer g.waiting.Add(-1)
	t := time.NewTimer(g.wait)
	defer t.Stop()
	select {
	case g.places <- struct{}{}:
		return true
	case <-ctx.Done():
		return false
	case <-t.C:
		return false
	}
}

func (g *gate) leave() { <-g.places }

// backlog remembers for a second how many kept orders wait to be read, so that asking costs the ledger little.
type backlog struct {
	asking sync.Mutex
	at     time.Time // guarded by asking
	deep   atomic.Int64
}

// over reports whether more than limit wait, as of a second ago. Where the ledger does not say, it is not for the backlog to refuse.
func (b *backlog) over(ctx context.Context, led Jobs, limit int, now time.Time) bool {
	if b.asking.TryLock() {
		if d := now.Sub(b.at); d >= time.Second || d < 0 {
			b.at = now
			if h, err := led.Health(ctx, now); err == nil {
				b.deep.Store(int64(h.Inbox))
			}
		}
		b.asking.Unlock()
	}
	return b.deep.Load() > int64(limit)
}
