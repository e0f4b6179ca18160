package bot

import (
	"context"

	"strikeoff/bot/job"
)

// Job reads a job: job.ErrNoJob where there is none.
func (d *Desk) Job(ctx context.Context, id job.ID) (job.Job, error) {
	d.setup()
	return d.Ledger.Load(ctx, id)
}

// Jobs lists jobs by number, newest first, those in the given states (all where none are given), below the given number (0: from the
// newest), at most n.
func (d *Desk) Jobs(ctx context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	d.setup()
	return d.Ledger.Jobs(ctx, states, below, n)
}

// History is a job's entries, oldest first.
func (d *Desk) History(ctx context.Context, id job.ID) ([]job.Entry, error) {
	d.setup()
	return d.Ledger.History(ctx, id)
}

// Health says how the ledger is doing.
func (d *Desk) Health(ctx context.Context) (Health, error) {
	d.setup()
	return d.Ledger.Health(ctx, d.Now())
}

// FullCardOf is a job as whoever stands at the press sees it now.
func (d *Desk) FullCardOf(j job.Job) Card {
	d.setup()
	return FullCardOf(j, d.Now(), d.Zone)
}

// CardOf is a job as people see it now.
func (d *Desk) CardOf(j job.Job) Card {
	d.setup()
	return CardOf(j, d.Now(), d.Zone)
}

// RowOf is a job as one line of a list.
func (d *Desk) RowOf(j job.Job) Row {
	d.setup()
	return RowOf(j, d.Now(), d.Zone)
}

// OpenStates are the states of jobs that still want something from somebody, or are clear to run.
var OpenStates = []job.State{job.Asking, job.Planned, job.TestDue, job.OnTest, job.Refused, job.Cleared}
