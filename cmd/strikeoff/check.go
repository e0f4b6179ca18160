package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/slack"
)

type checkCmd struct{}

func (checkCmd) Help() string {
	return `Prints a line for everything that was looked at, and leaves with 1 where something must change before the desk can be trusted.`
}

// leastYear is when this program was written: a clock that stands before it is wrong, and waits and dates would be too.
const leastYear = 2026

func (checkCmd) Run(w world, set *settings) (err error) {
	wrong := 0
	line := func(ok bool, format string, args ...any) {
		mark := "ok    "
		if !ok {
			mark, wrong = "CHANGE", wrong+1
		}
		fmt.Fprintf(w.out, "%s  %s\n", mark, fmt.Sprintf(format, args...))
	}
	line(true, "settings: read, and every value is allowed")
	now := w.now().In(set.zone)
	line(now.Year() >= leastYear, "clock: %s in %s", now.Format("Mon 2 Jan 2006 15:04 MST"), set.zone)
	if len(set.Leads) == 0 {
		line(true, "leads: none are named, so only the console's lead can sign; name them with --leads")
	} else {
		line(true, "leads: %d named", len(set.Leads))
	}

	if c, err := slackSecrets(); err != nil {
		line(false, "slack: %v", err)
	} else if c.BotToken == "" {
		line(true, "slack: no token is set, so this door stays shut")
	} else if err := meetSlack(c, w); err != nil {
		line(false, "slack: %v", err)
	} else {
		line(true, "slack: the token is good")
	}
	if token, err := secret("STRIKEOFF_DISCORD_TOKEN"); err != nil {
		line(false, "discord: %v", err)
	} else if token == "" {
		line(true, "discord: no token is set, so this door stays shut")
	} else {
		line(true, "discord: a token is set; whether it is good shows when the desk opens")
	}
	for _, s := range set.sources {
		if _, err := sourceOf(s); err != nil {
			line(false, "%v", err)
		}
	}
	for _, t := range set.targets {
		if _, err := keysOf(fmt.Sprintf("target %q", t.Name), t.Secret); err != nil {
			line(false, "%v", err)
		}
	}

	ledger, err := set.open()
	if err != nil {
		line(false, "ledger: %v", err)
		return fmt.Errorf("%d thing(s) must change", wrong)
	}
	defer func() { err = errors.Join(err, ledger.Close()) }()
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	h, err := ledger.Health(ctx, w.now())
	if err != nil {
		line(false, "ledger: %s cannot be reached: %v", set.hideLedger(), err)
		return fmt.Errorf("%d thing(s) must change", wrong)
	}
	line(true, "ledger: %s", h.Kind)
	line(h.Durable, "durability: what is acknowledged %s a crash of the machine", map[bool]string{true: "survives", false: "may not survive"}[h.Durable])
	for _, warning := range h.Warnings {
		line(false, "ledger: %s", warning)
	}
	line(h.SetAside == 0, "set aside: %d messages or posts could not be handled", h.SetAside)
	line(true, "waiting: %d messages, %d posts", h.Inbox, h.Outbox)
	if wrong > 0 {
		return fmt.Errorf("%d thing(s) must change", wrong)
	}
	return nil
}

// meetSlack asks Slack whether it knows our token.
func meetSlack(c slack.Config, w world) error {
	c.Now = w.now
	door, err := slack.New(&bot.Desk{Now: w.now}, c)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	return door.Meet(ctx)
}
