package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/bot/webhook"
)

type eventsCmd struct {
	Replay replayCmd `cmd:"" help:"Tell the targets once more what happened to a job, for when one was deaf for too long."`
}

type replayCmd struct {
	Job     int64  `arg:"" help:"Number of the job."`
	From    int    `help:"Number of the first event to tell again." default:"1"`
	BaseURL string `help:"What the server is called from outside, as https://desk.example." env:"STRIKEOFF_BASE_URL" placeholder:"URL"`
}

func (c replayCmd) Run(w world, set *settings) (err error) {
	a := webhook.Announcer{Base: c.BaseURL}
	for _, t := range set.targets {
		a.Targets = append(a.Targets, t.Name)
	}
	if len(a.Targets) == 0 {
		return errors.New("the settings name no targets, so there is nobody to tell: name them in a targets: section of the file that --config names")
	}
	ledger, err := set.open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	n, err := webhook.Replay(ctx, ledger, a, job.ID(c.Job), c.From, w.now())
	if errors.Is(err, bot.ErrNoJob) {
		return fmt.Errorf("there is no job %d; strikeoff jobs lists them", c.Job)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(w.out, "%d events are laid by; strikeoff serve sends them.\n", n)
	return nil
}
