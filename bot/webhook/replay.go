package webhook

import (
	"context"
	"fmt"
	"time"

	"strikeoff/bot"
)

// Replayer is what a replay reads and writes; every bot.Ledger is one.
type Replayer interface {
	Saver
	History(ctx context.Context, id bot.JobID) ([]bot.Entry, error)
}

// Replay sends the news of a job once more, from its entry number from (1 for all), to the announcer's targets, and returns how many
// items it laid by. The events are made from the history, so they are the same as the first time, and a target that keeps ids is not
// told twice. Nothing of the job changes. bot.ErrNoJob where there is no such job.
func Replay(ctx context.Context, l Replayer, a Announcer, id bot.JobID, from int, now time.Time) (int, error) {
	hist, err := l.History(ctx, id)
	if err != nil {
		return 0, err
	}
	if len(hist) == 0 {
		return 0, bot.ErrNoJob
	}
	from = max(from, 1)
	if from > len(hist) {
		return 0, nil
	}
	var before bot.Job
	after := make([]bot.Job, 0, len(hist)-from+1)
	for i := range hist {
		j, err := bot.Replayed(hist[:i+1])
		if err != nil {
			return 0, fmt.Errorf("job %d: %w", id, err)
		}
		if i+1 < from {
			before = j
			continue
		}
		after = append(after, j)
	}
	out := a.outbound(before, after, hist[from-1:], fmt.Sprintf(":again-%d", now.Unix()))
	for i := range out {
		out[i].At = now.UTC()
	}
	if err := l.Save(ctx, bot.Change{Out: out}); err != nil {
		return 0, fmt.Errorf("job %d: %w", id, err)
	}
	return len(out), nil
}
