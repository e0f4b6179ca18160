package slack

import (
	"context"
	"time"
)

// How often the marks are written, and how often a channel in which something was not kept is read again. A mark that is somewhat old costs
// nothing but reading again what was kept already, and catching up reads 10 minutes more than it must anyhow; each write costs the ledger one.
const (
	markEvery  = 30 * time.Second
	catchEvery = time.Minute
)

// Run catches up, listens on the socket where there is an app token, and keeps the marks, until ctx ends; then it lets what is in hand
// finish and returns nil. It returns an error where Slack refuses our tokens at the start.
func (d *Door) Run(ctx context.Context) error {
	wait := time.Second
	for {
		err := d.Meet(ctx)
		if err == nil {
			break
		}
		if ctx.Err() != nil {
			return nil
		}
		if refusedWords[word(err)] {
			return err
		}
		d.log.Warn("Slack cannot be reached; trying again", "in", wait, "err", err)
		if !pause(ctx, wait) {
			return nil
		}
		wait = min(2*wait, 30*time.Second)
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	catch := make(chan struct{}, 1)
	want := func() {
		select {
		case catch <- struct{}{}:
		default:
		}
	}
	ended := make(chan error, 1)
	if d.c.AppToken != "" {
		d.tasks.Go(func() { ended <- d.listen(ctx, want) }) // catches up at every hello
	} else {
		want()
	}
	d.tasks.Go(func() { d.catcher(ctx, catch) })
	marks := time.NewTicker(markEvery)
	defer marks.Stop()
	var err error
	for going := true; going; {
		select {
		case <-ctx.Done():
			going = false
		case err = <-ended:
			going = false
		case <-marks.C:
			d.tasks.Go(func() { d.logged("the marks could not be written", d.putMarks(ctx, 20*time.Millisecond)) })
		}
	}
	stop()
	d.finish(10 * time.Second)
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer cancel()
	d.logged("the marks could not be written", d.putMarks(last, 0))
	return err
}

// catcher catches up when asked, and again after a while where something was not kept.
func (d *Door) catcher(ctx context.Context, asked <-chan struct{}) {
	again := time.NewTicker(catchEvery)
	defer again.Stop()
	failed := false
	for {
		select {
		case <-ctx.Done():
			return
		case <-asked:
		case <-again.C:
			if !failed && len(d.marks.lost()) == 0 {
				continue
			}
		}
		err := d.CatchUp(ctx)
		failed = err != nil
		d.logged("catching up failed; it is tried again in a minute", err)
	}
}

func (d *Door) logged(what string, err error) {
	if err != nil {
		d.log.Warn(what, "err", d.scrub.err(err))
	}
}
