package boltledger

import (
	"context"
	"errors"
	"fmt"

	"go.etcd.io/bbolt"

	"strikeoff/bot/job"
)

// mostTogether is how many writes share one transaction at most: enough to make the flush cheap, few enough to keep its pages in memory.
const mostTogether = 256

// op is one write that waits for its turn. Its run may be called again after a rollback, so it must set its results afresh.
type op struct {
	ctx  context.Context
	run  func(*bbolt.Tx) error
	done chan error
}

// update runs a write. Where it returns nil the write is on disk. Where the context ends first, the write may still be made, whole.
func (l *Ledger) update(ctx context.Context, run func(*bbolt.Tx) error) error {
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("%w: %w", job.ErrDown, err)
	}
	o := &op{ctx: ctx, run: run, done: make(chan error, 1)}
	select {
	case l.ops <- o:
	case <-l.quit:
		return fmt.Errorf("%w: it is closed", job.ErrDown)
	case <-ctx.Done():
		return fmt.Errorf("%w: %w", job.ErrDown, ctx.Err())
	}
	select {
	case err := <-o.done:
		return err
	case <-l.ended:
		select {
		case err := <-o.done:
			return err
		default:
			return fmt.Errorf("%w: it is closed", job.ErrDown)
		}
	case <-ctx.Done():
		return fmt.Errorf("%w: %w", job.ErrDown, ctx.Err())
	}
}

// write is the one goroutine that writes: it takes whatever waits and commits it together.
func (l *Ledger) write() {
	defer close(l.ended)
	for {
		var batch []*op
		select {
		case o := <-l.ops:
			batch = l.waiting(append(batch, o))
		case <-l.quit:
			if batch = l.waiting(nil); len(batch) == 0 {
				return
			}
		}
		l.commit(batch)
	}
}

// waiting adds the writes that wait already, without waiting for more.
func (l *Ledger) waiting(batch []*op) []*op {
	for len(batch) < mostTogether {
		select {
		case o := <-l.ops:
			batch = append(batch, o)
		default:
			return batch
		}
	}
	return batch
}

// errOne marks the write of a batch that failed, so that the others can be run without it.
type errOne struct {
	at  int
	err error
}

func (e errOne) Error() string { return e.err.Error() }

// commit runs the writes in one transaction. One that fails is told so and taken out, nothing of it is kept, and the others run again.
func (l *Ledger) commit(batch []*op) {
	for len(batch) > 0 {
		err := l.db.Update(func(tx *bbolt.Tx) error {
			for i, o := range batch {
				if err := o.ctx.Err(); err != nil {
					return errOne{i, fmt.Errorf("%w: %w", job.ErrDown, err)}
				}
				if err := o.run(tx); err != nil {
					return errOne{i, err}
				}
			}
			return nil
		})
		var one errOne
		if errors.As(err, &one) {
			batch[one.at].done <- one.err
			batch = append(batch[:one.at:one.at], batch[one.at+1:]...)
			continue
		}
		if err != nil {
			err = fmt.Errorf("%w: nothing was written: %w", job.ErrDown, err)
		}
		for _, o := range batch {
			o.done <- err
		}
		return
	}
}
