package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot"
	"strikeoff/bot/bottest"
)

// order is a request that the toy shop reads.
func order(n int) string {
	return fmt.Sprintf("%d tees, cotton, navy, white front print, for Marsh Lane Choir", n)
}

// Ensure a minute of downtime with 30 requests is caught up, each answered once, in rooms and threads, and what was said before the bot
// ever came is left alone.
func TestDowntime(t *testing.T) {
	t.Parallel()
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	old := f.say(fakeRep, fakeOrders, order(1000))
	clock.Move(time.Minute) // well within the overlap
	d := bottest.NewDesk(newLedger(t), clock)
	w := &watch{}
	begin := func() (stop func()) {
		c := f.door(t, d, same)
		w.on(c)
		d.Doors = map[string]bot.Poster{Door: c}
		d.Roster = map[string]bot.Leads{Door: {Groups: []string{fakeLeadRole}}}
		return f.start(t, c)
	}
	stop := begin()
	first := f.say(fakeRep, fakeOrders, bottest.Request)
	f.await("the first request", func() bool { return len(w.all()) == 1 })
	bottest.Settle(t, d)
	stop()

	clock.Move(time.Second)
	var missed []*fakeMessage
	for i := range 30 {
		clock.Move(2 * time.Second)
		missed = append(missed, f.say(fakeRep, fakeOrders, order(i+1)))
	}
	inThread := f.say(fakeLead, first.ID, "printed")
	f.say(fakeRep, fakeQuiet, order(500))

	stop = begin()
	bottest.Settle(t, d)
	if slices.Contains(w.all(), messageKey(fakeOrders, old.ID)) {
		t.Error("a request from before the bot came was kept")
	}
	for i, m := range missed {
		if n := len(f.posts(m.ID)); n != 1 {
			t.Errorf("missed request %d has %d answers, want 1", i, n)
		}
	}
	if !slices.Contains(w.all(), messageKey(first.ID, inThread.ID)) {
		t.Error("what was said in the job's thread was not caught up")
	}
	if j, err := d.Job(t.Context(), 1); err != nil || j.State != bot.OnTest {
		t.Errorf("job 1 is %q, %v; want on test", j.State, err)
	}
	if n := len(f.posts(fakeQuiet)); n != 0 {
		t.Errorf("%d posts in a room that is not read", n)
	}
	jobs, err := d.Jobs(t.Context(), nil, 0, 100)
	if err != nil || len(jobs) != 31 {
		t.Errorf("%d jobs, %v; want 31", len(jobs), err)
	}
	// Once more: nothing is answered twice.
	stop()
	begin()
	bottest.Settle(t, d)
	for i, m := range missed {
		if n := len(f.posts(m.ID)); n != 1 {
			t.Errorf("after another start missed request %d has %d answers, want 1", i, n)
		}
	}
	if f.channels[missed[0].ID].Parent != fakeOrders {
		t.Error("the answer does not stand in a thread of the orders room")
	}
}

// Ensure a change made while the bot was away is seen, and a thread that fell asleep is looked at.
func TestChangedWhileAway(t *testing.T) {
	t.Parallel()
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	d := bottest.NewDesk(newLedger(t), clock)
	w := &watch{}
	begin := func() (stop func()) {
		c := f.door(t, d, func(c *Config) { c.OrdersRooms = nil })
		w.on(c)
		d.Doors = map[string]bot.Poster{Door: c}
		return f.start(t, c)
	}
	stop := begin()
	first, second := f.say(fakeRep, fakeOrders, bottest.Request), f.say(fakeRep, fakeOrders, bottest.Request)
	f.await("the requests", func() bool { return len(w.all()) == 2 })
	bottest.Settle(t, d)
	stop()
	clock.Move(time.Minute)
	f.edit(fakeOrders, first.ID, strings.Replace(bottest.Request, "72", "60", 1))
	f.say(fakeRep, second.ID, "make it 55")
	f.mu.Lock()
	f.channels[second.ID].archived = true
	f.mu.Unlock()
	begin()
	bottest.Settle(t, d)
	for id, want := range map[bot.JobID]string{1: "60 instead of 72", 2: "55 instead of 72"} {
		j, err := d.Job(t.Context(), id)
		if err != nil {
			t.Fatal(err)
		}
		var seen []string
		for _, m := range f.posts(j.Place.Thread) {
			seen = append(seen, rendered(m))
		}
		if !strings.Contains(strings.Join(seen, "\n"), want) {
			t.Errorf("job %d: no post says %q:\n%s", id, want, strings.Join(seen, "\n---\n"))
		}
	}
	if n := f.count("PATCH /channels/" + second.ID); n == 0 {
		t.Error("the sleeping thread was not touched")
	}
}

