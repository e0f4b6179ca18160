package boltledger_test

import (
	"path/filepath"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
)

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
			l, err := boltledger.Open(path, boltledger.Options{NoSyncForTests: true})
			if err != nil {
				t.Fatal(err)
			}
			last = l
			return l
		}
		t.Cleanup(func() {
			if last != nil {
				last.Close()
			}
		})
		return open(), open
	})
}
