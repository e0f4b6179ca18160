package boltledger

import (
	"context"
	"time"

	"go.etcd.io/bbolt"

	"strikeoff/bot"
	"strikeoff/bot/ledger/record"
)

// Health counts what waits.
func (l *Ledger) Health(ctx context.Context, now time.Time) (bot.Health, error) {
	h := bot.Health{Kind: "bolt file " + l.path, Durable: !l.noSync}
	if l.noSync {
		h.Warnings = append(h.Warnings, "The flush to disk is off, as for tests: a crash may lose what was acknowledged.")
	}
	err := l.view(ctx, func(tx *bbolt.Tx) error {
		h.Inbox, h.Outbox, h.SetAside = tx.Bucket(bIn).Stats().KeyN, tx.Bucket(bOut).Stats().KeyN, tx.Bucket(bAside).Stats().KeyN
		var err error
		if h.InboxAge, err = oldestIn(tx, now); err != nil {
			return err
		}
		places := tx.Bucket(bPlaces).Cursor()
		for place, _ := places.First(); place != nil; place, _ = places.Next() {
			if at, key := head(tx, place); key != nil {
				h.OutboxAge = max(h.OutboxAge, age(at, now))
			}
		}
		return nil
	})
	return h, err
}

// oldestIn is the age of the oldest message that is not done.
func oldestIn(tx *bbolt.Tx, now time.Time) (time.Duration, error) {
	k, v := tx.Bucket(bIn).Cursor().First()
	if k == nil {
		return 0, nil
	}
	in, err := record.ReadInbound(v, 0)
	if err != nil {
		return 0, err
	}
	return age(in.Kept.UnixMilli(), now), nil
}

// age is how long ago a time in ms was: 0 for one to come, and for one before 1970, which nobody set.
func age(ms int64, now time.Time) time.Duration {
	if ms <= 0 {
		return 0
	}
	return max(0, now.Sub(time.UnixMilli(ms)))
}
