package bot_test

import (
	"context"
	"errors"
	"testing"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
	"strikeoff/bot/job"
	"strikeoff/rules"
)

// handedIn is an order as a program hands it in.
func handedIn(key, text string) bot.Inbound {
	return bot.Inbound{Key: key, Sort: bot.Shortcut, Place: bot.Place{Door: bottest.Door, Room: "orders", Thread: key}, Anchor: key, Text: text,
		By: bot.Person{ID: "source:till", Name: "till", Bot: true}}
}

const anOrder = "72 tees in tri-blend, navy, white front print, for Larkspur Rowing"

// An order from a program has its job by the time it is acknowledged, with nothing left in the inbox; handed in again it changes nothing and
// takes no number.
func TestOrderFromAProgramIsAnsweredAtOnce(t *testing.T) {
	f := &flaky{Ledger: openBolt(t)}
	clock := bottest.NewClock()
	d := bottest.NewDesk(f, clock)
	bottest.NewPlatform(t, d)
	for i, want := range []bool{true, false, false} {
		if fresh, err := d.Keep(t.Context(), handedIn("till:1", anOrder)); err != nil || fresh != want {
			t.Fatalf("handed in %d times: fresh %v, %v", i+1, fresh, err)
		}
	}
	id, err := f.FromMessage(t.Context(), "till:1")
	if err != nil {
		t.Fatal(err)
	}
	j, err := f.Load(t.Context(), id)
	if err != nil || j.Text != anOrder || j.State != job.TestDue {
		t.Errorf("the job is %+v, %v", j, err)
	}
	if h, err := f.Health(t.Context(), clock.Now()); err != nil || h.Inbox != 0 {
		t.Errorf("%d wait in the inbox, %v", h.Inbox, err)
	}
	if fresh, err := d.Keep(t.Context(), handedIn("till:2", anOrder)); err != nil || !fresh {
		t.Fatal(fresh, err)
	}
	if next, err := f.FromMessage(t.Context(), "till:2"); err != nil || next != id+1 {
		t.Errorf("the next order is job %d, %v; want %d", next, err, id+1)
	}
}

// Where the ledger fails, before the deed or after it, the program is told that nothing is known to be kept, and handing the order in again
// makes one job of it.
func TestOrderFromAProgramThroughTrouble(t *testing.T) {
	for _, after := range []bool{false, true} {
		for call := 1; call <= 2; call++ { // the number, the save
			f := &flaky{Ledger: openBolt(t), fail: call, after: after}
			d := bottest.NewDesk(f, bottest.NewClock())
			if fresh, err := d.Keep(t.Context(), handedIn("till:1", anOrder)); !errors.Is(err, job.ErrDown) || fresh {
				t.Errorf("call %d fails, after the deed %v: fresh %v, %v; want ErrDown", call, after, fresh, err)
			}
			fresh, err := d.Keep(t.Context(), handedIn("till:1", anOrder))
			if err != nil || fresh == (after && call == 2) {
				t.Errorf("call %d failed, after the deed %v: handed in again it is fresh %v, %v", call, after, fresh, err)
			}
			bottest.Settle(t, d)
			if jobs, err := f.Jobs(t.Context(), nil, 0, 9); err != nil || len(jobs) != 1 {
				t.Errorf("call %d failed, after the deed %v: %d jobs, %v", call, after, len(jobs), err)
			}
		}
	}
}

// An order that cannot be planned is kept for the inbox, where it is tried again.
func TestOrderThatCannotBePlannedIsKept(t *testing.T) {
	l := openBolt(t)
	clock := bottest.NewClock()
	d := bottest.NewDesk(l, clock)
	bottest.NewPlatform(t, d)
	broken := true
	d.Decide = func(o rules.Order, s rules.Shop, r rules.Record) rules.Plan {
		if broken {
			panic("planted")
		}
		return bottest.Decide(o, s, r)
	}
	if fresh, err := d.Keep(t.Context(), handedIn("till:1", anOrder)); err != nil || !fresh {
		t.Fatal(fresh, err)
	}
	if h, err := l.Health(context.Background(), clock.Now()); err != nil || h.Inbox != 1 {
		t.Fatalf("%d wait in the inbox, %v; want 1", h.Inbox, err)
	}
	broken = false
	bottest.Settle(t, d)
	if jobs, err := l.Jobs(t.Context(), nil, 0, 9); err != nil || len(jobs) != 1 {
		t.Errorf("%d jobs, %v; want 1", len(jobs), err)
	}
}
