package slack

import (
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// Ensure that the door keeps the contract of every door, over both transports.
func TestContract(t *testing.T) {
	for _, by := range []transport{overHTTP, overSocket} {
		t.Run(string(by), func(t *testing.T) {
			bottest.Run(t, func(t *testing.T) bot.Ledger { return newLedger(t) }, func(t *testing.T, d *bot.Desk) bottest.Stage { return open(t, d, by, nil) })
		})
	}
}
