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

// enqueue puts an item behind what waits for its place. One that was saved before does nothing.
func (l *Ledger) enqueue(tx *bbolt.Tx, o job.Outbound, rec []byte) error {
	metas, key := tx.Bucket(bOutMeta), []byte(o.Key)
	if metas.Get(key) != nil {
		return nil
	}
	seq, err := tx.Bucket(bOut).NextSequence()
	if err != nil {
		return err
	}
	m := outMeta{Seq: seq, At: record.Milli(o.At), Place: placeID(o.Place), Slot: slotID(o)}
	if err := put(metas, key, m); err != nil {
		return err
	}
	if err := tx.Bucket(bOut).Put(key, rec); err != nil {
		return err
	}
	if err := tx.Bucket(bQueues).Put(queueKey(m), key); err != nil {
		return err
	}
	if m.Slot != nil {
		s, _, err := get[slotMeta](tx.Bucket(bSlots), m.Slot)
		if err != nil {
			return err
		}
		s.Newest = o.Key
		if err := put(tx.Bucket(bSlots), m.Slot, s); err != nil {
			return err
		}
	}
	p, ok, err := get[placeMeta](tx.Bucket(bPlaces), m.Place)
	if err != nil {
		return err
	}
	if ok && p.Holder != "" {
		if p.Leased || m.Slot == nil {
			return nil // it waits its turn
		}
		h, _, err := get[outMeta](metas, []byte(p.Holder))
		if err != nil || !bytes.Equal(h.Slot, m.Slot) {
			return err
		}
		// It takes the place of one that waits for another attempt.
		if err := l.gone(tx, []byte(p.Holder), h); err != nil {
			return err
		}
		return release(tx, m.Place, p)
	}
	if ok && p.Ready <= m.At {
		return nil
	}
	return look(tx, m.Place, p, m.At)
}

func queueKey(m outMeta) []byte { return join(m.Place, msKey(m.At), be(m.Seq)) }

// look notes when a place must be looked at.
func look(tx *bbolt.Tx, place []byte, p placeMeta, at int64) error {
	ready := tx.Bucket(bReady)
	if err := ready.Delete(join(msKey(p.Ready), place)); err != nil {
		return err
	}
	p.Ready = at
	if err := put(tx.Bucket(bPlaces), place, p); err != nil {
		return err
	}
	return ready.Put(join(msKey(at), place), nil)
}

