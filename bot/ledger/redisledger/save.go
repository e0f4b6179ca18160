package redisledger

import (
	"context"
	"crypto/rand"
	"fmt"
	"strconv"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// Save keeps a change whole or not at all.
func (l *Ledger) Save(ctx context.Context, c job.Change) error {
	args, err := saveArgs(c)
	if err != nil {
		return err
	}
	said, err := l.run(ctx, saveScript, l.saveKeys(), args...).Int()
	if err != nil {
		return down(err)
	}
	return l.saidOf(c, said)
}

// saidOf is the error for what save.lua returned. The number of a new job that was not kept because its message was done is free again.
func (l *Ledger) saidOf(c job.Change, said int) error {
	switch said {
	case -1:
		if c.Job != nil && c.Expect == 0 {
			l.unused.Put(c.Job.ID)
		}
		return fmt.Errorf("message %s: %w", c.Done, job.ErrDone)
	case -2:
		return fmt.Errorf("job %d is not at revision %d: %w", c.Job.ID, c.Expect, job.ErrStale)
	}
	return nil
}

func (l *Ledger) saveKeys() []string {
	return append(l.outKeys(), l.k.messageStem(), l.k.inReady(), l.k.inWait(), l.k.jobStem(), l.k.historyStem(), l.k.stateStem(), l.k.due(),
		l.k.threads(), l.k.opened(), l.k.laneStem())
}

// saveArgs are a change as save.lua is given it, with a token that tells this call from every other.
func saveArgs(c job.Change) ([]any, error) {
	if err := record.Check(c); err != nil {
		return nil, err
	}
	args := make([]any, 0, 15+len(c.Entries)+5*len(c.Out))
	args = append(args, rand.Text(), remember, c.Done)
	if c.Job == nil {
		args = append(args, "", "", "", "", "", "", "", "", "", "", "")
	} else {
		order, plan := record.Sources(c.Entries)
		write := record.JobApart
		if c.Expect == 0 && (order == 0 || plan == 0) {
			write, order, plan = record.Job, 0, 0 // a job without a beginning in its history, as only a test makes it
		}
		rec, err := write(*c.Job)
		if err != nil {
			return nil, err
		}
		next := ""
		if !c.Next.IsZero() {
			next = ms(c.Next)
		}
		args = append(args, strconv.FormatInt(int64(c.Job.ID), 10), strconv.Itoa(c.Expect), strconv.Itoa(c.Job.Revision), string(c.Job.State), next,
			dueMember(c.Job.ID), rec, placeID(c.Job.Place), record.OpenedBy(c), seqOrNone(plan), seqOrNone(order))
	}
	args = append(args, len(c.Entries))
	for _, en := range c.Entries {
		rec, err := record.Entry(en)
		if err != nil {
			return nil, err
		}
		args = append(args, rec)
	}
	for _, o := range c.Out {
		rec, err := record.Outbound(o)
		if err != nil {
			return nil, err
		}
		args = append(args, o.Key, rec, ms(o.At), placeID(o.Place), slotID(o))
	}
	return args, nil
}

// seqOrNone is a place in the history, "" for none.
func seqOrNone(seq int) string {
	if seq == 0 {
		return ""
	}
	return strconv.Itoa(seq)
}
