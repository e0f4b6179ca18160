package slack

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"strikeoff/bot/bottest"
	"strikeoff/bot/slack/fake"
)

// Ensure that 30 messages said in 60 s of downtime, in the channel and in threads, edits among them, are answered when the door is back, each
// once, though some of the pages are refused for a moment.
func TestDowntime(t *testing.T) {
	talking(t, func(k *talk) {
		before := k.Say(bottest.Rep, "", bottest.Request)
		bottest.Settle(t, k.desk)
		k.clock.Move(time.Minute)
		k.down()
		k.slack.Hold(true)

		var requests []string
		said := 0
		say := func(thread, text string) string {
			k.clock.Move(2 * time.Second)
			ts, d := k.slack.Say(orders, repID, thread, text)
			d.Wait()
			said++
			return ts
		}
		for i := range 14 {
			ts := say("", fmt.Sprintf("%d tees in tri-blend, navy, white front print, for Larkspur Rowing", 100+i))
			requests = append(requests, ts)
			say(ts, fmt.Sprintf("make it %d", 200+i))
		}
		say(before, "make it 61") // in the thread of an older job
		mended := say("", "good morning")
		k.slack.Edit(orders, mended, "good evening").Wait()
		if said != 30 {
			t.Fatalf("%d messages were said, want 30", said)
		}

		k.slack.Hold(false)
		k.slack.Fail("conversations.history", fake.Fault{RetryAfter: 1})
		k.run()
		caught := func() bool {
			h, err := k.desk.Health(t.Context())
			return err == nil && h.Inbox >= 30
		}
		k.until("all 30 were kept", caught)
		bottest.Settle(t, k.desk)
		for i, ts := range requests {
			k.sees(ts, fmt.Sprintf("%d t-shirts", 200+i))
			k.sees(ts, fmt.Sprintf("%d instead of %d", 200+i, 100+i))
		}
		k.sees(before, "61 instead of 72")
		posts := len(k.Seen(before))
		if err := k.door.CatchUp(t.Context()); err != nil { // and once more: nothing is answered twice
			t.Fatal(err)
		}
		k.down()
		k.run()
		k.quiet()
		bottest.Settle(t, k.desk)
		if now := len(k.Seen(before)); now != posts {
			t.Errorf("%d posts in the thread, and %d after catching up again", posts, now)
		}
		if _, err := k.desk.Job(t.Context(), 16); err == nil {
			t.Error("there is a sixteenth job for fifteen requests")
		}
		if seen := k.Seen(mended); len(seen) > 0 {
			t.Errorf("ordinary talk was answered: %q", seen)
		}
	})
}

// begun waits until the door has marked where its hearing begins.
func (s *stage) begun() {
	s.t.Helper()
	s.until("the first catching up is over", func() bool {
		at, err := s.desk.Ledger.Cursor(s.t.Context(), Name, orders)
		return err == nil && at != ""
	})
}

// Ensure that a channel that was never heard before begins now: its past is not answered.
func TestFirstRunAnswersNothingOld(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(newLedger(t), clock)
	slack := newFake(t, clock.Now, time.Second)
	slack.Hold(true)
	_, lost := slack.Say(orders, repID, "", "old talk")
	lost.Wait()
	slack.Hold(false)
	clock.Move(time.Second)
	door, err := New(d, Config{BotToken: botToken, SigningSecret: signing, Orders: []string{orders}, APIURL: slack.APIURL(), Now: clock.Now})
	if err != nil {
		t.Fatal(err)
	}
	for range 2 { // the second time the old talk is within the overlap, and stands before the mark's beginning
		if err := door.CatchUp(t.Context()); err != nil {
			t.Fatal(err)
		}
		if got := kept(t, d.Ledger, clock.Now()); len(got) > 0 {
			t.Errorf("kept %+v", got)
		}
	}
}

