package redisledger_test

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot/ledger/ledgertest"
	"strikeoff/bot/ledger/redisledger"
)

// atOnce is how many callers wait at the same time in these benchmarks, for each processor.
const atOnce = 64

// BenchmarkRedis measures the ledger on a real server that writes every change to disk before it answers, beside a bare client that writes one
// entry of a message's size and nothing else.
func BenchmarkRedis(b *testing.B) {
	r := ledgertest.StartRedis(b)
	o, err := redisledger.Options("redis://" + r.Addr)
	if err != nil {
		b.Fatal(err)
	}
	ctx := context.Background()
	l, err := redisledger.Open(ctx, redis.NewUniversalClient(o), "bench")
	if err != nil {
		b.Fatal(err)
	}
	defer l.Close()
	c := redis.NewUniversalClient(o)
	defer c.Close()
	var n atomic.Int64
	many := func(name string, f func(i int64) error) {
		b.Run(name, func(b *testing.B) {
			b.SetParallelism(atOnce)
			b.RunParallel(func(pb *testing.PB) {
				for pb.Next() {
					if err := f(n.Add(1)); err != nil {
						b.Fatal(err)
					}
				}
			})
		})
	}
	entry := make([]byte, 1000)
	many("bare write", func(i int64) error { return c.Set(ctx, fmt.Sprint("bare:", i), entry, 0).Err() })
	ledgertest.Measure(b, l, many)
}
