package bot_test

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
)

// flaky is a ledger that fails one of its calls, before the call did anything or after it did all.
type flaky struct {
	bot.Ledger
	mu    sync.Mutex
	calls int
	fail  int  // which call fails, counted from 1; 0 for none
	after bool // it fails after the deed
	save  bool // the next Save fails, whichever call it is
}

// failSave has the next call of Save fail.
func (f *flaky) failSave() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.save = true
}

var errCrash = fmt.Errorf("planted: %w", job.ErrDown)

// trip counts a call, and reports whether it must fail.
func (f *flaky) trip() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.calls++
	return f.calls == f.fail
}

func (f *flaky) do(deed func() error) error {
	trip := f.trip()
	if trip && !f.after {
		return errCrash
	}
	err := deed()
	if trip {
		return errCrash
	}
	return err
}

func (f *flaky) Take(ctx context.Context, now time.Time, lease time.Duration, n int) (out []job.Inbound, err error) {
	err = f.do(func() error { out, err = f.Ledger.Take(ctx, now, lease, n); return err })
	return onlyIf(err, out), err
}

func (f *flaky) Put(ctx context.Context, key string, at time.Time) error {
	return f.do(func() error { return f.Ledger.Put(ctx, key, at) })
}

func (f *flaky) Number(ctx context.Context) (id job.ID, err error) {
	err = f.do(func() error { id, err = f.Ledger.Number(ctx); return err })
	return id, err
}

func (f *flaky) Load(ctx context.Context, id job.ID) (j job.Job, err error) {
	err = f.do(func() error { j, err = f.Ledger.Load(ctx, id); return err })
	return j, err
}

func (f *flaky) InThread(ctx context.Context, p job.Place) (id job.ID, err error) {
	err = f.do(func() error { id, err = f.Ledger.InThread(ctx, p); return err })
	return id, err
}

func (f *flaky) Save(ctx context.Context, c job.Change) error {
	f.mu.Lock()
	fail := f.save
	f.save = false
	f.mu.Unlock()
	if fail {
		return errCrash
	}
	return f.do(func() error { return f.Ledger.Save(ctx, c) })
}

func (f *flaky) Post(ctx context.Context, now time.Time, lease time.Duration, n int) (out []job.Outbound, err error) {
	err = f.do(func() error { out, err = f.Ledger.Post(ctx, now, lease, n); return err })
	return onlyIf(err, out), err
}

func (f *flaky) Sent(ctx context.Context, key string, tries int, ref string) error {
	return f.do(func() error { return f.Ledger.Sent(ctx, key, tries, ref) })
}

func (f *flaky) Due(ctx context.Context, now time.Time, n int) (out []job.ID, err error) {
	err = f.do(func() error { out, err = f.Ledger.Due(ctx, now, n); return err })
	return onlyIf(err, out), err
}

// onlyIf is nothing where there is an error: a caller that crashed never saw the answer.
func onlyIf[T any](err error, out []T) []T {
	if err != nil {
		return nil
	}
	return out
}

// story is what is said in the crash test, in order.
var story = []struct {
	who          bot.Person
	text, thread string
}{
	{rep, "72 tees in tri-blend, navy, white front print", ""},
	{rep, "make it 60", "s1"},
	{lead, "printed", "s1"},
	{lead, "pass cure", "s1"},
	{lead, "fail wash pink cast", "s1"},
	{lead, "printed", "s1"},
	{lead, "pass cure wash early: oven time was doubled", "s1"},
	{lead, "sign", "s1"},
}

var (
	rep  = bot.Person{ID: "id-rea", Name: "Rea Ito (invented)"}
	lead = bot.Person{ID: "id-lin", Name: "Lin Ode (invented)"}
)

var figures = regexp.MustCompile(`\d+`)

