package boltledger_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
)

func openFile(t *testing.T, path string) *boltledger.Ledger {
	t.Helper()
	l, err := boltledger.Open(path, boltledger.Options{NoSyncForTests: true})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Ensure the ledger in a file keeps the contract of every ledger.
func TestContract(t *testing.T) {
	ledgertest.Run(t, func(t *testing.T) (bot.Ledger, func() bot.Ledger) {
		path := filepath.Join(t.TempDir(), "ledger.db")
		var last *boltledger.Ledger
		open := func() bot.Ledger {
			if last != nil {
				if err := last.Close(); err != nil {
					t.Fatal(err)
				}
			}
			last = openFile(t, path)
			return last
		}
		t.Cleanup(func() {
			if last != nil {
				last.Close()
			}
		})
		return open(), open
	})
}

// Ensure the wrapper that fakes an outage is the ledger while it is up, keeps nothing while it is down, and can lose an answer.
func TestOutage(t *testing.T) {
	ledgertest.Run(t, func(t *testing.T) (bot.Ledger, func() bot.Ledger) {
		path := filepath.Join(t.TempDir(), "ledger.db")
		var last *ledgertest.Broken
		open := func() bot.Ledger {
			if last != nil {
				last.Close()
			}
			last = ledgertest.Outage(openFile(t, path))
			return last
		}
		t.Cleanup(func() { last.Close() })
		return open(), open
	})
	ctx, noon := t.Context(), time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	l := ledgertest.Outage(openFile(t, filepath.Join(t.TempDir(), "ledger.db")))
	defer l.Close()
	l.Down()
	if _, err := l.Keep(ctx, ledgertest.Inbound("a")); !errors.Is(err, job.ErrDown) {
		t.Errorf("keeping while it is down: %v", err)
	}
	l.Up()
	if ins, err := l.Take(ctx, noon, time.Minute, 9); err != nil || len(ins) > 0 {
		t.Errorf("something was kept while it was down: %v, %v", ins, err)
	}
	l.LoseNext(1)
	if _, err := l.Keep(ctx, ledgertest.Inbound("a")); !errors.Is(err, job.ErrDown) {
		t.Errorf("a lost answer: %v", err)
	}
	if fresh, err := l.Keep(ctx, ledgertest.Inbound("a")); err != nil || fresh {
		t.Errorf("keeping again after the answer was lost: fresh %v, %v", fresh, err)
	}
	l.FailNext(1)
	if err := l.Save(ctx, job.Change{Done: "a"}); !errors.Is(err, job.ErrDown) {
		t.Errorf("saving while it is down: %v", err)
	}
	if err := l.Save(ctx, job.Change{Done: "a"}); err != nil {
		t.Errorf("saving when it is up again: %v", err)
	}
}
