package bot_test

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
	"strikeoff/intake"
)

// Two desks on one ledger answer each message once and each thread in order, however many talk at the same time, and though every message
// is delivered to both.
func TestTwoDesksOneLedger(t *testing.T) {
	const threads, amends = 25, 4
	ledger := openBolt(t)
	var logs lockedLog
	first := liveDesk(ledger, &logs)
	p := bottest.NewPlatform(t, first)
	second := liveDesk(ledger, &logs)
	p.Join(second)
	ctx, stop := context.WithCancel(t.Context())
	var running sync.WaitGroup
	for _, d := range []*bot.Desk{first, second} {
		running.Go(func() {
			if err := d.Run(ctx); err != nil {
				t.Errorf("run: %v", err)
			}
		})
	}

	var people sync.WaitGroup
	for n := range threads {
		people.Go(func() {
			anchor := fmt.Sprintf("r%d", n)
			for i := range amends + 1 {
				in := bot.Inbound{Key: fmt.Sprintf("paper:%s:%d", anchor, i), Anchor: anchor, By: rep, Said: time.Now(),
					Place: bot.Place{Door: bottest.Door, Room: "orders"}, Text: "10 tees in tri-blend, navy"}
				if i > 0 {
					in.Place.Thread, in.Text = anchor, fmt.Sprintf("make it %d", 100*i+n)
				}
				fresh := 0
				for _, d := range []*bot.Desk{first, second} {
					f, err := d.Keep(t.Context(), in)
					if err != nil {
						t.Errorf("keep %s: %v", in.Key, err)
					}
					if f {
						fresh++
					}
				}
				if fresh != 1 {
					t.Errorf("%s was fresh %d times, want once", in.Key, fresh)
				}
			}
		})
	}
	people.Wait()
	idle(t, first)
	stop()
	running.Wait()

	jobs, err := first.Jobs(t.Context(), nil, 0, 2*threads)
	if err != nil || len(jobs) != threads {
		t.Fatalf("%d jobs, %v; want %d", len(jobs), err, threads)
	}
	for _, j := range jobs {
		var n int
		if _, err := fmt.Sscanf(j.Place.Thread, "r%d", &n); err != nil {
			t.Fatal(err)
		}
		if got, want := j.Order.Lines[0].Quantity.Value, 100*amends+n; got != want {
			t.Errorf("job %d of %s is for %d pieces, want the last that was said, %d", j.ID, j.Place.Thread, got, want)
		}
		hist, err := first.History(t.Context(), j.ID)
		if err != nil {
			t.Fatal(err)
		}
		amended := 0
		for _, e := range hist {
			if e.Kind == job.Amended {
				amended++
			}
		}
		if err := job.Verify(hist); amended != amends || err != nil {
			t.Errorf("job %d was amended %d times, %v; want %d", j.ID, amended, err, amends)
		}
	}
	lines := map[string]int{}
	for _, x := range p.Posts() {
		lines[x.Parcel.Place.Thread+" "+bot.Text(x.Parcel.Post, 0)]++
	}
	for line, n := range lines {
		if n != 1 {
			t.Errorf("put up %d times: %s", n, line)
		}
	}
	if s := logs.String(); s != "" {
		t.Errorf("logged as an error:\n%s", s)
	}
}

// liveDesk is a desk on the real clock.
func liveDesk(l bot.Ledger, w *lockedLog) *bot.Desk {
	d := bottest.NewDesk(l, bottest.NewClock())
	d.Now = time.Now
	d.Limits.Poll = 20 * time.Millisecond
	d.Log = slog.New(slog.NewTextHandler(w, &slog.HandlerOptions{Level: slog.LevelError}))
	return d
}

