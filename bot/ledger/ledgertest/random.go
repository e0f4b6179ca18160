package ledgertest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strikeoff/bot"
	"strikeoff/bot/job"
)

// random runs random operations on a ledger and on the model, and compares every answer.
func random(t *testing.T, open Open) {
	operations, leased, saved := 0, 0, 0
	ctx := t.Context()
	rapid.Check(t, func(rt *rapid.T) {
		l, reopen := open(t)
		m, now, alerts := newModel(), noon, 0
		defer func() { l.Close() }()
		pick := func(what string, n int) string { return fmt.Sprint(what, rapid.IntRange(0, n-1).Draw(rt, what)) }
		post := func() job.Outbound {
			when := now.Add(time.Duration(rapid.SampledFrom([]int{0, 0, 0, -30, 30}).Draw(rt, "seconds")) * time.Second)
			return Post(pick("p", 40), pick("room", 3), rapid.SampledFrom([]string{"", "card"}).Draw(rt, "slot"), when)
		}
		// held is an item that was leased, most of the time by its last attempt.
		held := func() (string, int) {
			if len(m.posts) == 0 {
				return "p0", 1
			}
			p := rapid.SampledFrom(m.posts).Draw(rt, "item")
			if pl := m.places[p.place]; pl.holder != nil {
				p = pl.holder
			}
			return p.key, p.tries - rapid.SampledFrom([]int{0, 0, 0, 0, 1}).Draw(rt, "late")
		}
		actions := map[string]func(*rapid.T){
			"wait": func(rt *rapid.T) { now = now.Add(time.Duration(rapid.IntRange(0, 90).Draw(rt, "wait")) * time.Second) },
			"keep": func(rt *rapid.T) {
				in := Inbound(pick("m", 12))
				in.Anchor = rapid.SampledFrom([]string{"", "t1", "t2"}).Draw(rt, "thread")
				fresh, err := l.Keep(ctx, in)
				agree(rt, err, nil)
				same(rt, fresh, m.keep(in.Key, in.Anchor))
			},
			"take": func(rt *rapid.T) {
				n := rapid.IntRange(0, 4).Draw(rt, "n")
				ins, err := l.Take(ctx, now, lease, n)
				agree(rt, err, nil)
				var keys []string
				for _, in := range ins {
					keys = append(keys, in.Key)
				}
				same(rt, keys, m.take(now, lease, n))
				for _, in := range ins {
					same(rt, in.Tries, m.message(in.Key).tries)
				}
			},
			"put": func(rt *rapid.T) {
				key, when := pick("m", 13), now.Add(time.Duration(rapid.IntRange(0, 90).Draw(rt, "seconds"))*time.Second)
				if rapid.IntRange(0, 3).Draw(rt, "aside") == 0 {
					when = time.Time{}
				}
				agree(rt, l.Put(ctx, key, when), m.put(key, when))
			},
			"save": func(rt *rapid.T) {
				c := job.Change{}
				if rapid.Bool().Draw(rt, "answers") {
					c.Done = pick("m", 13)
				}
				for range rapid.IntRange(0, 3).Draw(rt, "posts") {
					c.Out = append(c.Out, post())
				}
				id := job.ID(rapid.IntRange(0, 5).Draw(rt, "job"))
				if s := m.jobs[id]; s != nil {
					alerts++
					e := job.Event{Kind: job.AlertSent, By: desk, Key: fmt.Sprint(alerts)}
					if rapid.IntRange(0, 3).Draw(rt, "closes") == 0 && s.job.State != job.Closed {
						e = job.Event{Kind: job.ClosedIt, By: lead, Note: "gone"}
					}
					step := Step(s.job, now, e)
					c.Job, c.Expect, c.Entries = step.Job, step.Expect, step.Entries
					if rapid.IntRange(0, 4).Draw(rt, "stale") == 0 {
						step = NewJob(id, "again")
						c.Job, c.Expect, c.Entries = step.Job, step.Expect, step.Entries
					}
				} else if id > 0 {
					step := NewJob(id, fmt.Sprint("opened", id))
					c.Job, c.Expect, c.Entries = step.Job, step.Expect, step.Entries
				}
				if rapid.Bool().Draw(rt, "due") {
					c.Next = now.Add(time.Duration(rapid.IntRange(-60, 60).Draw(rt, "next")) * time.Second)
				}
				err := l.Save(ctx, c)
				agree(rt, err, m.save(c))
				if err == nil && c.Job != nil {
					saved++
				}
			},
			"post": func(rt *rapid.T) {
				outs, err := l.Post(ctx, now, lease, 50)
				agree(rt, err, nil)
				got, want := map[string]string{}, map[string]string{}
				for _, o := range outs {
					got[o.Place.Room] = fmt.Sprintf("%s, attempt %d, ref %q", o.Key, o.Tries, o.Ref)
				}
				for name := range m.places {
					if p := m.lease(name, now, lease); p != nil {
						want[name] = fmt.Sprintf("%s, attempt %d, ref %q", p.key, p.tries, m.refs[p.slot])
						leased++
					}
				}
				same(rt, len(outs), len(got)) // none twice
				same(rt, got, want)
			},
			"sent": func(rt *rapid.T) {
				key, tries := held()
				ref := rapid.SampledFrom([]string{"", "r1", "r2"}).Draw(rt, "ref")
				if p := m.post(key); p != nil && p.slot == "" {
					ref = ""
				}
				agree(rt, l.Sent(ctx, key, tries, ref), m.sent(key, tries, ref))
			},
			"retry": func(rt *rapid.T) {
				key, tries := held()
				when := now.Add(time.Duration(rapid.IntRange(0, 90).Draw(rt, "seconds")) * time.Second)
				if rapid.IntRange(0, 4).Draw(rt, "aside") == 0 {
					when = time.Time{}
				}
				agree(rt, l.Retry(ctx, key, tries, when, "busy"), m.retry(key, tries, when))
			},
			"restart": func(rt *rapid.T) {
				if rapid.IntRange(0, 5).Draw(rt, "restarts") == 0 {
					l = reopen()
				}
			},
			"look": func(rt *rapid.T) { compare(ctx, rt, l, m, now) },
			"":     func(*rapid.T) { operations++ },
		}
		for _, often := range []string{"save", "post", "sent", "take", "retry"} {
			actions["again "+often] = actions[often]
		}
		rt.Repeat(actions)
		compare(ctx, rt, l, m, now)
	})
	if operations < 1000 || leased == 0 || saved == 0 {
		t.Fatalf("%d operations, %d leases, %d jobs saved: too few to have checked anything", operations, leased, saved)
	}
	t.Logf("%d operations, %d posts leased, %d changes of jobs saved", operations, leased, saved)
}

