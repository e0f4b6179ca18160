// Package redisledger keeps jobs, their history, what came in and what must go out on Redis, one server, a sentinel's master or a cluster. It
// is the only importer of the Redis client.
//
// Every method is one script, so that it happens whole or not at all, and one round trip. The client sends a script again where a reply was
// lost, so each is written to do the same thing once however often it is run: a message and a post by their keys, a change by a token of its
// call, an acknowledgement by its attempt.
//
// What was acknowledged survives a crash of the machine only where Redis writes it down first: appendonly yes, appendfsync always,
// maxmemory-policy noeviction. Health says where that is not so.
package redisledger

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// layout is the version of the keys and what stands in them.
const layout = 1

// Ledger is one shop's ledger on Redis. It is safe for concurrent use. Make one with Open.
type Ledger struct {
	c redis.UniversalClient
	k keys
	t *together

	asked  chan *numberAsked
	unused record.Unused
}

var _ bot.Ledger = (*Ledger)(nil)

// Open opens a shop's ledger, and begins one where there is none. Close closes the client too. The error is job.ErrDown where Redis cannot
// be reached, job.ErrCorrupt where what stands there is no ledger, and job.ErrTooNew where a later version of the program wrote it; nothing
// is then written.
func Open(ctx context.Context, c redis.UniversalClient, shop string) (*Ledger, error) {
	k, err := keysOf(shop)
	if err != nil {
		return nil, err
	}
	silence.Do(func() { redis.SetLogger(quiet{}) })
	l := &Ledger{c: c, k: k}
	was, err := c.HMGet(ctx, k.version(), "layout", "record").Result()
	if err != nil {
		return nil, down(err)
	}
	for i, knows := range []int{layout, record.Version} {
		switch v, err := strconv.Atoi(fmt.Sprint(was[i])); {
		case was[i] == nil:
		case err != nil || v < 1:
			return nil, fmt.Errorf("%w: the version in %s is %.20q, no number from 1 up; nothing was written", job.ErrCorrupt, k.version(), was[i])
		case v > knows:
			return nil, fmt.Errorf("%w: %s says version %d, and this program reads up to %d; nothing was written. Start the newer program, or give this one another shop name",
				job.ErrTooNew, k.version(), v, knows)
		}
	}
	if err := c.HSet(ctx, k.version(), "layout", layout, "record", record.Version).Err(); err != nil {
		return nil, down(err)
	}
	for _, s := range scripts {
		if err := s.Load(ctx, c).Err(); err != nil {
			return nil, down(err)
		}
	}
	l.t, l.asked = newTogether(c), make(chan *numberAsked, mostTogether)
	l.t.wg.Go(l.giveNumbers)
	return l, nil
}

// quiet swallows what the client would print on its own: every error is returned as well, and told there.
type quiet struct{}

func (quiet) Printf(context.Context, string, ...any) {}

var silence sync.Once

// Close sends what waits and closes the client.
func (l *Ledger) Close() error {
	l.t.close()
	l.handBack()
	return l.c.Close()
}

// down turns an error of Redis into the ledger's: whatever it was, what was asked was not kept, or is not known to be.
func down(err error) error {
	if err == nil || errors.Is(err, redis.Nil) {
		return nil
	}
	if strings.Contains(err.Error(), "WRONGTYPE") {
		return fmt.Errorf("%w: a key holds another kind of value: %w", job.ErrCorrupt, err)
	}
	return fmt.Errorf("%w: %w", job.ErrDown, err)
}

// ms is a time as scripts are given it.
func ms(t time.Time) string { return strconv.FormatInt(record.Milli(t), 10) }

// nowMS is the present as scripts are given it, rounded down.
func nowMS(t time.Time) string { return strconv.FormatInt(t.UnixMilli(), 10) }

// leaseEnd is when a lease ends, at least a millisecond from now.
func leaseEnd(now time.Time, lease time.Duration) string {
	return strconv.FormatInt(max(record.Milli(now.Add(lease)), now.UnixMilli()+1), 10)
}

// numberWait bounds how long one asking for numbers may take, whoever waits for it.
const numberWait = 15 * time.Second

// remember is how long keys of what is done are remembered, in ms.
var remember = strconv.FormatInt(record.Remember.Milliseconds(), 10)
