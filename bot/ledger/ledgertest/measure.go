package ledgertest

import (
	"context"
	"fmt"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

// Measure runs the benchmarks of every ledger. many runs a function on many callers at once, with a number that none was given before.
func Measure(b *testing.B, l bot.Ledger, many func(name string, f func(i int64) error)) {
	ctx := context.Background()
	keep := func(i int64) (job.Inbound, error) {
		in := Inbound(fmt.Sprint("m", i))
		in.Anchor = in.Key
		_, err := l.Keep(ctx, in)
		return in, err
	}
	save := func(in job.Inbound) error {
		id, err := l.Number(ctx)
		if err != nil {
			return err
		}
		c := NewJob(id, in.Key)
		c.Done, c.Next = in.Key, noon
		c.Out = []job.Outbound{Post(in.Key+"/card", in.Key, "card", noon)}
		return l.Save(ctx, c)
	}
	many("keep", func(i int64) error { _, err := keep(i); return err })
	many("keep, number and save", func(i int64) error {
		in, err := keep(i)
		if err != nil {
			return err
		}
		return save(in)
	})
	later := noon.Add(time.Hour)
	many("take one of many", func(int64) error { _, err := l.Take(ctx, later, time.Hour, 1); return err })
	many("take fifty", func(int64) error { _, err := l.Take(ctx, later, time.Hour, 50); return err })
	many("post and sent", func(int64) error {
		outs, err := l.Post(ctx, later, time.Hour, 1)
		for _, o := range outs {
			if err := l.Sent(ctx, o.Key, o.Tries, "ref"); err != nil {
				return err
			}
		}
		return err
	})
}
