package bot

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"strikeoff/bot/job"
)

// inbox is the loop that takes kept messages and has them handled: those of different threads side by side, those of one thread in order.
func (d *Desk) inbox(ctx context.Context) {
	l := &lanes{d: d, free: make(chan struct{}, d.Limits.Workers), waiting: map[string][]Inbound{}}
	d.loop(ctx, d.wakeIn, func() {
		for ctx.Err() == nil {
			room := 2*d.Limits.Batch - l.inHand()
			if room <= 0 {
				return // a lane that empties wakes us
			}
			got, err := d.Ledger.Take(ctx, d.Now(), d.Limits.Lease, min(room, d.Limits.Batch))
			if err != nil {
				if ctx.Err() == nil {
					d.Log.Error("messages cannot be taken", "err", err)
				}
				return
			}
			for _, in := range got {
				l.add(ctx, in)
			}
			if len(got) == 0 {
				return
			}
		}
	})
	l.all.Wait()
}

// lanes are the messages in hand, by thread.
type lanes struct {
	d    *Desk
	free chan struct{} // a place for each worker
	all  sync.WaitGroup

	mu      sync.Mutex
	waiting map[string][]Inbound // by lane; a lane is there while it is being worked
	hand    int
}

// laneOf is what must be answered in order: a thread.
func laneOf(in Inbound) string {
	return in.Place.Door + "\x00" + in.Place.Room + "\x00" + in.Anchor
}

func (l *lanes) inHand() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.hand
}

// add puts a message at the end of its lane, and has the lane worked.
func (l *lanes) add(ctx context.Context, in Inbound) {
	l.mu.Lock()
	defer l.mu.Unlock()
	lane := laneOf(in)
	line, busy := l.waiting[lane]
	l.waiting[lane] = append(line, in)
	l.hand++
	if !busy {
		l.all.Go(func() { l.work(context.WithoutCancel(ctx), lane) })
	}
}

// work answers the messages of one lane until there are none.
func (l *lanes) work(ctx context.Context, lane string) {
	l.free <- struct{}{}
	defer func() { <-l.free }()
	for {
		l.mu.Lock()
		line := l.waiting[lane]
		if len(line) == 0 {
			delete(l.waiting, lane)
			l.mu.Unlock()
			return
		}
		l.waiting[lane] = line[1:]
		l.mu.Unlock()

		done := 1
		if held, _ := l.d.answer(ctx, line[0]); held { // the error is logged there
			l.mu.Lock()
			rest := l.waiting[lane]
			l.waiting[lane] = nil
			l.mu.Unlock()
			l.d.giveBack(ctx, line[0], rest)
			done += len(rest)
		}

		l.mu.Lock()
		l.hand -= done
		l.mu.Unlock()
		wake(l.d.wakeIn)
	}
}

// giveBack lets messages wait that stand behind one that waits for another try: answered before it they would be answered wrongly.
func (d *Desk) giveBack(ctx context.Context, head Inbound, rest []Inbound) {
	at := d.Now().Add(d.backoff(head.Tries, head.Key))
	for _, in := range rest {
		// Where this fails the lease runs out, and the ledger gives them out in order again.
		if err := d.Ledger.Put(ctx, in.Key, at); err != nil && !errors.Is(err, job.ErrDone) {
			d.Log.Error("a message could not be given back", "message", in.Key, "err", err)
		}
	}
}

// answer handles one message. Where that fails it is tried again later, and held is true; one that fails too often is set aside, and the
// room is told.
func (d *Desk) answer(ctx context.Context, in Inbound) (held bool, err error) {
	ctx, cancel := context.WithTimeout(ctx, d.Limits.Call)
	defer cancel()
	err = d.handle(ctx, in)
	if err == nil {
		return false, nil
	}
	down := errors.Is(err, job.ErrDown)
	d.Log.Error("a message was not handled", "message", in.Key, "tries", in.Tries, "err", err)
	if in.Tries >= d.Limits.Tries && !down {
		if aside := d.setAside(ctx, in); aside == nil {
			return false, err
		}
	}
	// Where this fails too, the lease runs out and the message is free again.
	if put := d.Ledger.Put(ctx, in.Key, d.Now().Add(d.backoff(in.Tries, in.Key))); put != nil && !errors.Is(put, job.ErrDone) {
		d.Log.Error("a message could not be given back", "message", in.Key, "err", put)
	}
	return true, err
}

// setAside takes a message that cannot be handled out of the way, and says so where it was written.
func (d *Desk) setAside(ctx context.Context, in Inbound) error {
	t := d.turn(ctx, in)
	o := Outbound{Key: in.Key + "/aside", Place: t.thread(), Reply: in.Reply}
	t.send(o, Post{Text: fmt.Sprintf("I could not handle what %s wrote (%q): it is kept, and nothing was changed. Say it in other words, or tell whoever runs me.",
		t.by.Name, short(in.Text, 60))})
	err := d.Ledger.Save(ctx, job.Change{Out: t.out})
	if err != nil {
		d.Log.Error("a message could not be set aside", "message", in.Key, "err", err)
		return err
	}
	wake(d.wakeOut)
	if err := d.Ledger.Put(ctx, in.Key, time.Time{}); err != nil && !errors.Is(err, job.ErrDone) {
		d.Log.Error("a message could not be set aside", "message", in.Key, "err", err)
		return err
	}
	d.Log.Error("a message was set aside", "message", in.Key)
	return nil
}
