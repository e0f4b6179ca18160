package bottest

import (
	"context"
	"fmt"
	"sync/atomic"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

// Outage is a ledger whose Keep can be made to fail as it does when the store cannot be reached.
type Outage struct {
	bot.Ledger
	Down atomic.Bool
}

// Keep keeps the message, or fails while the ledger is down.
func (o *Outage) Keep(ctx context.Context, in job.Inbound) (bool, error) {
	if o.Down.Load() {
		return false, fmt.Errorf("keep: %w", job.ErrDown)
	}
	return o.Ledger.Keep(ctx, in)
}