// compare looks at all that can be looked at without changing it.
func compare(ctx context.Context, rt *rapid.T, l bot.Ledger, m *model, now time.Time) {
	due, err := l.Due(ctx, now, 50)
	agree(rt, err, nil)
	same(rt, due, m.due(now))
	for _, states := range [][]job.State{nil, {job.Closed}, {job.TestDue}, {job.Closed, job.TestDue}} {
		jobs, err := l.Jobs(ctx, states, 0, 50)
		agree(rt, err, nil)
		var ids []job.ID
		for _, j := range jobs {
			ids = append(ids, j.ID)
			same(rt, asJSON(j), asJSON(m.jobs[j.ID].job))
		}
		same(rt, ids, m.list(states))
	}
	for id, s := range m.jobs {
		entries, err := l.History(ctx, id)
		agree(rt, err, nil)
		if err := job.VerifyJob(s.job, entries); err != nil {
			rt.Fatal(err)
		}
	}
	h, err := l.Health(ctx, now)
	agree(rt, err, nil)
	waiting := slices.DeleteFunc(slices.Clone(m.msgs), func(x *message) bool { return x.done || x.aside })
	same(rt, h.Inbox, len(waiting))
}

// agree fails unless an error is the model's.
func agree(rt *rapid.T, got, want error) {
	rt.Helper()
	if want == nil && got != nil || want != nil && !errors.Is(got, want) {
		rt.Fatalf("the ledger says %v, the model %v", got, want)
	}
}

func same(rt *rapid.T, got, want any) {
	rt.Helper()
	if d := cmp.Diff(want, got); d != "" {
		rt.Fatalf("the ledger is not as the model (-model +ledger):\n%s", d)
	}
}
