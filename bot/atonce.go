package bot

import (
	"context"
	"errors"

	"strikeoff/bot/job"
	"strikeoff/intake"
)

// standsAlone reports whether a message is an order that a program handed in by itself: no message came before it in a thread that it could
// follow, so nothing is gained by letting it wait its turn in the inbox.
func standsAlone(in Inbound) bool { return in.By.Bot && in.Sort == job.Shortcut && in.Of == "" }

// atOnce reads, plans and saves an order that stands alone while its program waits: the job and the mark that the message is done are one
// transaction, so that it is kept before it is acknowledged as every message is, with one trip to the ledger where there would be three. ok is
// false where that did not work for a reason of the message's own: then nothing happened, and it must be kept for the inbox, which knows
// what to do with such.
func (d *Desk) atOnce(ctx context.Context, in Inbound) (fresh, ok bool, err error) {
	in.Tries = 1
	switch err = d.try(ctx, in); {
	case err == nil:
		return true, true, nil
	case errors.Is(err, job.ErrDone):
		return false, true, nil
	case ctx.Err() != nil, errors.Is(err, job.ErrDown), errors.Is(err, job.ErrTooNew), errors.Is(err, job.ErrCorrupt):
		return false, true, err
	}
	d.Log.Error("an order could not be handled at once", "message", in.Key, "err", err)
	return false, false, nil
}

// alone opens the job of an order that stands alone.
func (t *turn) alone() error {
	if t.in.Order != nil { // handed in as data: it stands, and the text is not read for it
		return t.open(intake.Reading{Order: *t.in.Order, IsOrder: true})
	}
	return t.open(t.d.Read(t.in.Text, t.options()))
}
