package ledgertest

import (
	"testing"
	"time"

	"strikeoff/bot/job"
)

func placeInOrder(t *testing.T, b *bench) {
	b.out(Post("a1", "A", "", noon), Post("a2", "A", "", noon), Post("b1", "B", "", noon.Add(time.Second)))
	got := b.post(at(1), 9)
	want := Post("a1", "A", "", noon)
	want.Tries = 1
	if len(got) != 2 {
		t.Fatalf("leased %v, want a1 and b1", keysOf(got))
	}
	b.same(asJSON(got[0]), asJSON(want), "the first, whole")
	b.same(keysOf(got), []string{"a1", "b1"}, "one a place, the oldest first")
	b.same(keysOf(b.post(at(1), 9)), []string(nil), "a2 waits for a1")
	b.ok(b.Sent(b.ctx, "b1", 1, ""))
	b.same(keysOf(b.post(at(1), 9)), []string(nil), "a2 still waits")
	b.ok(b.Sent(b.ctx, "a1", 1, ""))
	b.same(keysOf(b.post(at(1), 9)), []string{"a2"}, "now it is a2's turn")
	b.same(keysOf(b.post(at(1).Add(lease), 9)), []string{"a2"}, "and again when its lease ran out")
}

func slotKeepsNewest(t *testing.T, b *bench) {
	b.out(Post("card1", "A", "card", noon), Post("text", "A", "", noon), Post("card2", "A", "card", noon), Post("card3", "A", "card", noon))
	b.same(keysOf(b.post(noon, 9)), []string{"text"}, "the older cards are dropped")
	b.ok(b.Sent(b.ctx, "text", 1, ""))
	b.same(keysOf(b.post(noon, 9)), []string{"card3"}, "the newest")
	// While one is leased it cannot be dropped: the newer waits for it.
	b.out(Post("card4", "A", "card", noon))
	b.same(keysOf(b.post(noon, 9)), []string(nil), "card4 waits for card3")
	b.ok(b.Sent(b.ctx, "card3", 1, "ref3"))
	got := b.post(noon, 9)
	if len(got) != 1 || got[0].Key != "card4" || got[0].Ref != "ref3" {
		t.Errorf("got %+v, want card4 with ref3", got)
	}
	// One whose lease ran out is dropped for a newer one.
	b.out(Post("card5", "A", "card", noon))
	got = b.post(noon.Add(lease), 9)
	if len(got) != 1 || got[0].Key != "card5" || got[0].Ref != "ref3" {
		t.Errorf("got %+v, want card5 with ref3", got)
	}
	b.is(b.Sent(b.ctx, "card4", 1, "late"), job.ErrNotMine, "acknowledging what was dropped")
	// One that is to be tried again makes way too.
	b.out(Post("card6", "A", "card", noon))
	b.ok(b.Retry(b.ctx, "card5", 1, at(60), "busy"))
	b.same(keysOf(b.post(at(2), 9)), []string{"card6"}, "card6 instead of another try of card5")
	b.ok(b.Retry(b.ctx, "card6", 1, at(60), "busy"))
	b.out(Post("card7", "A", "card", at(3)))
	b.same(keysOf(b.post(at(3), 9)), []string{"card7"}, "card7 instead of card6, which waits for another try")
}

func slotRemembers(t *testing.T, b *bench) {
	b.out(Post("a1", "A", "card", noon), Post("b1", "B", "card", noon))
	b.same(len(b.post(noon, 9)), 2, "leased")
	b.ok(b.Sent(b.ctx, "a1", 1, "ref-a"))
	b.ok(b.Sent(b.ctx, "b1", 1, "ref-b"))
	b.out(Post("a2", "A", "card", noon), Post("b2", "B", "card", at(1)), Post("b3", "B", "other", at(2)))
	got := b.post(at(1), 9)
	if len(got) != 2 || got[0].Ref != "ref-a" || got[1].Ref != "ref-b" {
		t.Fatalf("got %+v, want ref-a and ref-b: a slot belongs to its place", got)
	}
	b.ok(b.Sent(b.ctx, "a2", 1, "")) // a door that says nothing changes nothing
	b.ok(b.Sent(b.ctx, "b2", 1, "ref-b2"))
	b.out(Post("a3", "A", "card", at(1)), Post("b4", "B", "card", at(3)))
	got = b.post(at(3), 9)
	b.same(keysOf(got), []string{"a3", "b3"}, "leased")
	b.same([]string{got[0].Ref, got[1].Ref}, []string{"ref-a", ""}, "refs")
	b.ok(b.Sent(b.ctx, "b3", 1, "x"))
	got = b.post(at(3), 9)
	if len(got) != 1 || got[0].Ref != "ref-b2" {
		t.Errorf("got %+v, want ref-b2", got)
	}
}

