package redisledger

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// Load reads a job.
func (l *Ledger) Load(ctx context.Context, id job.ID) (job.Job, error) {
	got, err := l.run(ctx, loadScript, []string{l.k.job(id), l.k.history(id)}).StringSlice()
	switch {
	case err != nil:
		return job.Job{}, down(err)
	case len(got) != 3:
		return job.Job{}, fmt.Errorf("job %d: %w", id, job.ErrNoJob)
	}
	return record.ReadJobApart([]byte(got[0]), []byte(got[1]), []byte(got[2]))
}

// InThread finds the newest job of a thread.
func (l *Ledger) InThread(ctx context.Context, p job.Place) (job.ID, error) {
	n, err := l.c.ZScore(ctx, l.k.threads(), placeID(p)).Result()
	switch {
	case errors.Is(err, redis.Nil):
		return 0, fmt.Errorf("in that thread: %w", job.ErrNoJob)
	case err != nil:
		return 0, down(err)
	}
	return job.ID(n), nil
}

// FromMessage finds the job that a message opened.
func (l *Ledger) FromMessage(ctx context.Context, key string) (job.ID, error) {
	n, err := l.c.HGet(ctx, l.k.opened(), key).Int64()
	switch {
	case errors.Is(err, redis.Nil):
		return 0, fmt.Errorf("from that message: %w", job.ErrNoJob)
	case err != nil:
		return 0, down(err)
	}
	return job.ID(n), nil
}

// Jobs lists jobs, newest first.
func (l *Ledger) Jobs(ctx context.Context, states []job.State, below job.ID, n int) ([]job.Job, error) {
	if n <= 0 {
		return nil, nil
	}
	ks := []string{l.k.jobStem(), l.k.historyStem()}
	if len(states) == 0 {
		states = job.States
	}
	for _, s := range states {
		ks = append(ks, l.k.state(s))
	}
	under := "+inf"
	if below > 0 {
		under = "(" + strconv.FormatInt(int64(below), 10)
	}
	recs, err := l.run(ctx, jobsScript, ks, under, n).StringSlice()
	if err != nil {
		return nil, down(err)
	}
	var out []job.Job
	for i := 0; i+2 < len(recs); i += 3 {
		j, err := record.ReadJobApart([]byte(recs[i]), []byte(recs[i+1]), []byte(recs[i+2]))
		if err != nil {
			return nil, err
		}
		out = append(out, j)
	}
	return out, nil
}

// History reads a job's entries.
func (l *Ledger) History(ctx context.Context, id job.ID) ([]job.Entry, error) {
	recs, err := l.c.LRange(ctx, l.k.history(id), 0, -1).Result()
	switch {
	case err != nil:
		return nil, down(err)
	case len(recs) == 0:
		return nil, fmt.Errorf("job %d: %w", id, job.ErrNoJob)
	}
	out := make([]job.Entry, 0, len(recs))
	for _, r := range recs {
		en, err := record.ReadEntry([]byte(r))
		if err != nil {
			return nil, err
		}
		out = append(out, en)
	}
	return out, nil
}

// Due lists jobs whose alerts must be looked at.
func (l *Ledger) Due(ctx context.Context, now time.Time, n int) ([]job.ID, error) {
	if n <= 0 {
		return nil, nil
	}
	members, err := l.c.ZRangeArgs(ctx, redis.ZRangeArgs{Key: l.k.due(), ByScore: true, Start: "-inf", Stop: nowMS(now), Count: int64(n)}).Result()
	if err != nil {
		return nil, down(err)
	}
	var out []job.ID
	for _, m := range members {
		id, err := strconv.ParseInt(m, 10, 64)
		if err != nil {
			return nil, fmt.Errorf("%w: %q on the due list is no job: %w", job.ErrCorrupt, m, err)
		}
		out = append(out, job.ID(id))
	}
	return out, nil
}

// Cursor reads a door's place in a room.
func (l *Ledger) Cursor(ctx context.Context, door, room string) (string, error) {
	at, err := l.c.HGet(ctx, l.k.cursors(), cursorField(door, room)).Result()
	return at, down(err)
}

// SetCursor remembers a door's place in a room.
func (l *Ledger) SetCursor(ctx context.Context, door, room, at string) error {
	return down(l.c.HSet(ctx, l.k.cursors(), cursorField(door, room), at).Err())
}

func cursorField(door, room string) string { return fmt.Sprintf("%q %q", door, room) }
