package redisledger

import (
	"context"
	"encoding/json"
	"fmt"
	"strconv"
	"time"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// outKeys are the keys of every script of the outbox.
func (l *Ledger) outKeys() []string {
	return []string{l.k.outReady(), l.k.queueStem(), l.k.placeStem(), l.k.postStem(), l.k.slotStem(), l.k.aside(), l.k.outSeq()}
}

// Post leases items, those first that have been due longest, one a place.
func (l *Ledger) Post(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Outbound, error) {
	if n <= 0 {
		return nil, nil
	}
	got, err := l.run(ctx, postScript, l.outKeys(), nowMS(now), leaseEnd(now, lease), n, remember).Slice()
	if err != nil {
		return nil, down(err)
	}
	var out []job.Outbound
	for i := 0; i+2 < len(got); i += 3 {
		rec, _ := got[i].(string)
		tries, _ := got[i+1].(int64)
		ref, _ := got[i+2].(string)
		o, err := record.ReadOutbound([]byte(rec), int(tries), ref)
		if err != nil {
			return nil, err
		}
		out = append(out, o)
	}
	return out, nil
}

// Sent takes an item off. Saying it again does nothing.
func (l *Ledger) Sent(ctx context.Context, key string, tries int, ref string) error {
	said, err := l.run(ctx, sentScript, l.outKeys(), remember, key, strconv.Itoa(tries), ref).StringSlice()
	if err != nil || len(said) != 1 {
		return down(err)
	}
	return mine(key, said[0])
}

// mine is the error for what a script said of an item.
func mine(key, said string) error {
	switch said {
	case "none":
		return fmt.Errorf("post %s: %w", key, job.ErrNotFound)
	case "other":
		return fmt.Errorf("post %s: %w", key, job.ErrNotMine)
	}
	return nil
}

// Retry lets an item wait for another attempt, with those behind it, or sets it aside.
func (l *Ledger) Retry(ctx context.Context, key string, tries int, at time.Time, why string) error {
	when, aside := "", []byte(nil)
	if at.IsZero() {
		line, err := json.Marshal(why) // one line, whatever was said
		if err != nil {
			return err
		}
		aside = line
	} else {
		when = ms(at)
	}
	said, err := l.run(ctx, retryScript, l.outKeys(), remember, key, strconv.Itoa(tries), when, aside).Text()
	if err != nil {
		return down(err)
	}
	if said == "sent" {
		said = "other"
	}
	return mine(key, said)
}