func staleAttempt(t *testing.T, b *bench) {
	b.out(Post("a", "A", "", noon))
	b.post(noon, 1)
	got := b.post(noon.Add(lease), 1)
	if len(got) != 1 || got[0].Tries != 2 {
		t.Fatalf("got %+v, want the second attempt", got)
	}
	b.is(b.Sent(b.ctx, "a", 1, "x"), job.ErrNotMine, "the first attempt's acknowledgement")
	b.is(b.Retry(b.ctx, "a", 1, at(9), "x"), job.ErrNotMine, "the first attempt's failure")
	b.ok(b.Sent(b.ctx, "a", 2, "x"))
	b.ok(b.Sent(b.ctx, "a", 2, "x")) // a repeat is harmless
	b.is(b.Sent(b.ctx, "a", 1, "x"), job.ErrNotMine, "the first attempt, later still")
	b.is(b.Retry(b.ctx, "a", 2, at(9), "x"), job.ErrNotMine, "trying again what went out")
	b.is(b.Sent(b.ctx, "never", 1, ""), job.ErrNotFound, "what was never saved")
}

func retryWaits(t *testing.T, b *bench) {
	b.out(Post("a1", "A", "", noon), Post("a2", "A", "", noon), Post("b1", "B", "", noon))
	b.post(noon, 9)
	b.ok(b.Retry(b.ctx, "a1", 1, at(10), "the platform says slow down"))
	b.ok(b.Sent(b.ctx, "b1", 1, ""))
	b.same(keysOf(b.post(at(9), 9)), []string(nil), "a2 does not pass a1")
	b.is(b.Sent(b.ctx, "a1", 1, ""), job.ErrNotMine, "acknowledging what was given back")
	got := b.post(at(10), 9)
	if len(got) != 1 || got[0].Key != "a1" || got[0].Tries != 2 {
		t.Errorf("got %+v, want a1 at its second attempt", got)
	}
}

func asideLetsPass(t *testing.T, b *bench) {
	b.out(Post("a1", "A", "", noon), Post("a2", "A", "", noon))
	b.post(noon, 9)
	b.ok(b.Retry(b.ctx, "a1", 1, time.Time{}, "the room is gone"))
	b.same(keysOf(b.post(noon, 9)), []string{"a2"}, "a2 passes")
	h, err := b.Health(b.ctx, noon)
	b.ok(err)
	if h.SetAside != 1 || h.Outbox != 1 {
		t.Errorf("health counts %d aside and %d waiting, want 1 and 1", h.SetAside, h.Outbox)
	}
	b.out(Post("a1", "A", "", noon))
	b.ok(b.Sent(b.ctx, "a2", 1, ""))
	b.same(keysOf(b.post(at(60), 9)), []string(nil), "what is aside stays aside")
}

func savedOnce(t *testing.T, b *bench) {
	b.out(Post("a", "A", "", noon), Post("a", "A", "", noon))
	b.out(Post("a", "B", "", noon))
	b.same(keysOf(b.post(noon, 9)), []string{"a"}, "once")
	b.ok(b.Sent(b.ctx, "a", 1, ""))
	b.out(Post("a", "A", "", noon))
	b.same(keysOf(b.post(at(60), 9)), []string(nil), "not again")
}

