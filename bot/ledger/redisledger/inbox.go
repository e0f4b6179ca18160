package redisledger

import (
	"context"
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// Keep keeps a message, once.
func (l *Ledger) Keep(ctx context.Context, in job.Inbound) (bool, error) {
	if err := record.CheckKey(in.Key); err != nil {
		return false, err
	}
	rec, err := record.Inbound(in)
	if err != nil {
		return false, err
	}
	fresh, err := l.run(ctx, keepScript, []string{l.k.messageStem(), l.k.inSeq(), l.k.inReady(), l.k.laneStem()}, in.Key, rec, nowMS(in.Kept), laneID(in)).Int64Slice()
	if err != nil {
		return false, down(err)
	}
	return len(fresh) == 1 && fresh[0] == 1, nil
}

// Take leases messages, oldest first, none before an earlier one of its lane.
func (l *Ledger) Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Inbound, error) {
	if n <= 0 {
		return nil, nil
	}
	got, err := l.run(ctx, takeScript, []string{l.k.messageStem(), l.k.inReady(), l.k.inWait(), l.k.laneStem()}, nowMS(now), leaseEnd(now, lease), n).Slice()
	if err != nil {
		return nil, down(err)
	}
	var out []job.Inbound
	for i := 0; i+1 < len(got); i += 2 {
		rec, _ := got[i].(string)
		tries, _ := got[i+1].(int64)
		in, err := record.ReadInbound([]byte(rec), int(tries))
		if err != nil {
			return nil, err
		}
		out = append(out, in)
	}
	return out, nil
}

// Put gives a message back, or sets it aside. A message that was set aside can be put back with a time.
func (l *Ledger) Put(ctx context.Context, key string, at time.Time) error {
	when := ""
	if !at.IsZero() {
		when = ms(at)
	}
	said, err := l.run(ctx, putScript, []string{l.k.messageStem(), l.k.inReady(), l.k.inWait(), l.k.aside(), l.k.laneStem()}, key, when).Int()
	switch {
	case err != nil:
		return down(err)
	case said == 0:
		return fmt.Errorf("message %s: %w", key, job.ErrNotFound)
	case said < 0:
		return fmt.Errorf("message %s: %w", key, job.ErrDone)
	}
	return nil
}
