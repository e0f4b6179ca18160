package redisledger

import (
	"context"
	"errors"
	"strings"
	"sync"

	"github.com/redis/go-redis/v9"
)

// mostTogether is how many commands share one trip to Redis at most, and lines how many trips are under way at the same time. A server that
// writes to disk before it answers does so once for all that it was given meanwhile: the more come together, the less each of them costs. Too few
// lines make callers wait for one that is free.
const (
	mostTogether = 128
	lines        = 16
)

// errClosed is a ledger that was closed.
var errClosed = errors.New("it is closed")

// call is one command that waits for its trip.
type call struct {
	ctx  context.Context
	add  func(context.Context, redis.Pipeliner) redis.Cmder
	cmd  redis.Cmder
	done chan struct{}
}

// together sends commands of many callers in shared trips. Nobody is kept waiting for others to come: a line that is free takes what is there.
type together struct {
	c     redis.UniversalClient
	calls chan *call
	quit  chan struct{}
	once  sync.Once
	wg    sync.WaitGroup
}

func newTogether(c redis.UniversalClient) *together {
	t := &together{c: c, calls: make(chan *call, 4*mostTogether), quit: make(chan struct{})}
	for range lines {
		t.wg.Go(t.line)
	}
	return t
}

// close sends what waits and ends the lines.
func (t *together) close() {
	t.once.Do(func() { close(t.quit) })
	t.wg.Wait()
}

// do sends a command and waits for its answer, or for the caller's context; then it may still be carried out.
func (t *together) do(ctx context.Context, add func(context.Context, redis.Pipeliner) redis.Cmder) (redis.Cmder, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	k := &call{ctx: ctx, add: add, done: make(chan struct{})}
	select {
	case <-t.quit: // a closed ledger takes nothing, though there may be room
		return nil, errClosed
	default:
	}
	select {
	case t.calls <- k:
	case <-t.quit:
		return nil, errClosed
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	select {
	case <-k.done:
		return k.cmd, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// line carries trips, one after the other.
func (t *together) line() {
	for {
		select {
		case k := <-t.calls:
			t.trip(t.waiting([]*call{k}))
		case <-t.quit:
			batch := t.waiting(nil)
			if len(batch) == 0 {
				return
			}
			t.trip(batch)
		}
	}
}

// waiting adds the calls that wait already, without waiting for more.
func (t *together) waiting(batch []*call) []*call {
	for len(batch) < mostTogether {
		select {
		case k := <-t.calls:
			batch = append(batch, k)
		default:
			return batch
		}
	}
	return batch
}

// trip sends calls in one go. Those whose callers have given up already are left out. The trip has no deadline but the client's own: one
// caller's must not end the others'.
func (t *together) trip(batch []*call) {
	ctx := context.Background()
	p := t.c.Pipeline()
	for _, k := range batch {
		if err := k.ctx.Err(); err != nil {
			k.cmd = redis.NewCmd(ctx)
			k.cmd.SetErr(err)
			continue
		}
		k.cmd = k.add(ctx, p)
	}
	_, _ = p.Exec(ctx) // every command carries its own error
	for _, k := range batch {
		close(k.done)
	}
}

// run runs a script.
func (l *Ledger) run(ctx context.Context, s *redis.Script, keys []string, args ...any) *redis.Cmd {
	cmd, err := l.t.do(ctx, func(ctx context.Context, p redis.Pipeliner) redis.Cmder { return s.EvalSha(ctx, p, keys, args...) })
	if err != nil {
		failed := redis.NewCmd(ctx)
		failed.SetErr(err)
		return failed
	}
	said := cmd.(*redis.Cmd)
	if err := said.Err(); err != nil && strings.HasPrefix(err.Error(), "NOSCRIPT") {
		return s.Run(ctx, l.c, keys, args...) // the server was restarted and forgot it; this teaches it again
	}
	return said
}
