package boltledger

import (
	"context"
	"errors"
	"fmt"

	"go.etcd.io/bbolt"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// Save keeps a change whole or not at all.
func (l *Ledger) Save(ctx context.Context, c job.Change) error {
	w, err := written(c)
	if err != nil {
		return err
	}
	for _, en := range c.Entries {
		l.sees(en.At)
	}
	err = l.update(ctx, func(tx *bbolt.Tx) error {
		if err := l.done(tx, c.Done); err != nil {
			return fmt.Errorf("message %s: %w", c.Done, err)
		}
		if c.Job != nil {
			if err := saveJob(tx, c, w); err != nil {
				return err
			}
		}
		for i, o := range c.Out {
			if err := l.enqueue(tx, o, w.out[i]); err != nil {
				return err
			}
		}
		return nil
	})
	if c.Job != nil && c.Expect == 0 && errors.Is(err, job.ErrDone) {
		l.unused.Put(c.Job.ID)
	}
	return err
}

// records are a change as it is written down, made before the transaction so that the writer need not wait for it.
type records struct {
	job     []byte
	entries [][]byte
	out     [][]byte
}

func written(c job.Change) (w records, err error) {
	if err := record.Check(c); err != nil {
		return w, err
	}
	if c.Job != nil {
		if w.job, err = record.Job(*c.Job); err != nil {
			return w, err
		}
	}
	for _, en := range c.Entries {
		b, err := record.Entry(en)
		if err != nil {
			return w, err
		}
		w.entries = append(w.entries, b)
	}
	for _, o := range c.Out {
		b, err := record.Outbound(o)
		if err != nil {
			return w, err
		}
		w.out = append(w.out, b)
	}
	return w, nil
}

// saveJob puts a job in the place of the one at the expected revision.
func saveJob(tx *bbolt.Tx, c job.Change, w records) error {
	id, metas := idKey(c.Job.ID), tx.Bucket(bJobMeta)
	old, there, err := get[jobMeta](metas, id)
	if err != nil {
		return err
	}
	if old.Rev != c.Expect || there != (c.Expect > 0) {
		return fmt.Errorf("job %d is at revision %d, not at %d: %w", c.Job.ID, old.Rev, c.Expect, job.ErrStale)
	}
	now := jobMeta{Rev: c.Job.Revision, State: string(c.Job.State)}
	if !c.Next.IsZero() {
		now.Next = record.Milli(c.Next)
	}
	states, due := tx.Bucket(bStates), tx.Bucket(bDue)
	if there && old.State != now.State {
		if err := states.Delete(stateKey(old.State, c.Job.ID)); err != nil {
			return err
		}
	}
	if old.Next != 0 {
		if err := due.Delete(join(msKey(old.Next), id)); err != nil {
			return err
		}
	}
	if now.Next != 0 {
		if err := due.Put(join(msKey(now.Next), id), nil); err != nil {
			return err
		}
	}
	if !there {
		if err := saveNew(tx, c, id); err != nil {
			return err
		}
	}
	for i, en := range c.Entries {
		if err := tx.Bucket(bHistory).Put(join(id, be(uint64(en.Seq))), w.entries[i]); err != nil {
			return err
		}
	}
	if err := states.Put(stateKey(now.State, c.Job.ID), nil); err != nil {
		return err
	}
	if err := put(metas, id, now); err != nil {
		return err
	}
	return tx.Bucket(bJobs).Put(id, w.job)
}

// saveNew notes where a new job can be found.
func saveNew(tx *bbolt.Tx, c job.Change, id []byte) error {
	threads, place := tx.Bucket(bThreads), placeID(c.Job.Place)
	if old := threads.Get(place); string(old) < string(id) { // the newest stays, whichever was saved last
		if err := threads.Put(place, id); err != nil {
			return err
		}
	}
	if key := record.OpenedBy(c); key != "" {
		if err := tx.Bucket(bOpened).Put([]byte(key), id); err != nil {
			return err
		}
	}
	// A number that did not come from Number is not given out later either.
	if meta := tx.Bucket(bMeta); meta.Sequence() < uint64(c.Job.ID) {
		return meta.SetSequence(uint64(c.Job.ID))
	}
	return nil
}
