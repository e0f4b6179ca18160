package bottest_test

import (
	"path/filepath"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/ledger/boltledger"
)

// The recording platform passes the contract that it is there to test others by.
func TestPlatform(t *testing.T) {
	bottest.Run(t, newBolt, func(t *testing.T, d *bot.Desk) bottest.Stage { return bottest.NewPlatform(t, d) })
}

func newBolt(t *testing.T) bot.Ledger {
	l, err := boltledger.Open(filepath.Join(t.TempDir(), "jobs.bolt"), boltledger.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}
