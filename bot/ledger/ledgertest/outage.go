package ledgertest

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

// Broken is a ledger that pretends, on demand, that it cannot be reached. Make one with Outage.
type Broken struct {
	l    bot.Ledger
	down atomic.Bool
	lose atomic.Int32
	next atomic.Int32
}

var _ bot.Ledger = (*Broken)(nil)

// Outage wraps a ledger, which works until it is told otherwise.
func Outage(l bot.Ledger) *Broken { return &Broken{l: l} }

// Down makes every call fail with job.ErrDown, keeping nothing, until Up.
func (b *Broken) Down() { b.down.Store(true) }

// Up ends the outage.
func (b *Broken) Up() { b.down.Store(false); b.next.Store(0); b.lose.Store(0) }

// FailNext makes the next n calls fail, keeping nothing.
func (b *Broken) FailNext(n int) { b.next.Store(int32(n)) }

// LoseNext makes the next n writes happen and then say job.ErrDown, as where the answer was lost on its way.
func (b *Broken) LoseNext(n int) { b.lose.Store(int32(n)) }

// out is the error where the ledger is down.
func (b *Broken) out() error {
	if b.down.Load() || b.next.Load() > 0 && b.next.Add(-1) >= 0 {
		return fmt.Errorf("%w: an outage, for the test", job.ErrDown)
	}
	return nil
}

// lost is what a write says that ended with err: the loss, where its answer is to be lost.
func (b *Broken) lost(err error) error {
	if b.lose.Load() > 0 && b.lose.Add(-1) >= 0 {
		return fmt.Errorf("%w: the answer was lost, for the test", job.ErrDown)
	}
	return err
}

// write runs a write.
func (b *Broken) write(do func() error) error {
	if err := b.out(); err != nil {
		return err
	}
	return b.lost(do())
}

// ask runs a call that gives something.
func ask[T any](b *Broken, writes bool, do func() (T, error)) (T, error) {
	var none T
	if err := b.out(); err != nil {
		return none, err
	}
	v, err := do()
	if writes {
		if lost := b.lost(nil); lost != nil {
			return none, lost
		}
	}
	return v, err
}

// Keep is the ledger's.
func (b *Broken) Keep(ctx context.Context, in job.Inbound) (bool, error) {
	return ask(b, true, func() (bool, error) { return b.l.Keep(ctx, in) })
}

// Take is the ledger's.
func (b *Broken) Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Inbound, error) {
	return ask(b, true, func() ([]job.Inbound, error) { return b.l.Take(ctx, now, lease, n) })
}

// Put is the ledger's.
func (b *Broken) Put(ctx context.Context, key string, at time.Time) error {
	return b.write(func() error { return b.l.Put(ctx, key, at) })
}

// Number is the ledger's.
func (b *Broken) Number(ctx context.Context) (job.ID, error) {
	return ask(b, true, func() (job.ID, error) { return b.l.Number(ctx) })
}

// Load is the ledger's.
func (b *Broken) Load(ctx context.Context, id job.ID) (job.Job, error) {
	return ask(b, false, func() (job.Job, error) { return b.l.Load(ctx, id) })
}

// InThread is the ledger's.
func (b *Broken) InThread(ctx context.Context, p job.Place) (job.ID, error) {
	return ask(b, false, func() (job.ID, error) { return b.l.InThread(ctx, p) })
}

// FromMessage is the ledger's.
func (b *Broken) FromMessage(ctx context.Context, key string) (job.ID, error) {
	return ask(b, false, func() (job.ID, error) { return b.l.FromMessage(ctx, key) })
}

// Jobs is the ledger's.
func (b *Broken) Jobs(ctx context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	return ask(b, false, func() ([]job.Job, error) { return b.l.Jobs(ctx, states, below, n) })
}

// History is the ledger's.
func (b *Broken) History(ctx context.Context, id job.ID) ([]job.Entry, error) {
	return ask(b, false, func() ([]job.Entry, error) { return b.l.History(ctx, id) })
}

// Save is the ledger's.
func (b *Broken) Save(ctx context.Context, c job.Change) error {
	return b.write(func() error { return b.l.Save(ctx, c) })
}

// Post is the ledger's.
func (b *Broken) Post(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Outbound, error) {
	return ask(b, true, func() ([]job.Outbound, error) { return b.l.Post(ctx, now, lease, n) })
}

// Sent is the ledger's.
func (b *Broken) Sent(ctx context.Context, key string, tries int, ref string) error {
	return b.write(func() error { return b.l.Sent(ctx, key, tries, ref) })
}

// Retry is the ledger's.
func (b *Broken) Retry(ctx context.Context, key string, tries int, at time.Time, why string) error {
	return b.write(func() error { return b.l.Retry(ctx, key, tries, at, why) })
}

// Due is the ledger's.
func (b *Broken) Due(ctx context.Context, now time.Time, n int) ([]job.ID, error) {
	return ask(b, false, func() ([]job.ID, error) { return b.l.Due(ctx, now, n) })
}

// Cursor is the ledger's.
func (b *Broken) Cursor(ctx context.Context, door, room string) (string, error) {
	return ask(b, false, func() (string, error) { return b.l.Cursor(ctx, door, room) })
}

// SetCursor is the ledger's.
func (b *Broken) SetCursor(ctx context.Context, door, room, at string) error {
	return b.write(func() error { return b.l.SetCursor(ctx, door, room, at) })
}

// Health is the ledger's.
func (b *Broken) Health(ctx context.Context, now time.Time) (bot.Health, error) {
	return ask(b, false, func() (bot.Health, error) { return b.l.Health(ctx, now) })
}

// Close closes the ledger, outage or not.
func (b *Broken) Close() error { return b.l.Close() }