func postWaits(t *testing.T, b *bench) {
	b.out(Post("later", "A", "", at(30)), Post("now", "A", "", noon))
	b.same(keysOf(b.post(noon.Add(-time.Millisecond), 9)), []string(nil), "before its time")
	b.same(keysOf(b.post(noon, 9)), []string{"now"}, "what is to come does not hold up what is due")
	b.ok(b.Sent(b.ctx, "now", 1, ""))
	b.same(keysOf(b.post(at(29), 9)), []string(nil), "not yet")
	b.same(keysOf(b.post(at(30), 9)), []string{"later"}, "at its time")
	// One that comes in with an earlier time does not pass the one that is leased.
	b.out(Post("earlier", "A", "", at(20)))
	b.same(keysOf(b.post(at(30), 9)), []string(nil), "none beside the leased one")
}

func restart(t *testing.T, b *bench) {
	b.keep("m", "n", "aside")
	j := b.begin("m")
	c := Step(j, at(1), job.Event{Kind: job.Printed, By: lead, PlanRev: 1})
	c.Done, c.Next, c.Out = "m", at(60), []job.Outbound{Post("p", "A", "card", noon), Post("q", "A", "", noon)}
	b.ok(b.Save(b.ctx, c))
	b.post(noon, 1)
	b.ok(b.Sent(b.ctx, "p", 1, "ref"))
	b.ok(b.SetCursor(b.ctx, "slack", "C1", "17"))
	b.ok(b.Put(b.ctx, "aside", time.Time{}))

	l := b.reopen()
	a := &bench{T: t, Ledger: l, ctx: b.ctx}
	got, err := a.Load(a.ctx, j.ID)
	a.ok(err)
	a.same(asJSON(got), asJSON(*c.Job), "the job")
	entries, err := a.History(a.ctx, j.ID)
	a.ok(err)
	a.ok(job.VerifyJob(got, entries))
	a.same(a.take(noon, 9), []string{"n"}, "what is left to do")
	a.is(a.Save(a.ctx, job.Change{Done: "m"}), job.ErrDone, "doing m again")
	if fresh, err := a.Keep(a.ctx, Inbound("m")); err != nil || fresh {
		t.Errorf("redelivery of m: fresh %v, %v", fresh, err)
	}
	a.out(Post("p2", "A", "card", noon), Post("p", "A", "card", noon))
	a.same(keysOf(a.post(noon, 9)), []string{"q"}, "what must go out")
	a.ok(a.Sent(a.ctx, "q", 1, ""))
	outs := a.post(noon, 9)
	if len(outs) != 1 || outs[0].Key != "p2" || outs[0].Ref != "ref" {
		t.Errorf("got %+v, want p2 with ref", outs)
	}
	due, err := a.Due(a.ctx, at(60), 9)
	a.ok(err)
	a.same(due, []job.ID{j.ID}, "due")
	at, err := a.Cursor(a.ctx, "slack", "C1")
	a.ok(err)
	a.same(at, "17", "the cursor")
	id, err := a.InThread(a.ctx, j.Place)
	a.ok(err)
	a.same(id, j.ID, "the thread's job")
	h, err := a.Health(a.ctx, noon)
	a.ok(err)
	a.same([]int{h.Inbox, h.Outbox, h.SetAside}, []int{1, 1, 1}, "what waits")
}

func health(t *testing.T, b *bench) {
	h, err := b.Health(b.ctx, noon)
	b.ok(err)
	if h.Kind == "" || h.Inbox+h.Outbox+h.SetAside != 0 || h.InboxAge != 0 || h.OutboxAge != 0 {
		t.Errorf("an empty ledger: %+v", h)
	}
	b.keep("a", "b")
	b.out(Post("p", "A", "", noon), Post("q", "A", "", noon), Post("later", "B", "", at(300)))
	h, err = b.Health(b.ctx, at(2))
	b.ok(err)
	if h.Inbox != 2 || h.Outbox != 3 || h.InboxAge != 2*time.Minute || h.OutboxAge != 2*time.Minute {
		t.Errorf("health %+v, want 2 in for 2 min, 3 out for 2 min", h)
	}
	b.take(at(2), 1)
	b.ok(b.Save(b.ctx, job.Change{Done: "a"}))
	b.ok(b.Save(b.ctx, job.Change{Done: "b"}))
	h, err = b.Health(b.ctx, at(3))
	b.ok(err)
	if h.Inbox != 0 || h.InboxAge != 0 {
		t.Errorf("health %+v after all was done", h)
	}
}