// Post leases items, those first that have been due longest, one a place.
func (l *Ledger) Post(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Outbound, error) {
	l.sees(now)
	idle := true
	err := l.view(ctx, func(tx *bbolt.Tx) error {
		k, _ := tx.Bucket(bReady).Cursor().First()
		idle = k == nil || msOf(k) > now.UnixMilli()
		return nil
	})
	if err != nil || idle || n <= 0 {
		return nil, err
	}
	var out []job.Outbound
	err = l.update(ctx, func(tx *bbolt.Tx) error {
		out = nil
		until := record.Milli(now.Add(lease))
		for len(out) < n {
			next := upTo(tx.Bucket(bReady), now.UnixMilli(), 1)
			if len(next) == 0 {
				return nil
			}
			o, ok, err := l.leaseOne(tx, next[0].k[8:], now.UnixMilli(), until)
			if err != nil {
				return err
			}
			if ok {
				out = append(out, o)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// leaseOne leases the first item of a place whose time has come. It reports false where the place has none that is due; the place is then
// put off, or let go of where nothing waits there.
func (l *Ledger) leaseOne(tx *bbolt.Tx, place []byte, now, until int64) (o job.Outbound, ok bool, err error) {
	p, _, err := get[placeMeta](tx.Bucket(bPlaces), place)
	if err != nil {
		return o, false, err
	}
	for {
		key := []byte(p.Holder)
		if p.Holder == "" {
			_, key = head(tx, place)
			if key == nil {
				return o, false, leave(tx, place, p)
			}
		}
		m, there, err := get[outMeta](tx.Bucket(bOutMeta), key)
		if err != nil || !there {
			return o, false, fmt.Errorf("%w: post %s waits and is not there: %w", job.ErrCorrupt, key, err)
		}
		var ref string
		if m.Slot != nil {
			s, _, err := get[slotMeta](tx.Bucket(bSlots), m.Slot)
			if err != nil {
				return o, false, err
			}
			if s.Newest != string(key) { // a newer one for the slot waits: this one need not go out
				if err := l.gone(tx, key, m); err != nil {
					return o, false, err
				}
				p.Holder, p.Leased = "", false
				continue
			}
			ref = s.Ref
		}
		if p.Holder == "" && m.At > now {
			return o, false, look(tx, place, p, m.At)
		}
		m.Tries++
		if o, err = record.ReadOutbound(tx.Bucket(bOut).Get(key), m.Tries, ref); err != nil {
			return o, false, err
		}
		if err := put(tx.Bucket(bOutMeta), key, m); err != nil {
			return o, false, err
		}
		p.Holder, p.Leased = string(key), true
		// At least a millisecond, or a lease of none would be given out again and again within one call.
		return o, true, look(tx, place, p, max(until, now+1))
	}
}

// head is the first item that waits for a place.
func head(tx *bbolt.Tx, place []byte) (at int64, key []byte) {
	k, v := tx.Bucket(bQueues).Cursor().Seek(place)
	if k == nil || !bytes.HasPrefix(k, place) {
		return 0, nil
	}
	return msOf(k[len(place):]), clone(v)
}

// leave lets go of a place where nothing waits.
func leave(tx *bbolt.Tx, place []byte, p placeMeta) error {
	if err := tx.Bucket(bReady).Delete(join(msKey(p.Ready), place)); err != nil {
		return err
	}
	return tx.Bucket(bPlaces).Delete(place)
}

// gone takes an item off: only its key is remembered.
func (l *Ledger) gone(tx *bbolt.Tx, key []byte, m outMeta) error {
	if err := tx.Bucket(bQueues).Delete(queueKey(m)); err != nil {
		return err
	}
	if err := tx.Bucket(bOut).Delete(key); err != nil {
		return err
	}
	m.Gone = true
	if err := put(tx.Bucket(bOutMeta), key, m); err != nil {
		return err
	}
	return l.forgetLater(tx, "out "+string(key))
}

// mine reads an item that the caller leased.
func mine(tx *bbolt.Tx, key string, tries int) (m outMeta, p placeMeta, err error) {
	m, ok, err := get[outMeta](tx.Bucket(bOutMeta), []byte(key))
	switch {
	case err != nil:
		return m, p, err
	case !ok:
		return m, p, fmt.Errorf("post %s: %w", key, job.ErrNotFound)
	case m.Tries != tries || m.Gone && !m.Sent:
		return m, p, fmt.Errorf("post %s: %w", key, job.ErrNotMine)
	case m.Sent:
		return m, p, nil
	}
	p, _, err = get[placeMeta](tx.Bucket(bPlaces), m.Place)
	if err == nil && (p.Holder != key || !p.Leased) {
		err = fmt.Errorf("post %s: %w", key, job.ErrNotMine)
	}
	return m, p, err
}

// Sent takes an item off. Saying it again does nothing.
func (l *Ledger) Sent(ctx context.Context, key string, tries int, ref string) error {
	return l.update(ctx, func(tx *bbolt.Tx) error {
		m, p, err := mine(tx, key, tries)
		if err != nil || m.Sent {
			return err
		}
		if m.Slot != nil && ref != "" {
			s, _, err := get[slotMeta](tx.Bucket(bSlots), m.Slot)
			if err != nil {
				return err
			}
			s.Ref = ref
			if err := put(tx.Bucket(bSlots), m.Slot, s); err != nil {
				return err
			}
		}
		m.Sent = true
		if err := l.gone(tx, []byte(key), m); err != nil {
			return err
		}
		return release(tx, m.Place, p)
	})
}

// release lets the next item of a place have its turn.
func release(tx *bbolt.Tx, place []byte, p placeMeta) error {
	p.Holder, p.Leased = "", false
	at, key := head(tx, place)
	if key == nil {
		return leave(tx, place, p)
	}
	return look(tx, place, p, at)
}

// Retry lets an item wait for another attempt, with those behind it, or sets it aside.
func (l *Ledger) Retry(ctx context.Context, key string, tries int, at time.Time, why string) error {
	return l.update(ctx, func(tx *bbolt.Tx) error {
		m, p, err := mine(tx, key, tries)
		switch {
		case err != nil:
			return err
		case m.Sent:
			return fmt.Errorf("post %s: %w", key, job.ErrNotMine)
		case at.IsZero():
			rec, err := record.Aside(tx.Bucket(bOut).Get([]byte(key)), why)
			if err != nil {
				return err
			}
			if err := tx.Bucket(bAside).Put([]byte("out "+key), rec); err != nil {
				return err
			}
			if err := l.gone(tx, []byte(key), m); err != nil {
				return err
			}
			return release(tx, m.Place, p)
		}
		p.Leased = false
		if m.Slot != nil {
			s, _, err := get[slotMeta](tx.Bucket(bSlots), m.Slot)
			if err != nil {
				return err
			}
			if s.Newest != key { // a newer one came meanwhile: that one goes out instead
				if err := l.gone(tx, []byte(key), m); err != nil {
					return err
				}
				return release(tx, m.Place, p)
			}
		}
		return look(tx, m.Place, p, record.Milli(at))
	})
}
