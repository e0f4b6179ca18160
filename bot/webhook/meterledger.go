package webhook

import (
	"context"
	"errors"
	"time"

	"strikeoff/bot"
)

// MeterLedger is a ledger that times every call of another, counts its failures, and counts the verdicts of every plan that is saved. around,
// where it is set, is called around every call.
func MeterLedger(l bot.Ledger, m *Meters, around bot.Around) bot.Ledger {
	if m == nil {
		return l
	}
	return &meterLedger{l, m, around}
}

type meterLedger struct {
	l      bot.Ledger
	m      *Meters
	around bot.Around
}

// timed times one call.
func timed[T any](ctx context.Context, m *meterLedger, call string, f func(context.Context) (T, error)) (T, error) {
	ctx, end := m.around.Begin(ctx, "ledger "+call, "")
	start := time.Now()
	v, err := f(ctx)
	end(err)
	m.m.calls.WithLabelValues(call).Observe(time.Since(start).Seconds())
	// "No such job" and "changed since it was read" are answers, not failures.
	if errors.Is(err, bot.ErrDown) || errors.Is(err, context.DeadlineExceeded) {
		m.m.failures.WithLabelValues(call).Inc()
	}
	return v, err
}

// done times a call that returns only an error.
func done(ctx context.Context, m *meterLedger, call string, f func(context.Context) error) error {
	_, err := timed(ctx, m, call, func(ctx context.Context) (struct{}, error) { return struct{}{}, f(ctx) })
	return err
}

func (m *meterLedger) Keep(ctx context.Context, in bot.Inbound) (bool, error) {
	return timed(ctx, m, "keep", func(ctx context.Context) (bool, error) { return m.l.Keep(ctx, in) })
}

func (m *meterLedger) Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]bot.Inbound, error) {
	return timed(ctx, m, "take", func(ctx context.Context) ([]bot.Inbound, error) { return m.l.Take(ctx, now, lease, n) })
}

func (m *meterLedger) Put(ctx context.Context, key string, at time.Time) error {
	return done(ctx, m, "put", func(ctx context.Context) error { return m.l.Put(ctx, key, at) })
}

func (m *meterLedger) Number(ctx context.Context) (bot.JobID, error) {
	return timed(ctx, m, "number", func(ctx context.Context) (bot.JobID, error) { return m.l.Number(ctx) })
}

func (m *meterLedger) Load(ctx context.Context, id bot.JobID) (bot.Job, error) {
	return timed(ctx, m, "load", func(ctx context.Context) (bot.Job, error) { return m.l.Load(ctx, id) })
}

func (m *meterLedger) InThread(ctx context.Context, p bot.Place) (bot.JobID, error) {
	return timed(ctx, m, "in-thread", func(ctx context.Context) (bot.JobID, error) { return m.l.InThread(ctx, p) })
}

func (m *meterLedger) FromMessage(ctx context.Context, key string) (bot.JobID, error) {
	return timed(ctx, m, "from-message", func(ctx context.Context) (bot.JobID, error) { return m.l.FromMessage(ctx, key) })
}

func (m *meterLedger) Jobs(ctx context.Context, states []bot.State, below bot.JobID, n int) ([]bot.Job, error) {
	return timed(ctx, m, "jobs", func(ctx context.Context) ([]bot.Job, error) { return m.l.Jobs(ctx, states, below, n) })
}

func (m *meterLedger) History(ctx context.Context, id bot.JobID) ([]bot.Entry, error) {
	return timed(ctx, m, "history", func(ctx context.Context) ([]bot.Entry, error) { return m.l.History(ctx, id) })
}

func (m *meterLedger) Save(ctx context.Context, c bot.Change) error {
	err := done(ctx, m, "save", func(ctx context.Context) error { return m.l.Save(ctx, c) })
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
	return timed(ctx, m, "post", func(ctx context.Context) ([]bot.Outbound, error) { return m.l.Post(ctx, now, lease, n) })
}

func (m *meterLedger) Sent(ctx context.Context, key string, tries int, ref string) error {
	return done(ctx, m, "sent", func(ctx context.Context) error { return m.l.Sent(ctx, key, tries, ref) })
}

func (m *meterLedger) Retry(ctx context.Context, key string, tries int, at time.Time, why string) error {
	return done(ctx, m, "retry", func(ctx context.Context) error { return m.l.Retry(ctx, key, tries, at, why) })
}

func (m *meterLedger) Due(ctx context.Context, now time.Time, n int) ([]bot.JobID, error) {
	return timed(ctx, m, "due", func(ctx context.Context) ([]bot.JobID, error) { return m.l.Due(ctx, now, n) })
}

func (m *meterLedger) Cursor(ctx context.Context, door, room string) (string, error) {
	return timed(ctx, m, "cursor", func(ctx context.Context) (string, error) { return m.l.Cursor(ctx, door, room) })
}

func (m *meterLedger) SetCursor(ctx context.Context, door, room, at string) error {
	return done(ctx, m, "set-cursor", func(ctx context.Context) error { return m.l.SetCursor(ctx, door, room, at) })
}

func (m *meterLedger) Health(ctx context.Context, now time.Time) (bot.Health, error) {
	return timed(ctx, m, "health", func(ctx context.Context) (bot.Health, error) { return m.l.Health(ctx, now) })
}

func (m *meterLedger) Close() error { return m.l.Close() }
