package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"strikeoff/bot/alert"
	"strikeoff/bot/job"
)

// alertKey is what the keys of alerts on their way out begin with.
const alertKey = "alert:"

// alert adds to a turn the alerts that are due now, each recorded so that it goes out once, and says when to look at the job again.
func (t *turn) alert() time.Time {
	due := t.d.Alerts.Due(t.job, t.now)
	said := slices.ContainsFunc(t.entries, func(e job.Entry) bool { return e.Kind != job.AlertSent })
	for _, a := range due {
		if err := t.happen(job.Event{Kind: job.AlertSent, Key: a.Key, By: job.Actor{Role: job.Desk, Name: "strikeoff"}, Where: t.job.Place}); err != nil {
			t.d.Log.Error("an alert could not be recorded", "job", t.job.ID, "alert", a.Key, "err", err)
			continue
		}
		place, ok := t.d.production(t.job.Place.Door)
		if a.To == alert.Thread || !ok {
			place = t.job.Place
			if said && !ok {
				continue // there is no production room, and the thread is told by this very turn
			}
		}
		t.send(Outbound{Key: fmt.Sprintf("%s%d:%s", alertKey, t.job.ID, a.Key), Job: t.job.ID, Place: place}, Post{Text: a.Text, Loud: true})
	}
	return t.d.Alerts.Next(t.job, t.now)
}

// ring raises the alerts of one job that are due, and returns how many they were.
func (d *Desk) ring(ctx context.Context, id job.ID) (int, error) {
	for range mostStale {
		n, err := d.ringOnce(ctx, id)
		if !errors.Is(err, job.ErrStale) {
			return n, err
		}
	}
	return 0, fmt.Errorf("the alerts of job %d: %w", id, job.ErrStale)
}

// ringOnce is ring on the job as it stands now.
func (d *Desk) ringOnce(ctx context.Context, id job.ID) (int, error) {
	ctx, cancel := context.WithTimeout(ctx, d.Limits.Call)
	defer cancel()
	t := d.turn(ctx, Inbound{})
	if err := t.load(id); err != nil {
		return 0, fmt.Errorf("the alerts of job %d: %w", id, err)
	}
	t.in.Key = fmt.Sprintf("bell:%d:%d", id, t.was.Revision)
	next := t.alert()
	n := len(t.entries)
	if n > 0 {
		t.show()
	}
	// Where nothing is due after all, as when the shop's settings changed, the time to look again is set right all the same.
	c := job.Change{Job: &t.job, Expect: t.was.Revision, Entries: t.entries, Out: t.also(), Next: next}
	if err := d.Ledger.Save(ctx, c); err != nil {
		return 0, fmt.Errorf("the alerts of job %d: %w", id, err)
	}
	if n > 0 {
		wake(d.wakeOut)
	}
	return n, nil
}
