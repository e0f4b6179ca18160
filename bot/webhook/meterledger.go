package webhook

import (
	"context"
	"errors"
	"time"

	"strikeoff/bot"
)

// MeterLedger is a ledger that times every call of another, counts its failures, and counts the verdicts of every plan that is saved.
func MeterLedger(l bot.Ledger, m *Meters) bot.Ledger {
	if m == nil {
		return l
	}
	return &meterLedger{l, m}
}

type meterLedger struct {
	l bot.Ledger
	m *Meters
}

// timed times one call.
func timed[T any](m *meterLedger, call string, f func() (T, error)) (T, error) {
	start := time.Now()
	v, err := f()
	m.m.calls.WithLabelValues(call).Observe(time.Since(start).Seconds())
	// "No such job" and "changed since it was read" are answers, not failures.
	if errors.Is(err, bot.ErrDown) || errors.Is(err, context.DeadlineExceeded) {
		m.m.failures.WithLabelValues(call).Inc()
	}
	return v, err
}

// done times a call that returns only an error.
func done(m *meterLedger, call string, f func() error) error {
	_, err := timed(m, call, func() (struct{}, error) { return struct{}{}, f() })
	return err
}

func (m *meterLedger) Keep(ctx context.Context, in bot.Inbound) (bool, error) {
	return timed(m, "keep", func() (bool, error) { return m.l.Keep(ctx, in) })
}

func (m *meterLedger) Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]bot.Inbound, error) {
	return timed(m, "take", func() ([]bot.Inbound, error) { return m.l.Take(ctx, now, lease, n) })
}

func (m *meterLedger) Put(ctx context.Context, key string, at time.Time) error {
	return done(m, "put", func() error { return m.l.Put(ctx, key, at) })
}

func (m *meterLedger) Number(ctx context.Context) (bot.JobID, error) {
	return timed(m, "number", func() (bot.JobID, error) { return m.l.Number(ctx) })
}

func (m *meterLedger) Load(ctx context.Context, id bot.JobID) (bot.Job, error) {
	return timed(m, "load", func() (bot.Job, error) { return m.l.Load(ctx, id) })
}

func (m *meterLedger) InThread(ctx context.Context, p bot.Place) (bot.JobID, error) {
	return timed(m, "in-thread", func() (bot.JobID, error) { return m.l.InThread(ctx, p) })
}

func (m *meterLedger) FromMessage(ctx context.Context, key string) (bot.JobID, error) {
	return timed(m, "from-message", func() (bot.JobID, error) { return m.l.FromMessage(ctx, key) })
}

func (m *meterLedger) Jobs(ctx context.Context, states []bot.State, below bot.JobID, n int) ([]bot.Job, error) {
	return timed(m, "jobs", func() ([]bot.Job, error) { return m.l.Jobs(ctx, states, below, n) })
}

func (m *meterLedger) History(ctx context.Context, id bot.JobID) ([]bot.Entry, error) {
	return timed(m, "history", func() ([]bot.Entry, error) { return m.l.History(ctx, id) })
}

func (m *meterLedger) Save(ctx context.Context, c bot.Change) error {
	err := done(m, "save", func() error { return m.l.Save(ctx, c) })
	if err == nil {
		for _, e := range c.Entries {
			if e.Plan != nil {
				m.m.plan(*e.Plan)
			}
		}
	}
	return err
}

func (m *meterLedger) Post(ctx context.Context, now time.Time, lease time.Duration, n int) ([]bot.Outbound, error) {
	return timed(m, "post", func() ([]bot.Outbound, error) { return m.l.Post(ctx, now, lease, n) })
}

func (m *meterLedger) Sent(ctx context.Context, key string, tries int, ref string) error {
	return done(m, "sent", func() error { return m.l.Sent(ctx, key, tries, ref) })
}

func (m *meterLedger) Retry(ctx context.Context, key string, tries int, at time.Time, why string) error {
	return done(m, "retry", func() error { return m.l.Retry(ctx, key, tries, at, why) })
}

func (m *meterLedger) Due(ctx context.Context, now time.Time, n int) ([]bot.JobID, error) {
	return timed(m, "due", func() ([]bot.JobID, error) { return m.l.Due(ctx, now, n) })
}

func (m *meterLedger) Cursor(ctx context.Context, door, room string) (string, error) {
	return timed(m, "cursor", func() (string, error) { return m.l.Cursor(ctx, door, room) })
}

func (m *meterLedger) SetCursor(ctx context.Context, door, room, at string) error {
	return done(m, "set-cursor", func() error { return m.l.SetCursor(ctx, door, room, at) })
}

func (m *meterLedger) Health(ctx context.Context, now time.Time) (bot.Health, error) {
	return timed(m, "health", func() (bot.Health, error) { return m.l.Health(ctx, now) })
}

func (m *meterLedger) Close() error { return m.l.Close() }
