package bot

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"strikeoff/bot/job"
)

// Pacer is a door whose platform allows only so many posts in one room. The desk then sends no faster.
type Pacer interface {
	// Pace is posts a second in one room, above 0, and how many may go at once, at least 1.
	Pace() (perSecond float64, burst int)
}

// longestPause is how long a post may hold its place in hand for the sake of the pace; one that must wait longer goes back.
const longestPause = 5 * time.Second

// errNoDoor says that a post belongs to a door that this program does not have. Another program on the same ledger may.
var errNoDoor = errors.New("there is no such door here")

// outbox is the loop that sends what must go out: places side by side, each place in order.
func (d *Desk) outbox(ctx context.Context) {
	most := 2 * d.Limits.Batch
	hand := make(chan struct{}, most)
	var all sync.WaitGroup
	d.loop(ctx, d.wakeOut, func() {
		for ctx.Err() == nil {
			room := most - len(hand)
			if room <= 0 {
				return // a post that is done wakes us
			}
			got, err := d.Ledger.Post(ctx, d.Now(), d.Limits.Lease, min(room, d.Limits.Batch))
			if err != nil {
				if ctx.Err() == nil {
					d.Log.Error("posts cannot be taken", "err", err)
				}
				return
			}
			for _, o := range got {
				hand <- struct{}{}
				all.Go(func() {
					defer func() { <-hand; wake(d.wakeOut) }()
					_ = d.dispatch(context.WithoutCancel(ctx), o) // logged there
				})
			}
			if len(got) == 0 {
				return
			}
		}
	})
	all.Wait()
}

// Deliver sends what is due now, once, and returns how many posts went out. A post that fails waits for another try; an error means that
// the ledger cannot be used.
func (d *Desk) Deliver(ctx context.Context) (n int, err error) {
	d.setup()
	for ctx.Err() == nil {
		got, err := d.Ledger.Post(ctx, d.Now(), d.Limits.Lease, d.Limits.Batch)
		if err != nil {
			return n, fmt.Errorf("%w, and its answer cannot be sent: %w", errKept, err)
		}
		if len(got) == 0 {
			return n, nil
		}
		slices.SortStableFunc(got, func(a, b Outbound) int { return cmp.Compare(alertLast(a), alertLast(b)) })
		for _, o := range got {
			switch err := d.dispatch(ctx, o); {
			case err == nil:
				n++
			case errors.Is(err, job.ErrDown):
				return n, fmt.Errorf("%w, and its answer cannot be sent: %w", errKept, err)
			}
		}
	}
	return n, ctx.Err()
}

// alertLast puts an alert behind what it is about, for whoever reads both on one screen.
func alertLast(o Outbound) int {
	if strings.HasPrefix(o.Key, alertKey) {
		return 1
	}
	return 0
}

// dispatch sends one post and takes it off, or sends it back to wait.
func (d *Desk) dispatch(ctx context.Context, o Outbound) error {
	if wait := d.pause(o.Place); wait > longestPause {
		return d.later(ctx, o, d.Now().Add(wait), fmt.Errorf("the room's pace allows no more before %v", wait))
	} else if wait > 0 {
		rest := time.NewTimer(wait)
		defer rest.Stop()
		select {
		case <-rest.C:
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	ref, err := d.post(ctx, o)
	if isPermanent(err) && o.Ref != "" {
		d.Log.Warn("a post that cannot be brought up to date is made anew", "post", o.Key, "job", o.Job, "err", err)
		anew := o
		anew.Ref = ""
		ref, err = d.post(ctx, anew)
	}
	switch {
	case err == nil:
		err := d.Ledger.Sent(ctx, o.Key, o.Tries, ref)
		if errors.Is(err, job.ErrNotMine) {
			return nil // the lease ran out while it was sent: another desk sends it once more
		}
		if err != nil {
			d.Log.Error("a post went out and could not be taken off", "post", o.Key, "err", err)
		}
		return err
	case errors.Is(err, errNoDoor):
		return d.later(ctx, o, d.Now().Add(d.backoff(o.Tries, o.Key)), err)
	case isPermanent(err), o.Tries >= d.Limits.SendTries:
		d.Log.Error("a post was set aside", "post", o.Key, "job", o.Job, "door", o.Place.Door, "tries", o.Tries, "err", err)
		return d.later(ctx, o, time.Time{}, err)
	}
	wait := max(waitOf(err), d.backoff(o.Tries, o.Key))
	if asked := waitOf(err); asked > 0 {
		wait = asked
	}
	d.Log.Warn("a post waits for another try", "post", o.Key, "job", o.Job, "door", o.Place.Door, "tries", o.Tries, "wait", wait, "err", err)
	return d.later(ctx, o, d.Now().Add(wait), err)
}

// later sends a post back, to wait or (with no time) to be set aside, and passes the error on.
func (d *Desk) later(ctx context.Context, o Outbound, at time.Time, why error) error {
	if err := d.Ledger.Retry(ctx, o.Key, o.Tries, at, why.Error()); err != nil && !errors.Is(err, job.ErrNotMine) {
		d.Log.Error("a post could not be sent back", "post", o.Key, "err", err)
		return err
	}
	return why
}

// post hands one item to its door.
func (d *Desk) post(ctx context.Context, o Outbound) (ref string, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = Permanent(fmt.Errorf("the door panicked: %v", r))
		}
	}()
	door := d.Doors[o.Place.Door]
	if door == nil {
		return "", fmt.Errorf("%q: %w", o.Place.Door, errNoDoor)
	}
	var p Post
	if err := json.Unmarshal(o.Payload, &p); err != nil {
		return "", Permanent(fmt.Errorf("the post cannot be read: %w", err))
	}
	ctx, cancel := context.WithTimeout(ctx, d.Limits.Call)
	defer cancel()
	ctx, end := d.Around.Begin(ctx, "post to "+o.Place.Door, o.Key)
	defer func() { end(err) }()
	return door.Post(ctx, Parcel{Key: o.Key, Place: o.Place, To: o.To, Reply: o.Reply, Ref: o.Ref, Post: p, Tries: o.Tries})
}

// pause is how long a post must wait for the sake of its room's pace.
func (d *Desk) pause(p Place) time.Duration {
	per, burst := d.Limits.PerSecond, d.Limits.Burst
	if pacer, ok := d.Doors[p.Door].(Pacer); ok && per == 0 {
		per, burst = pacer.Pace()
	}
	if per <= 0 {
		return 0
	}
	l, _ := d.paces.LoadOrStore(p.Door+"\x00"+p.Room, rate.NewLimiter(rate.Limit(per), max(burst, 1)))
	now := d.Now()
	r := l.(*rate.Limiter).ReserveN(now, 1)
	wait := r.DelayFrom(now)
	if wait > longestPause {
		r.CancelAt(now)
	}
	return wait
}
