package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

type jobsCmd struct {
	Job   int64    `arg:"" optional:"" help:"Number of one job, to see it whole."`
	State []string `help:"Only jobs in these states: asking, planned, test-due, on-test, refused, cleared, closed." placeholder:"STATE"`
	All   bool     `help:"Closed jobs too."`
	Most  int      `help:"How many at most." default:"50"`
}

func (c jobsCmd) Run(w world, set *settings) (err error) {
	states := slices.Clone(bot.OpenStates)
	if c.All {
		states = nil
	}
	if len(c.State) > 0 {
		states = nil
		for _, s := range c.State {
			if !slices.Contains(job.States, job.State(s)) {
				return fmt.Errorf("state is %q; allowed are %v", s, job.States)
			}
			states = append(states, job.State(s))
		}
	}
	ledger, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	desk := set.desk(ledger, w.now, set.logger(w.err))
	ctx, cancel := context.WithTimeout(context.Background(), 15*time.Second)
	defer cancel()

	if c.Job != 0 {
		j, err := desk.Job(ctx, job.ID(c.Job))
		if errors.Is(err, job.ErrNoJob) {
			return fmt.Errorf("there is no job %d; strikeoff jobs lists them", c.Job)
		}
		if err != nil {
			return err
		}
		card := desk.FullCardOf(j)
		fmt.Fprintln(w.out, bot.Text(bot.Post{Card: &card}, 100))
		history, err := desk.History(ctx, j.ID)
		if err != nil {
			return err
		}
		fmt.Fprintln(w.out, "History")
		for _, e := range history {
			fmt.Fprintf(w.out, "  %s  %-10s %s%s\n", e.At.In(set.zone).Format("Mon 2 Jan 2006 15:04"), e.Kind, e.By.Name, detail(e))
		}
		return nil
	}
	list, err := desk.Jobs(ctx, states, 0, c.Most)
	if err != nil {
		return err
	}
	post := bot.Post{}
	for _, j := range list {
		post.Rows = append(post.Rows, desk.RowOf(j))
	}
	if len(list) == 0 {
		post.Text = "No jobs are open."
	}
	fmt.Fprintln(w.out, bot.Text(post, 100))
	return nil
}

// detail is what an entry of the history adds to its kind.
func detail(e job.Entry) string {
	s := ""
	if e.Step != "" {
		s += ": " + e.Step
		if e.Kind == job.StepRead && !e.Pass {
			s += " failed"
		}
	}
	if e.Note != "" {
		s += ": " + e.Note
	}
	if e.Early != "" {
		s += " (early: " + e.Early + ")"
	}
	return s
}