// Wherever the ledger fails, and whether the call was done or not, nothing that was acknowledged is lost and nothing is applied twice: the
// job ends with the same history, and every post is put up, at most once more than it should for the one failure.
func TestCrashAnywhere(t *testing.T) {
	calls, want := tell(t, 0, false)
	if calls < 30 || len(want) == 0 {
		t.Fatalf("the story takes %d calls of the ledger and posts %d times", calls, len(want))
	}
	for n := 1; n <= calls; n++ {
		for _, after := range []bool{false, true} {
			t.Run(fmt.Sprintf("call %d, after the deed %v", n, after), func(t *testing.T) {
				_, posts := tell(t, n, after)
				for text, times := range want {
					if got := posts[text]; got < times || got > times+1 {
						t.Errorf("put up %d times, want %d, or one more:\n%s", got, times, text)
					}
				}
			})
		}
	}
}

// tell plays the story with one call of the ledger failing, checks the job, and returns how many calls it took and the lines that were
// put up in the thread.
func tell(t *testing.T, fail int, after bool) (calls int, posts map[string]int) {
	t.Helper()
	f := &flaky{Ledger: openBolt(t), fail: fail, after: after}
	clock := bottest.NewClock()
	posts = map[string]int{}
	// Each desk is thrown away after an error, as a crash does with all that it held in memory.
	d := bottest.NewDesk(f, clock)
	p := bottest.NewPlatform(t, d)
	p.Watch(func(x bot.Parcel) {
		if x.Post.Card == nil {
			posts[figures.ReplaceAllString(bot.Text(x.Post, 0), "#")]++ // a crash may take time and job numbers
		}
	})
	for i, s := range story {
		in := bot.Inbound{Key: fmt.Sprintf("paper:s%d", i+1), Place: bot.Place{Door: bottest.Door, Room: "orders", Thread: s.thread}, Anchor: "s1",
			By: s.who, Text: s.text, Said: clock.Now()}
		if fresh, err := d.Keep(t.Context(), in); err != nil || !fresh {
			t.Fatalf("keep %q: %v, %v", s.text, fresh, err)
		}
		rounds := 0
		for quiet := 0; quiet < 3; rounds++ {
			if rounds > 100 {
				t.Fatalf("%q keeps the desk busy for ever", s.text)
			}
			did := 0
			for _, do := range []func(*bot.Desk, context.Context) (int, error){(*bot.Desk).Work, (*bot.Desk).Alert, (*bot.Desk).Deliver} {
				n, err := do(d, t.Context())
				if err != nil {
					if !errors.Is(err, job.ErrDown) {
						t.Fatalf("after %q: %v", s.text, err)
					}
					d, did = bottest.NewDesk(f, clock), did+1
					p.Join(d)
				}
				did += n
			}
			if did > 0 {
				quiet = 0
				continue
			}
			quiet++
			clock.Move(2 * time.Minute) // leases run out
		}
	}
	hist, err := d.History(t.Context(), firstJob(t, d))
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	for _, e := range hist {
		if e.Kind != job.AlertSent {
			kinds = append(kinds, string(e.Kind))
		}
	}
	const want = "opened amended printed step-read step-read printed step-read step-read signed-off"
	if got := strings.Join(kinds, " "); got != want {
		t.Errorf("the history is\n  %s, want\n  %s", got, want)
	}
	if err := job.Verify(hist); err != nil {
		t.Error(err)
	}
	jobs, err := d.Jobs(t.Context(), nil, 0, 9)
	if err != nil || len(jobs) != 1 || jobs[0].State != job.Cleared {
		t.Errorf("%d jobs, %v; want one, cleared", len(jobs), err)
	}
	h, err := d.Health(t.Context())
	if err != nil || h.Inbox+h.Outbox+h.SetAside != 0 {
		t.Errorf("left behind: %+v, %v", h, err)
	}
	return f.calls, posts
}

// firstJob is the number of the only job: one that a crash took is not given again.
func firstJob(t *testing.T, d *bot.Desk) bot.JobID {
	t.Helper()
	jobs, err := d.Jobs(t.Context(), nil, 0, 1)
	if err != nil || len(jobs) != 1 {
		t.Fatalf("jobs: %d, %v", len(jobs), err)
	}
	return jobs[0].ID
}
