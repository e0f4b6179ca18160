package main

import (
	"context"
	"errors"
	"fmt"
	"time"
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