// Ensure what was said in a direct message while the bot was away is caught up, where a job is open there.
func TestDirectWhileAway(t *testing.T) {
	t.Parallel()
	f, d, chat, w, clock := stand(t, same)
	stop := f.start(t, chat)
	alone := func(m *fakeMessage) { m.Member = nil }
	f.say(fakeRep, fakeDM, bottest.Request, alone)
	f.await("the request", func() bool { return len(w.all()) == 1 })
	bottest.Settle(t, d)
	stop()
	clock.Move(time.Minute)
	m := f.say(fakeRep, fakeDM, order(48), alone)
	again := f.door(t, d, same)
	w.on(again)
	d.Doors = map[string]bot.Poster{Door: again}
	f.start(t, again)
	if got := w.all(); len(got) != 2 || got[1] != messageKey(fakeDM, m.ID) {
		t.Errorf("kept %q, want the second request too", got)
	}
}

// Ensure a history that may not be read, or cannot be for a while, does not end the catching up of the others.
func TestHistoryTrouble(t *testing.T) {
	t.Parallel()
	f, _, chat, w, _ := stand(t, func(c *Config) { c.OrdersRooms = []string{"999999", fakeOrders} })
	if err := chat.cfg.Desk.Ledger.SetCursor(t.Context(), Door, fakeOrders, "1"); err != nil {
		t.Fatal(err)
	}
	if err := chat.cfg.Desk.Ledger.SetCursor(t.Context(), Door, "999999", "1"); err != nil {
		t.Fatal(err)
	}
	m := f.say(fakeRep, fakeOrders, "missed")
	f.start(t, chat)
	if got := w.all(); !slices.Contains(got, messageKey(fakeOrders, m.ID)) {
		t.Errorf("kept %q, want the missed message in it", got)
	}
}

// Ensure two copies of the program on one ledger, both connected, answer each thing once.
func TestTwoGateways(t *testing.T) {
	t.Parallel()
	clock := bottest.NewClock()
	f := newFake(t, clock.Now)
	ledger := newLedger(t)
	desks := []*bot.Desk{bottest.NewDesk(ledger, clock), bottest.NewDesk(ledger, clock)}
	w := &watch{}
	for _, d := range desks {
		c := f.door(t, d, same)
		w.on(c)
		d.Doors = map[string]bot.Poster{Door: c}
		d.Roster = map[string]bot.Leads{Door: {Groups: []string{fakeLeadRole}}}
		d.Production = map[string]bot.Place{Door: {Door: Door, Room: fakeProduction}}
		f.start(t, c)
		go d.Run(t.Context())
	}
	if f.connected() != 2 {
		t.Fatalf("%d gateways, want 2", f.connected())
	}
	var said []*fakeMessage
	for i := range 20 {
		said = append(said, f.say(fakeRep, fakeOrders, order(i+1)))
	}
	for _, m := range said {
		f.await("an answer", func() bool { c := f.channels[m.ID]; return c != nil && len(c.messages) > 0 })
	}
	// Both hear the press; one answer is shown.
	f.press(f.overGateway(), fakeLead, "sign 1", f.threadOf(t, desks[0], 1))
	f.await("the sign-off", func() bool { j, err := desks[0].Job(t.Context(), 1); return err == nil && j.State == bot.Cleared })
	f.slash(f.overGateway(), fakeRep, fakeOrders, "jobs")
	f.await("the list", func() bool { a := f.alone[fakeRep]; return len(a) == 1 && a[0].Flags&flagLoading == 0 })
	time.Sleep(100 * time.Millisecond) // a second answer would come about now
	for i, m := range said {
		cards := 0
		for _, p := range f.posts(m.ID) {
			if len(p.Embeds) > 0 {
				cards++
			}
		}
		if cards != 1 {
			t.Errorf("request %d has %d cards, want 1", i, cards)
		}
	}
	if n := len(f.private(fakeRep)); n != 1 {
		t.Errorf("the list was shown %d times, want once", n)
	}
	if jobs, err := desks[1].Jobs(t.Context(), nil, 0, 100); err != nil || len(jobs) != 20 {
		t.Errorf("%d jobs, %v; want 20", len(jobs), err)
	}
	if got := w.all(); len(got) != 22 {
		t.Errorf("%d things were kept as fresh by the two, want 22", len(got))
	}
}

// threadOf is the thread of a job.
func (f *fake) threadOf(t *testing.T, d *bot.Desk, id bot.JobID) string {
	j, err := d.Job(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	return j.Place.Thread
}