// Ensure that pages are read to the end, oldest first.
func TestPages(t *testing.T) {
	clock := bottest.NewClock()
	d := bottest.NewDesk(newLedger(t), clock)
	s := open(t, d, overHTTP, nil)
	s.begun()
	s.down()
	s.slack.Hold(true)
	clock.Move(time.Minute)
	const n = 450 // three pages
	for i := range n {
		_, lost := s.slack.Say(orders, repID, "", fmt.Sprintf("message %d", i))
		lost.Wait()
	}
	s.slack.Hold(false)
	if err := s.door.CatchUp(t.Context()); err != nil {
		t.Fatal(err)
	}
	got := kept(t, d.Ledger, clock.Now())
	if len(got) != n {
		t.Fatalf("%d messages, want %d", len(got), n)
	}
	for i, in := range got {
		if in.Text != fmt.Sprintf("message %d", i) {
			t.Fatalf("message %d is %q", i, in.Text)
		}
	}
	if pages := len(s.slack.Calls("conversations.history")); pages < 3 {
		t.Errorf("%d pages were read", pages)
	}
}

// Ensure that catching up goes on past a channel that cannot be read, and says so.
func TestCatchUpPastTrouble(t *testing.T) {
	s, clock := hearing(t, func(c *Config) { c.Orders = []string{orders, elsewhere} })
	s.until("the first catching up is over", func() bool {
		a, _ := s.desk.Ledger.Cursor(t.Context(), Name, orders)
		b, _ := s.desk.Ledger.Cursor(t.Context(), Name, elsewhere)
		return a != "" && b != ""
	})
	s.slack.Hold(true)
	_, lost := s.slack.Say(orders, repID, "", "72 tees")
	lost.Wait()
	s.slack.Hold(false)
	err := s.door.CatchUp(t.Context())
	if err == nil || !strings.Contains(err.Error(), elsewhere) || !strings.Contains(err.Error(), "not_in_channel") {
		t.Errorf("error %v", err)
	}
	s.one(clock)
}

// Ensure that where no orders channels are named, every channel that the app is in is heard and caught up, direct conversations too.
func TestCatchUpEverywhere(t *testing.T) {
	s, clock := hearing(t, func(c *Config) { c.Orders = nil })
	s.begun()
	s.until("the production room is begun", func() bool {
		at, err := s.desk.Ledger.Cursor(t.Context(), Name, production)
		return err == nil && at != ""
	})
	_, d := s.slack.Say(production, repID, "", "heard at once")
	s.settle(d)
	s.one(clock)
	s.slack.Hold(true)
	for _, room := range []string{orders, production, elsewhere} {
		_, lost := s.slack.Say(room, repID, "", "missed in "+room)
		lost.Wait()
	}
	s.slack.Hold(false)
	if err := s.door.CatchUp(t.Context()); err != nil {
		t.Fatal(err)
	}
	got := kept(t, s.desk.Ledger, clock.Now())
	if len(got) != 2 {
		t.Fatalf("kept %+v", got)
	}
	for _, in := range got {
		if in.Text != "missed in "+in.Place.Room || in.Place.Room == elsewhere {
			t.Errorf("kept %+v", in)
		}
	}
}

// Ensure that marks never pass a message that was not kept.
func TestMarks(t *testing.T) {
	var m marks
	m.saw("C1", "5.000000")
	m.missed("C1", "7.000000")
	m.missed("C1", "6.000000")
	m.saw("C1", "9.000000")
	if got := m.moved()["C1"]; got != "6.000000" {
		t.Errorf("the mark is %q, want that of the oldest message that was not kept", got)
	}
	m.caughtUp("C1", "7.000000") // of an earlier state: not the oldest
	if m.lost()["C1"] != "6.000000" {
		t.Errorf("lost: %v", m.lost())
	}
	m.caughtUp("C1", "6.000000")
	if got := m.moved()["C1"]; got != "9.000000" {
		t.Errorf("the mark is %q", got)
	}
	m.written("C1", "9.000000")
	m.saw("C1", "8.000000") // out of order
	if len(m.moved()) != 0 {
		t.Errorf("moved: %v", m.moved())
	}
}
