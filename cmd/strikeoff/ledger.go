package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/redisledger"
)

// open opens the ledger that the settings name.
func (s *settings) open() (bot.Ledger, error) {
	if s.onRedis() {
		ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
		defer cancel()
		return redisledger.Dial(ctx, s.Ledger, s.ShopName)
	}
	return boltledger.Open(s.Ledger, boltledger.Options{})
}

type ledgerCmd struct {
	Verify verifyCmd `cmd:"" help:"Check every job's history: that no event was changed, left out or put in, and that the job is what its history makes it."`
}

type verifyCmd struct{}

func (verifyCmd) Run(w world, set *settings) (err error) {
	ledger, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	ctx := context.Background()
	jobs, entries, bad := 0, 0, 0
	for below := job.ID(0); ; {
		page, err := ledger.Jobs(ctx, nil, below, 100)
		if err != nil {
			return err
		}
		if len(page) == 0 {
			break
		}
		for _, j := range page {
			history, err := ledger.History(ctx, j.ID)
			if err != nil {
				return err
			}
			jobs, entries, below = jobs+1, entries+len(history), j.ID
			if err := job.VerifyJob(j, history); err != nil {
				bad++
				fmt.Fprintf(w.out, "job %d: %v\n", j.ID, err)
			}
		}
	}
	if bad > 0 {
		return fmt.Errorf("%d of %d jobs have a history that does not hold: someone or something changed the ledger behind the desk's back", bad, jobs)
	}
	fmt.Fprintf(w.out, "%d jobs, %d events: every history holds.\n", jobs, entries)
	return nil
}
