package bot

import (
	"cmp"
	"errors"
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/intake"
	"strikeoff/rules"
)

// open makes a job of an order. Its card stands in the request's own thread.
func (t *turn) open(r intake.Reading) error {
	opener := cmp.Or(t.in.Of, t.in.Key) // what was asked about is the request, so that a later edit of it is known for one
	id, err := t.d.Ledger.Number(t.ctx)
	if err != nil {
		return fmt.Errorf("a number for a new job: %w", err)
	}
	t.was, t.job = job.Job{ID: id}, job.Job{ID: id}
	plan, rec := t.plan(r.Order, t.job.Record)
	e := job.Event{Kind: job.Opened, Message: opener, Where: t.thread(), Text: t.in.Text, Order: &r.Order, Plan: &plan, Record: rec, Odd: oddWords(r.Odd), Data: t.in.Order != nil}
	if err := t.happen(e); err != nil {
		return t.excuse(err)
	}
	if (t.in.Sort == job.Command || t.in.Sort == job.Shortcut) && !t.in.By.Bot { // a program cannot be told anything alone
		t.answer(Post{Text: fmt.Sprintf("That is job %d now.", id)}, true)
	}
	return nil
}

// shortcut reads a message as an order because somebody asked, even where it does not look like one.
func (t *turn) shortcut() error {
	if t.in.Of != "" {
		id, err := t.d.Ledger.FromMessage(t.ctx, t.in.Of)
		if err == nil {
			return t.already(id)
		}
		if !errors.Is(err, job.ErrNoJob) {
			return err
		}
	}
	// A message that was asked about twice: the first asking opened the job under its own key, in this thread.
	place := t.thread()
	if id, err := t.d.Ledger.InThread(t.ctx, place); err == nil && place.Thread != "" {
		return t.already(id)
	} else if err != nil && !errors.Is(err, job.ErrNoJob) {
		return err
	}
	return t.open(t.d.Read(t.in.Text, t.options()))
}

// already answers somebody who asks for an order that was read before.
func (t *turn) already(id job.ID) error {
	if err := t.load(id); err != nil {
		return err
	}
	card := CardOf(t.job, t.now, t.d.Zone)
	t.answer(Post{Text: fmt.Sprintf("That was read already: it is job %d. What is said in its thread changes it.", id), Card: &card}, true)
	return nil
}

// on is how a message said at that time is to be read.
func (t *turn) on(said time.Time) intake.Options {
	return intake.Options{Received: rules.DateOf(said.In(t.d.Zone)), DayFirst: t.d.DayFirst}
}

// oddWords are the sentences about what is odd.
func oddWords(odd []intake.Oddity) []string {
	var out []string
	for _, o := range odd {
		out = append(out, o.Text)
	}
	return out
}
