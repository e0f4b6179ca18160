package boltledger

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"time"

	"go.etcd.io/bbolt"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// Number is the next job number.
func (l *Ledger) Number(ctx context.Context) (job.ID, error) {
	if id := l.unused.Get(); id != 0 {
		return id, nil
	}
	var id job.ID
	err := l.update(ctx, func(tx *bbolt.Tx) error {
		n, err := tx.Bucket(bMeta).NextSequence()
		id = job.ID(n)
		return err
	})
	if err != nil {
		return 0, err
	}
	return id, nil
}

// Load reads a job.
func (l *Ledger) Load(ctx context.Context, id job.ID) (j job.Job, err error) {
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		rec := tx.Bucket(bJobs).Get(idKey(id))
		if rec == nil {
			return fmt.Errorf("job %d: %w", id, job.ErrNoJob)
		}
		j, err = record.ReadJob(rec)
		return err
	})
	return j, err
}

// InThread finds the newest job of a thread.
func (l *Ledger) InThread(ctx context.Context, p job.Place) (job.ID, error) {
	return l.find(ctx, bThreads, placeID(p), "in that thread")
}

// FromMessage finds the job that a message opened.
func (l *Ledger) FromMessage(ctx context.Context, key string) (job.ID, error) {
	return l.find(ctx, bOpened, []byte(key), "from that message")
}

// find reads a job's number from an index.
func (l *Ledger) find(ctx context.Context, index, key []byte, where string) (id job.ID, err error) {
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		b := tx.Bucket(index).Get(key)
		if len(b) != 8 {
			return fmt.Errorf("%s: %w", where, job.ErrNoJob)
		}
		id = job.ID(binary.BigEndian.Uint64(b))
		return nil
	})
	return id, err
}

// Jobs lists jobs, newest first.
func (l *Ledger) Jobs(ctx context.Context, states []job.State, below job.ID, n int) (jobs []job.Job, err error) {
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		ids := newest(tx, states, below)
		for id := ids(); id != 0 && len(jobs) < n; id = ids() {
			j, err := record.ReadJob(tx.Bucket(bJobs).Get(idKey(id)))
			if err != nil {
				return err
			}
			jobs = append(jobs, j)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return jobs, nil
}

// newest gives the numbers of the jobs in those states below a number, newest first, and 0 after the last.
func newest(tx *bbolt.Tx, states []job.State, below job.ID) func() job.ID {
	if below <= 0 {
		below = 1<<63 - 1
	}
	type run struct {
		c      *bbolt.Cursor
		prefix []byte
		id     job.ID // the number it stands at; 0 at its end
	}
	step := func(r *run, k []byte) {
		r.id = 0
		if len(k) == len(r.prefix)+8 && bytes.HasPrefix(k, r.prefix) {
			r.id = job.ID(binary.BigEndian.Uint64(k[len(r.prefix):]))
		}
	}
	start := func(b *bbolt.Bucket, prefix []byte) *run {
		r := &run{c: b.Cursor(), prefix: prefix}
		k, _ := r.c.Seek(join(prefix, idKey(below)))
		if k == nil {
			k, _ = r.c.Last()
			if bytes.Compare(k, join(prefix, idKey(below))) >= 0 {
				k, _ = r.c.Prev()
			}
		} else {
			k, _ = r.c.Prev()
		}
		step(r, k)
		return r
	}
	var runs []*run
	if len(states) == 0 {
		runs = append(runs, start(tx.Bucket(bJobs), nil))
	}
	done := map[job.State]bool{}
	for _, s := range states {
		if !done[s] {
			runs = append(runs, start(tx.Bucket(bStates), join([]byte(s), []byte{0})))
		}
		done[s] = true
	}
	return func() job.ID {
		var top *run
		for _, r := range runs {
			if r.id != 0 && (top == nil || r.id > top.id) {
				top = r
			}
		}
		if top == nil {
			return 0
		}
		id := top.id
		k, _ := top.c.Prev()
		step(top, k)
		return id
	}
}

// History reads a job's entries.
func (l *Ledger) History(ctx context.Context, id job.ID) (out []job.Entry, err error) {
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		c := tx.Bucket(bHistory).Cursor()
		for k, v := c.Seek(idKey(id)); k != nil && bytes.HasPrefix(k, idKey(id)); k, v = c.Next() {
			en, err := record.ReadEntry(v)
			if err != nil {
				return err
			}
			out = append(out, en)
		}
		if len(out) == 0 {
			return fmt.Errorf("job %d: %w", id, job.ErrNoJob)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// Due lists jobs whose alerts must be looked at.
func (l *Ledger) Due(ctx context.Context, now time.Time, n int) (out []job.ID, err error) {
	l.sees(now)
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		if n <= 0 {
			return nil
		}
		for _, kv := range upTo(tx.Bucket(bDue), now.UnixMilli(), n) {
			out = append(out, job.ID(binary.BigEndian.Uint64(kv.k[8:])))
		}
		return nil
	})
	return out, err
}

// Cursor reads a door's place in a room.
func (l *Ledger) Cursor(ctx context.Context, door, room string) (at string, err error) {
	err = l.view(ctx, func(tx *bbolt.Tx) error {
		at = string(tx.Bucket(bCursors).Get(short(fmt.Sprintf("%q %q", door, room))))
		return nil
	})
	return at, err
}

// SetCursor remembers a door's place in a room.
func (l *Ledger) SetCursor(ctx context.Context, door, room, at string) error {
	return l.update(ctx, func(tx *bbolt.Tx) error {
		return tx.Bucket(bCursors).Put(short(fmt.Sprintf("%q %q", door, room)), []byte(at))
	})
}
