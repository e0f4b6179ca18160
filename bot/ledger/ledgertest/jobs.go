package ledgertest

import (
	"context"
	"errors"
	"slices"
	"sync"
	"testing"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var (
	lead = job.Actor{ID: "U2", Name: "Lennart", Role: job.Lead}
	desk = job.Actor{ID: "desk", Role: job.Desk}
)

func savedWhole(t *testing.T, b *bench) {
	b.keep("m")
	j := b.begin("m")
	got, err := b.Load(b.ctx, j.ID)
	b.ok(err)
	b.same(asJSON(got), asJSON(j), "the job")
	c := Step(j, at(1), job.Event{Kind: job.Printed, By: lead, PlanRev: 1}, job.Event{Kind: job.StepRead, By: lead, Step: "rub", Pass: true, Note: "«sound» \u2028"},
		job.Event{Kind: job.AlertSent, By: desk, Key: "k"}, job.Event{Kind: job.StepRead, By: lead, Step: "wash", Note: "bled <&>"})
	b.ok(b.Save(b.ctx, c))
	got, err = b.Load(b.ctx, j.ID)
	b.ok(err)
	b.same(asJSON(got), asJSON(*c.Job), "the job after its test")
	entries, err := b.History(b.ctx, j.ID)
	b.ok(err)
	if err := job.VerifyJob(got, entries); err != nil || len(entries) != 5 {
		t.Errorf("%d entries: %v", len(entries), err)
	}
	// Orders and plans come from different events, and each must be the last one's.
	other := got.Plan
	other.Summary = "Another plan."
	third := other
	third.Summary = "A third."
	for i, e := range []job.Event{
		{Kind: job.Amended, By: lead, Order: &rules.Order{Customer: "Invented Sailing Club"}, Plan: &other},
		{Kind: job.Picked, By: lead, Plan: &third, Chosen: rules.Chosen{Method: rules.DTF}},
		{Kind: job.Printed, By: lead, PlanRev: 3},
		{Kind: job.StepRead, By: lead, Step: "rub", Pass: true, Plan: &other}, // a plan that comes with a pass changes nothing
		{Kind: job.StepRead, By: lead, Step: "wash", Note: "bled", Plan: &other},
		{Kind: job.Printed, By: lead, PlanRev: 4},
		{Kind: job.RefusedIt, By: lead, Note: "too stiff", Plan: &third},
	} {
		c = Step(got, at(2+i), e)
		b.ok(b.Save(b.ctx, c))
		got, err = b.Load(b.ctx, j.ID)
		b.ok(err)
		b.same(asJSON(got), asJSON(*c.Job), "the job after "+string(e.Kind))
		jobs, err := b.Jobs(b.ctx, nil, 0, 1)
		b.ok(err)
		b.same(asJSON(jobs), asJSON([]job.Job{got}), "the job in a list")
	}
	entries, err = b.History(b.ctx, j.ID)
	b.ok(err)
	b.ok(job.VerifyJob(got, entries))
	_, err = b.Load(b.ctx, 999)
	b.is(err, job.ErrNoJob, "loading what is not there")
	_, err = b.History(b.ctx, 999)
	b.is(err, job.ErrNoJob, "the history of what is not there")
}

func staleKeepsNothing(t *testing.T, b *bench) {
	b.keep("m", "n")
	j := b.begin("m")
	closing := job.Event{Kind: job.ClosedIt, By: lead, Note: "gone"}
	b.ok(b.Save(b.ctx, Step(j, at(1), closing)))
	late := Step(j, at(2), closing) // made from the job before
	late.Done, late.Out, late.Next = "n", []job.Outbound{Post("p", "room", "", noon)}, at(9)
	b.is(b.Save(b.ctx, late), job.ErrStale, "saving over a newer revision")
	b.same(b.take(at(3), 9), []string{"m", "n"}, "n is not done")
	b.same(keysOf(b.post(at(3), 9)), []string(nil), "nothing goes out")
	due, err := b.Due(b.ctx, at(99), 9)
	b.ok(err)
	b.same(due, []job.ID(nil), "nothing is due")
	entries, err := b.History(b.ctx, j.ID)
	b.ok(err)
	if len(entries) != 2 {
		t.Errorf("%d entries, want 2", len(entries))
	}
	b.is(b.Save(b.ctx, NewJob(j.ID, "n")), job.ErrStale, "opening what is open")
	ghost := Step(j, at(2), closing)
	gj := *ghost.Job
	gj.ID, ghost.Job, ghost.Entries[0].Job = 77, &gj, 77
	b.is(b.Save(b.ctx, ghost), job.ErrStale, "changing what is not there")
}

func doneOnce(t *testing.T, b *bench) {
	b.keep("m")
	id, err := b.Number(b.ctx)
	b.ok(err)
	c := NewJob(id, "m")
	c.Done, c.Out = "m", []job.Outbound{Post("p", "room", "", noon)}
	b.ok(b.Save(b.ctx, c))
	b.is(b.Save(b.ctx, c), job.ErrDone, "saving again")
	other := NewJob(id+1, "m")
	other.Done, other.Out = "m", []job.Outbound{Post("q", "room", "", noon)}
	b.is(b.Save(b.ctx, other), job.ErrDone, "handling the same message again")
	_, err = b.Load(b.ctx, id+1)
	b.is(err, job.ErrNoJob, "the second job")
	b.same(keysOf(b.post(noon, 9)), []string{"p"}, "one post")
	b.same(b.take(at(60), 9), []string(nil), "nothing is left to do")
	b.ok(b.Save(b.ctx, job.Change{Done: "never kept"}))
	b.is(b.Save(b.ctx, job.Change{Done: "never kept"}), job.ErrDone, "doing again what was never kept")
	if fresh, err := b.Keep(b.ctx, Inbound("never kept")); err != nil || fresh {
		t.Errorf("keeping what is done: fresh %v, %v", fresh, err)
	}
}

func senseless(t *testing.T, b *bench) {
	c := NewJob(1, "m")
	gap := c
	gap.Entries = nil
	foreign := NewJob(1, "m")
	foreign.Entries[0].Job = 2
	for name, bad := range map[string]job.Change{
		"a revision without its entry": gap,
		"entries without their job":    {Entries: c.Entries},
		"another job's entry":          foreign,
		"a post without a key":         {Out: []job.Outbound{Post("", "room", "", noon)}},
		"a job without a number":       {Job: &job.Job{}},
	} {
		if err := b.Save(b.ctx, bad); err == nil {
			t.Errorf("%s was saved", name)
		}
	}
	if jobs, err := b.Jobs(b.ctx, nil, 0, 9); err != nil || len(jobs) != 0 {
		t.Errorf("%d jobs, %v", len(jobs), err)
	}
}

func found(t *testing.T, b *bench) {
	b.keep("m")
	first := b.begin("m")
	again := NewJob(first.ID+1, "m")
	again.Entries[0].Message = "n"
	b.ok(b.Save(b.ctx, again))
	id, err := b.InThread(b.ctx, first.Place)
	b.ok(err)
	b.same(id, first.ID+1, "the newest job of the thread")
	elsewhere := first.Place
	elsewhere.Room = "others"
	_, err = b.InThread(b.ctx, elsewhere)
	b.is(err, job.ErrNoJob, "a thread of another room")
	id, err = b.FromMessage(b.ctx, "m")
	b.ok(err)
	b.same(id, first.ID, "the job of the message")
	_, err = b.FromMessage(b.ctx, "never")
	b.is(err, job.ErrNoJob, "a message that opened none")
	// Parts of a place do not run together.
	odd := NewJob(first.ID+2, "o")
	p := job.Place{Door: "a b", Room: "c", Thread: "d"}
	odd.Job.Place = p
	b.ok(b.Save(b.ctx, odd))
	_, err = b.InThread(b.ctx, job.Place{Door: "a", Room: "b c", Thread: "d"})
	b.is(err, job.ErrNoJob, "a place that only looks alike")
}

func listed(t *testing.T, b *bench) {
	var ids []job.ID
	for i := range 12 {
		j := b.begin("m" + string(rune('a'+i)))
		ids = append([]job.ID{j.ID}, ids...)
		if i%3 == 0 {
			b.ok(b.Save(b.ctx, Step(j, at(1), job.Event{Kind: job.ClosedIt, By: lead, Note: "gone"})))
		}
	}
	list := func(states []job.State, below job.ID, n int) []job.ID {
		t.Helper()
		jobs, err := b.Jobs(b.ctx, states, below, n)
		b.ok(err)
		var out []job.ID
		for _, j := range jobs {
			out = append(out, j.ID)
			if len(states) > 0 && !slices.Contains(states, j.State) {
				t.Errorf("job %d is %s, not in %v", j.ID, j.State, states)
			}
		}
		return out
	}
	b.same(list(nil, 0, 99), ids, "all")
	b.same(list(nil, 0, 3), ids[:3], "the newest three")
	b.same(list(nil, ids[2], 2), ids[3:5], "two below")
	b.same(list([]job.State{job.Closed}, 0, 99), []job.ID{ids[2], ids[5], ids[8], ids[11]}, "the closed")
	b.same(list([]job.State{job.Closed, job.TestDue, job.Closed}, 0, 99), ids, "both states, one named twice")
	b.same(list([]job.State{job.Closed}, ids[5], 1), []job.ID{ids[8]}, "the closed below")
	b.same(list([]job.State{job.Cleared}, 0, 9), []job.ID(nil), "a state that none is in")
	b.same(list(nil, ids[11], 9), []job.ID(nil), "below the first")
	b.same(list(nil, 1<<40, 2), ids[:2], "below a number far off")
}

func dueList(t *testing.T, b *bench) {
	var jobs []job.Job
	for i, next := range []int{30, 10, 20, 0} {
		id, err := b.Number(b.ctx)
		b.ok(err)
		c := NewJob(id, "m"+string(rune('a'+i)))
		if next != 0 {
			c.Next = at(next)
		}
		b.ok(b.Save(b.ctx, c))
		jobs = append(jobs, *c.Job)
	}
	due := func(minutes, n int) []job.ID {
		t.Helper()
		ids, err := b.Due(b.ctx, at(minutes), n)
		b.ok(err)
		return ids
	}
	b.same(due(9, 9), []job.ID(nil), "before the first")
	b.same(due(10, 9), []job.ID{jobs[1].ID}, "at its time")
	b.same(due(99, 9), []job.ID{jobs[1].ID, jobs[2].ID, jobs[0].ID}, "soonest first")
	b.same(due(99, 2), []job.ID{jobs[1].ID, jobs[2].ID}, "at most two")
	moved := Step(jobs[1], at(1), job.Event{Kind: job.AlertSent, By: desk, Key: "k"})
	moved.Next = at(40)
	b.ok(b.Save(b.ctx, moved))
	b.ok(b.Save(b.ctx, Step(jobs[2], at(1), job.Event{Kind: job.ClosedIt, By: lead, Note: "gone"})))
	b.same(due(99, 9), []job.ID{jobs[0].ID, jobs[1].ID}, "one moved, one never again")
}

func cursors(t *testing.T, b *bench) {
	get := func(door, room string) string {
		t.Helper()
		at, err := b.Cursor(b.ctx, door, room)
		b.ok(err)
		return at
	}
	b.same(get("slack", "C1"), "", "before any")
	b.ok(b.SetCursor(b.ctx, "slack", "C1", "17.1"))
	b.ok(b.SetCursor(b.ctx, "slack", "C1", "17.2"))
	b.ok(b.SetCursor(b.ctx, "slack", "C2", "5"))
	b.same(get("slack", "C1"), "17.2", "the last")
	b.same(get("slack", "C2"), "5", "another room")
	b.same(get("discord", "C1"), "", "another door")
}

func numbers(t *testing.T, b *bench) {
	var mu sync.Mutex
	seen := map[job.ID]bool{}
	together(16, func(int) {
		for range 10 {
			id, err := b.Number(b.ctx)
			mu.Lock()
			if err != nil || id <= 0 || seen[id] {
				t.Errorf("number %d, given before: %v, error %v", id, seen[id], err)
			}
			seen[id] = true
			mu.Unlock()
		}
	})
	if len(seen) != 160 {
		t.Errorf("%d different numbers, want 160", len(seen))
	}
	l := b.reopen()
	id, err := l.Number(b.ctx)
	if err != nil || seen[id] {
		t.Errorf("after a restart: number %d, given before: %v, error %v", id, seen[id], err)
	}
	// Somebody alone gets one number after the other, and loses none over a message that turns out to be done.
	first := NewJob(id, "m")
	first.Done = "m"
	b.ok(l.Save(b.ctx, first))
	second, err := l.Number(b.ctx)
	if err != nil || second != id+1 {
		t.Errorf("after number %d comes %d, %v", id, second, err)
	}
	id = second
	again := NewJob(id, "m")
	again.Done = "m"
	b.is(l.Save(b.ctx, again), job.ErrDone, "a second job of one message")
	if next, err := l.Number(b.ctx); err != nil || next != id {
		t.Errorf("the next number is %d, %v; want %d", next, err, id)
	}
}

func oneSaverWins(t *testing.T, b *bench) {
	j := b.begin("m")
	var mu sync.Mutex
	won, stale := 0, 0
	together(16, func(i int) {
		c := Step(j, at(1), job.Event{Kind: job.AlertSent, By: desk, Key: string(rune('a' + i))})
		c.Out = []job.Outbound{Post("p"+string(rune('a'+i)), "room", "", noon)}
		err := b.Save(b.ctx, c)
		mu.Lock()
		defer mu.Unlock()
		switch {
		case err == nil:
			won++
		case errors.Is(err, job.ErrStale):
			stale++
		default:
			t.Error(err)
		}
	})
	if won != 1 || stale != 15 {
		t.Errorf("%d won and %d were stale, want 1 and 15", won, stale)
	}
	if outs := b.post(noon, 99); len(outs) != 1 {
		t.Errorf("%d posts, want the winner's", len(outs))
	}
	got, err := b.Load(b.ctx, j.ID)
	b.ok(err)
	entries, err := b.History(b.ctx, j.ID)
	b.ok(err)
	if err := job.VerifyJob(got, entries); err != nil {
		t.Error(err)
	}
}

func contextEnded(t *testing.T, b *bench) {
	ctx, cancel := context.WithDeadline(b.ctx, time.Unix(1, 0))
	defer cancel()
	if _, err := b.Keep(ctx, Inbound("a")); err == nil {
		t.Error("a message was kept after its deadline")
	}
	_, err := b.Load(ctx, 1)
	b.is(err, job.ErrDown, "loading after the deadline")
	b.is(b.Save(ctx, NewJob(1, "m")), job.ErrDown, "saving after the deadline")
	b.same(b.take(noon, 9), []string(nil), "nothing was kept")
}
