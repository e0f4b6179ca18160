package boltledger

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"go.etcd.io/bbolt"

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
	l.sees(in.Kept)
	var fresh bool
	lane := laneID(in)
	err = l.update(ctx, func(tx *bbolt.Tx) error {
		fresh = false
		if tx.Bucket(bSeen).Get([]byte(in.Key)) != nil {
			return nil
		}
		fresh = true
		seq, err := tx.Bucket(bIn).NextSequence()
		if err != nil {
			return err
		}
		if err := put(tx.Bucket(bSeen), []byte(in.Key), seen{Seq: seq, Lane: lane, Kept: in.Kept.UnixMilli()}); err != nil {
			return err
		}
		if err := tx.Bucket(bIn).Put(be(seq), rec); err != nil {
			return err
		}
		if err := tx.Bucket(bInLanes).Put(join(lane, be(seq)), []byte(in.Key)); err != nil {
			return err
		}
		return tx.Bucket(bInReady).Put(be(seq), []byte(in.Key))
	})
	return fresh && err == nil, err
}

// Take leases messages, oldest first, none before an earlier one of its lane.
func (l *Ledger) Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Inbound, error) {
	l.sees(now)
	// Nothing to take is the usual case, and needs no write.
	idle := true
	err := l.view(ctx, func(tx *bbolt.Tx) error {
		w, _ := tx.Bucket(bInWait).Cursor().First()
		idle = (w == nil || msOf(w) > now.UnixMilli()) && len(free(tx, 1)) == 0
		return nil
	})
	if err != nil || idle || n <= 0 {
		return nil, err
	}
	var out []job.Inbound
	err = l.update(ctx, func(tx *bbolt.Tx) error {
		out = nil
		ready, wait, seenB := tx.Bucket(bInReady), tx.Bucket(bInWait), tx.Bucket(bSeen)
		for _, kv := range upTo(wait, now.UnixMilli(), 0) {
			if err := wait.Delete(kv.k); err != nil {
				return err
			}
			if err := ready.Put(kv.k[8:], kv.v); err != nil {
				return err
			}
		}
		until := record.Milli(now.Add(lease))
		for _, kv := range free(tx, n) {
			s, ok, err := get[seen](seenB, kv.v)
			rec := tx.Bucket(bIn).Get(kv.k)
			if err != nil || !ok || rec == nil {
				return fmt.Errorf("%w: message %s waits and is not there: %w", job.ErrCorrupt, kv.v, err)
			}
			s.Tries++
			s.Free = until
			in, err := record.ReadInbound(rec, s.Tries)
			if err != nil {
				return err
			}
			out = append(out, in)
			if err := put(seenB, kv.v, s); err != nil {
				return err
			}
			if err := ready.Delete(kv.k); err != nil {
				return err
			}
			if err := wait.Put(join(msKey(until), kv.k), kv.v); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// mostLooked bounds how many messages that must wait for an earlier one of their lane are looked at in one go.
const mostLooked = 1000

// free is up to n messages that may be taken, oldest first: every earlier one of their lane is done, set aside, or before them in the list.
func free(tx *bbolt.Tx, n int) []kv {
	var out []kv
	chosen := map[string]bool{}
	lanes, seenB := tx.Bucket(bInLanes).Cursor(), tx.Bucket(bSeen)
	c := tx.Bucket(bInReady).Cursor()
	for k, v := c.First(); k != nil && len(out) < n && len(chosen) < mostLooked; k, v = c.Next() {
		s, _, err := get[seen](seenB, v)
		if err == nil && !inTurn(lanes, s.Lane, k, chosen) {
			chosen[string(k)] = false
			continue
		}
		chosen[string(k)] = true
		out = append(out, kv{clone(k), clone(v)})
	}
	return out
}

// inTurn reports whether all before a message in its lane were chosen.
func inTurn(lanes *bbolt.Cursor, lane, seq []byte, chosen map[string]bool) bool {
	if len(lane) == 0 {
		return true
	}
	for k, _ := lanes.Seek(lane); k != nil && bytes.HasPrefix(k, lane); k, _ = lanes.Next() {
		earlier := k[len(lane):]
		if bytes.Equal(earlier, seq) {
			return true
		}
		if !chosen[string(earlier)] {
			return false
		}
	}
	return true
}

// Put gives a message back, or sets it aside. A message that was set aside can be put back with a time.
func (l *Ledger) Put(ctx context.Context, key string, at time.Time) error {
	return l.update(ctx, func(tx *bbolt.Tx) error {
		s, ok, err := get[seen](tx.Bucket(bSeen), []byte(key))
		switch {
		case err != nil:
			return err
		case !ok:
			return fmt.Errorf("message %s: %w", key, job.ErrNotFound)
		case s.Done:
			return fmt.Errorf("message %s: %w", key, job.ErrDone)
		}
		in, aside, asideKey := tx.Bucket(bIn), tx.Bucket(bAside), []byte("in "+key)
		if err := outOfLine(tx, s); err != nil {
			return err
		}
		if at.IsZero() {
			if s.Aside {
				return nil
			}
			s.Aside, s.Free = true, 0
			if err := tx.Bucket(bInLanes).Delete(join(s.Lane, be(s.Seq))); err != nil {
				return err
			}
			if err := aside.Put(asideKey, clone(in.Get(be(s.Seq)))); err != nil {
				return err
			}
			if err := in.Delete(be(s.Seq)); err != nil {
				return err
			}
			return put(tx.Bucket(bSeen), []byte(key), s)
		}
		if s.Aside {
			s.Aside = false
			if err := tx.Bucket(bInLanes).Put(join(s.Lane, be(s.Seq)), []byte(key)); err != nil {
				return err
			}
			if err := in.Put(be(s.Seq), clone(aside.Get(asideKey))); err != nil {
				return err
			}
			if err := aside.Delete(asideKey); err != nil {
				return err
			}
		}
		s.Free = record.Milli(at)
		if err := tx.Bucket(bInWait).Put(join(msKey(s.Free), be(s.Seq)), []byte(key)); err != nil {
			return err
		}
		return put(tx.Bucket(bSeen), []byte(key), s)
	})
}

// outOfLine takes a message out of those that can be taken and those that wait.
func outOfLine(tx *bbolt.Tx, s seen) error {
	if err := tx.Bucket(bInReady).Delete(be(s.Seq)); err != nil {
		return err
	}
	return tx.Bucket(bInWait).Delete(join(msKey(s.Free), be(s.Seq)))
}

// done marks a message as handled, whether it was kept or not, and lets go of its text.
func (l *Ledger) done(tx *bbolt.Tx, key string) error {
	if key == "" {
		return nil
	}
	s, ok, err := get[seen](tx.Bucket(bSeen), []byte(key))
	switch {
	case err != nil:
		return err
	case ok && s.Done:
		return job.ErrDone
	case ok:
		if err := outOfLine(tx, s); err != nil {
			return err
		}
		if err := tx.Bucket(bIn).Delete(be(s.Seq)); err != nil {
			return err
		}
		if err := tx.Bucket(bInLanes).Delete(join(s.Lane, be(s.Seq))); err != nil {
			return err
		}
		if err := tx.Bucket(bAside).Delete([]byte("in " + key)); err != nil {
			return err
		}
	}
	s.Done, s.Aside = true, false
	if err := put(tx.Bucket(bSeen), []byte(key), s); err != nil {
		return err
	}
	return l.forgetLater(tx, "in "+key)
}

// forgetLater notes a key of what is done, and forgets a few whose time is over. Until some caller has handed in a time nothing is forgotten.
func (l *Ledger) forgetLater(tx *bbolt.Tx, what string) error {
	now, forget := l.latest.Load(), tx.Bucket(bForget)
	for _, kv := range upTo(forget, now, 3) {
		if err := forget.Delete(kv.k); err != nil {
			return err
		}
		old := string(kv.k[8:])
		from, key := bSeen, old[min(3, len(old)):]
		if old[:min(4, len(old))] == "out " {
			from, key = bOutMeta, old[4:]
		}
		if err := tx.Bucket(from).Delete([]byte(key)); err != nil {
			return err
		}
	}
	if now <= 0 {
		return nil
	}
	return forget.Put(join(msKey(now+record.Remember.Milliseconds()), []byte(what)), nil)
}

// kv is a key and a value, copied out of the transaction so that the bucket may be changed.
type kv struct{ k, v []byte }

// upTo is the pairs of a bucket whose keys begin with a time not after ms; at most n where n is above 0.
func upTo(b *bbolt.Bucket, ms int64, n int) []kv {
	var out []kv
	c := b.Cursor()
	for k, v := c.First(); k != nil && msOf(k) <= ms && (n <= 0 || len(out) < n); k, v = c.Next() {
		out = append(out, kv{clone(k), clone(v)})
	}
	return out
}

func clone(b []byte) []byte { return append([]byte(nil), b...) }
