package boltledger_test

import (
	"path/filepath"
	"sync/atomic"
	"testing"

	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
)

// atOnce is how many callers wait at the same time in these benchmarks, for each processor.
const atOnce = 64

// BenchmarkBolt measures the ledger with its flush to disk on, as outside tests.
func BenchmarkBolt(b *testing.B) {
	l, err := boltledger.Open(filepath.Join(b.TempDir(), "ledger.db"), boltledger.Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer l.Close()
	var n atomic.Int64
	ledgertest.Measure(b, l, func(name string, f func(i int64) error) {
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
	})
}