// idle waits until nothing is left to do.
func idle(t *testing.T, d *bot.Desk) {
	t.Helper()
	for range 1500 {
		h, err := d.Health(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if h.Inbox+h.Outbox == 0 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatal("there is still something to do")
}

// lockedLog is a log that many may write.
type lockedLog struct {
	mu sync.Mutex
	b  strings.Builder
}

func (l *lockedLog) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedLog) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// An edit that comes before the message it changes opens the job, and the message after it does nothing.
func TestEditOvertakesItsMessage(t *testing.T) {
	p := newPlay(t)
	place := bot.Place{Door: bottest.Door, Room: "orders"}
	for _, in := range []bot.Inbound{
		{Key: "paper:9:e1", Sort: bot.Edited, Of: "paper:9", Place: place, Anchor: "9", By: rep, Text: "60 tees, cotton, black"},
		{Key: "paper:9", Sort: bot.Message, Place: place, Anchor: "9", By: rep, Text: "48 tees, cotton, black"},
		{Key: "paper:9:e2", Sort: bot.Edited, Of: "paper:9", Place: place, Anchor: "9", By: rep, Text: "61 tees, cotton, black"},
	} {
		if _, err := p.desk.Keep(t.Context(), in); err != nil {
			t.Fatal(err)
		}
		bottest.Settle(t, p.desk)
	}
	jobs, err := p.desk.Jobs(t.Context(), nil, 0, 9)
	if err != nil || len(jobs) != 1 {
		t.Fatalf("%d jobs, %v; want one", len(jobs), err)
	}
	if got := jobs[0].Order.Lines[0].Quantity.Value; got != 61 {
		t.Errorf("the job is for %d pieces, want 61", got)
	}
}

// While the request waits for another try, what was said after it in its thread waits too: answered first, it would be lost.
func TestThreadWaitsForItsFirstMessage(t *testing.T) {
	for _, live := range []bool{false, true} {
		t.Run(fmt.Sprintf("running %v", live), func(t *testing.T) {
			f := &flaky{Ledger: openBolt(t)}
			d := bottest.NewDesk(f, bottest.NewClock())
			var ahead atomic.Int64
			d.Now = func() time.Time { return time.Now().Add(time.Duration(ahead.Load())) }
			d.Limits.Poll = 10 * time.Millisecond
			p := bottest.NewPlatform(t, d)
			at := p.Say(bottest.Rep, "", "48 tees, cotton, black")
			p.Say(bottest.Rep, at, "make it 60")
			p.Say(bottest.Rep, at, "make it 61")
			f.failSave()
			if live {
				ctx, stop := context.WithCancel(t.Context())
				var running sync.WaitGroup
				running.Go(func() { _ = d.Run(ctx) })
				time.Sleep(100 * time.Millisecond)
				ahead.Store(int64(time.Hour))
				idle(t, d)
				stop()
				running.Wait()
			} else {
				if _, err := d.Work(t.Context()); err == nil {
					t.Error("work did not say that the ledger failed")
				}
				ahead.Store(int64(time.Hour))
				bottest.Settle(t, d)
			}
			jobs, err := d.Jobs(t.Context(), nil, 0, 9)
			if err != nil || len(jobs) != 1 || jobs[0].Order.Lines[0].Quantity.Value != 61 || jobs[0].PlanRev != 3 {
				t.Errorf("%+v, %v; want one job for 61 pieces, amended twice", jobs, err)
			}
		})
	}
}

// A date that was said by its weekday keeps its meaning when the message is edited days later.
func TestEditedLaterMeansTheSameDay(t *testing.T) {
	p := newPlay(t)
	var days []string
	p.desk.Read = func(text string, o intake.Options) intake.Reading {
		days = append(days, string(o.Received))
		return bottest.Read(text, o)
	}
	at := p.Say(bottest.Rep, "", "48 tees, cotton, black, by Friday")
	bottest.Settle(t, p.desk)
	p.clock.Move(72 * time.Hour)
	p.Edit(bottest.Rep, at, "49 tees, cotton, black, by Friday")
	bottest.Settle(t, p.desk)
	if len(days) != 2 || days[0] != days[1] {
		t.Errorf("the request was read as of %q, want twice the day it was said", days)
	}
}
