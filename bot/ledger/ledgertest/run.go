// Package ledgertest is the contract that every ledger passes, and a wrapper that fakes an outage.
package ledgertest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/rules"
)

// Open opens an empty ledger for one test, and gives a function that closes it and opens the same store again.
type Open func(t *testing.T) (l bot.Ledger, reopen func() bot.Ledger)

// Run runs the contract on ledgers made by open.
func Run(t *testing.T, open Open) {
	for _, c := range []struct {
		name string
		test func(*testing.T, *bench)
	}{
		{"a message is kept once", keptOnce},
		{"messages are taken oldest first and leased", takenInOrder},
		{"a lease that ran out is free again", leaseRunsOut},
		{"messages of one thread are taken in order, one desk at a time", laneInOrder},
		{"a message put back waits", putBack},
		{"a message set aside is not taken", setAside},
		{"a job is saved and read back whole", savedWhole},
		{"a stale change keeps nothing", staleKeepsNothing},
		{"a message is done once", doneOnce},
		{"a change that makes no sense is refused", senseless},
		{"jobs are found by thread and by message", found},
		{"jobs are listed by state, newest first", listed},
		{"posts of one place go out in order", placeInOrder},
		{"a slot keeps only its newest post", slotKeepsNewest},
		{"a slot remembers its post", slotRemembers},
		{"a stale attempt is not acknowledged", staleAttempt},
		{"a post that failed waits, with those behind it", retryWaits},
		{"a post set aside lets the next pass", asideLetsPass},
		{"the same post is saved once, also after it went out", savedOnce},
		{"a post waits for its time", postWaits},
		{"the due list gives the soonest first", dueList},
		{"cursors are remembered", cursors},
		{"no number is given twice", numbers},
		{"one of many savers wins", oneSaverWins},
		{"many takers share, none twice", manyTakers},
		{"everything survives a restart", restart},
		{"health counts what waits", health},
		{"a context that ended is told", contextEnded},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, reopen := open(t)
			c.test(t, &bench{T: t, Ledger: l, reopen: reopen, ctx: t.Context()})
		})
	}
	t.Run("random operations against a plain model", func(t *testing.T) { random(t, open) })
}

// bench is a ledger under test, with shorthands that fail the test on an error.
type bench struct {
	*testing.T
	bot.Ledger
	reopen func() bot.Ledger
	ctx    context.Context
}

// noon is when these tests begin. They never wait: they hand in a later time.
var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func at(minutes int) time.Time { return noon.Add(time.Duration(minutes) * time.Minute) }

const lease = time.Minute

func (b *bench) ok(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

// is fails unless an error is the wanted one.
func (b *bench) is(err, want error, doing string) {
	b.Helper()
	if !errors.Is(err, want) {
		b.Errorf("%s: error = %v, want %v", doing, err, want)
	}
}

// same fails unless two values are equal.
func (b *bench) same(got, want any, what string) {
	b.Helper()
	if d := cmp.Diff(want, got); d != "" {
		b.Errorf("%s (-want +got):\n%s", what, d)
	}
}

func (b *bench) keep(keys ...string) {
	b.Helper()
	for _, k := range keys {
		fresh, err := b.Keep(b.ctx, Inbound(k))
		b.ok(err)
		if !fresh {
			b.Errorf("%s was not fresh", k)
		}
	}
}

// take takes messages and gives their keys.
func (b *bench) take(now time.Time, n int) []string {
	b.Helper()
	ins, err := b.Take(b.ctx, now, lease, n)
	b.ok(err)
	var keys []string
	for _, in := range ins {
		keys = append(keys, in.Key)
	}
	return keys
}

// post leases posts and gives them.
func (b *bench) post(now time.Time, n int) []job.Outbound {
	b.Helper()
	outs, err := b.Post(b.ctx, now, lease, n)
	b.ok(err)
	return outs
}

func keysOf(outs []job.Outbound) []string {
	var keys []string
	for _, o := range outs {
		keys = append(keys, o.Key)
	}
	return keys
}

// out saves posts that belong to no job.
func (b *bench) out(outs ...job.Outbound) {
	b.Helper()
	b.ok(b.Save(b.ctx, job.Change{Out: outs}))
}

// begin saves a new job with the next number and gives it.
func (b *bench) begin(message string) job.Job {
	b.Helper()
	id, err := b.Number(b.ctx)
	b.ok(err)
	c := NewJob(id, message)
	b.ok(b.Save(b.ctx, c))
	return *c.Job
}

// Inbound is an invented message with that key.
func Inbound(key string) job.Inbound {
	return job.Inbound{Key: key, Sort: job.Message, Place: job.Place{Door: "test", Room: "orders", Thread: "t-" + key}, Anchor: "t-" + key,
		By: job.Person{ID: "U1", Name: "Rhea", Groups: []string{"reps"}}, Text: "72 black tees, <b>front</b> & back, «ñ» \u2028 \x00 |{}", Called: true, Reply: "token",
		Files: []job.File{{ID: "F1", Name: "art.png", Type: "image/png", Bytes: 1234}}, Said: noon, Kept: noon}
}

// NewJob is a change that opens an invented job from a message.
func NewJob(id job.ID, message string) job.Change {
	plan := rules.Plan{TestPrint: true, Summary: "Print <b>plastisol</b> & test it.", Lines: rules.List[rules.LinePlan]{{Prints: rules.List[rules.PrintPlan]{{Pick: rules.Plastisol}}}},
		Checklist: rules.List[rules.Check]{{Code: "rub", Title: "Rub"}, {Code: "wash", Title: "Wash", WaitHours: 24}}}
	return Step(job.Job{ID: id}, noon, job.Event{Kind: job.Opened, By: job.Actor{ID: "U1", Name: "Rhea", Role: job.Rep}, Message: message,
		Where: job.Place{Door: "test", Room: "orders", Thread: "t-" + message}, Text: "72 black tees", Order: &rules.Order{Customer: "Invented Rowing Club"}, Plan: &plan})
}

// Step is a change that takes a job on by events. It panics where the job refuses one: that is a mistake in the test.
func Step(j job.Job, now time.Time, events ...job.Event) job.Change {
	next, entries, _, err := job.Apply(j, now, events...)
	if err != nil {
		panic(err)
	}
	return job.Change{Job: &next, Expect: j.Revision, Entries: entries}
}

// Post is an invented outbound item.
func Post(key, room, slot string, when time.Time) job.Outbound {
	return job.Outbound{Key: key, Place: job.Place{Door: "test", Room: room, Thread: "1"}, Slot: slot, At: when, Payload: json.RawMessage(`{"text":"say ` + key + `","empty":[],"n":1.50}`)}
}

// together runs f n times at once and waits.
func together(n int, f func(i int)) {
	var wg sync.WaitGroup
	for i := range n {
		wg.Go(func() { f(i) })
	}
	wg.Wait()
}

func asJSON(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return fmt.Sprint(err)
	}
	return string(b)
}
