package bot

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"sync"
	"time"

	"strikeoff/bot/job"
)

// Run handles messages, sends posts and watches alerts until ctx ends; then it lets what is in hand finish and returns nil. It keeps on
// through a ledger or a platform that cannot be reached.
func (d *Desk) Run(ctx context.Context) error {
	d.setup()
	var all sync.WaitGroup
	for _, loop := range []func(context.Context){d.inbox, d.outbox, d.bell} {
		all.Go(func() { loop(ctx) })
	}
	all.Wait()
	return nil
}

// Work handles every kept message that is pending now, once, and returns how many it took. An error means that the ledger cannot be
// used; what could not be handled for another reason waits or was set aside, and was logged.
func (d *Desk) Work(ctx context.Context) (n int, err error) {
	d.setup()
	for ctx.Err() == nil {
		got, err := d.Ledger.Take(ctx, d.Now(), d.Limits.Lease, d.Limits.Batch)
		if err != nil {
			return n, fmt.Errorf("%w, and cannot be taken up: %w", errKept, err)
		}
		if len(got) == 0 {
			return n, nil
		}
		var down error
		held := map[string]Inbound{}
		for _, in := range got {
			n++
			if head, waits := held[laneOf(in)]; waits {
				d.giveBack(ctx, head, []Inbound{in})
				continue
			}
			waits, err := d.answer(ctx, in)
			if waits {
				held[laneOf(in)] = in
			}
			if errors.Is(err, job.ErrDown) || errors.Is(err, job.ErrCorrupt) || errors.Is(err, job.ErrTooNew) {
				down = err
			}
		}
		if down != nil {
			return n, fmt.Errorf("%w, and cannot be answered: %w", errKept, down)
		}
	}
	return n, ctx.Err()
}

// Alert looks once at the jobs whose alerts are due now, and returns how many alerts it raised. Deliver sends them.
func (d *Desk) Alert(ctx context.Context) (n int, err error) {
	d.setup()
	for {
		ids, err := d.Ledger.Due(ctx, d.Now(), d.Limits.Batch)
		if err != nil {
			return n, fmt.Errorf("%w, and alerts cannot be looked at: %w", errKept, err)
		}
		if len(ids) == 0 {
			return n, nil
		}
		rung := 0
		for _, id := range ids {
			raised, err := d.ring(ctx, id)
			switch {
			case errors.Is(err, job.ErrDown):
				return n, fmt.Errorf("%w, and an alert cannot be raised: %w", errKept, err)
			case err != nil: // one job's trouble is not that of the others
				d.Log.Error("the alerts of a job cannot be raised", "job", id, "err", err)
			default:
				rung++
			}
			n += raised
		}
		if len(ids) < d.Limits.Batch || rung == 0 {
			return n, nil
		}
	}
}

// bell is the loop that watches alerts.
func (d *Desk) bell(ctx context.Context) {
	d.loop(ctx, d.wakeBell, func() {
		if _, err := d.Alert(context.WithoutCancel(ctx)); err != nil {
			d.Log.Error("alerts cannot be looked at", "err", err)
		}
	})
}

// loop does a thing whenever it is woken, and every so often in case nobody woke it.
func (d *Desk) loop(ctx context.Context, woken <-chan struct{}, do func()) {
	tick := time.NewTicker(d.Limits.Poll)
	defer tick.Stop()
	for {
		do()
		select {
		case <-ctx.Done():
			return
		case <-woken:
		case <-tick.C:
		}
	}
}

// backoff is how long to wait after a number of failed tries: doubled each time, to at most 5 minutes, and spread by the key so that what
// failed together does not come back together.
func (d *Desk) backoff(tries int, key string) time.Duration {
	const most = 5 * time.Minute
	wait := min(most, d.Limits.Backoff<<min(max(tries-1, 0), 20))
	h := fnv.New32a()
	h.Write([]byte(key))
	return wait + wait/4*time.Duration(h.Sum32()%256)/256
}
