package ledgertest

import (
	"strings"
	"sync"
	"testing"
	"time"

	"strikeoff/bot/job"
)

func keptOnce(t *testing.T, b *bench) {
	b.keep("a")
	fresh, err := b.Keep(b.ctx, Inbound("a"))
	b.ok(err)
	if fresh {
		t.Error("a redelivery was fresh")
	}
	b.same(b.take(noon, 9), []string{"a"}, "taken")
	fresh, err = b.Keep(b.ctx, Inbound("a"))
	b.ok(err)
	if fresh {
		t.Error("a redelivery while it was handled was fresh")
	}
	b.ok(b.Save(b.ctx, job.Change{Done: "a"}))
	fresh, err = b.Keep(b.ctx, Inbound("a"))
	b.ok(err)
	if fresh {
		t.Error("a redelivery of what is done was fresh")
	}
	b.same(b.take(at(60), 9), []string(nil), "taken after it was done")
	for _, key := range []string{"", strings.Repeat("k", 5000)} {
		if _, err := b.Keep(b.ctx, Inbound(key)); err == nil {
			t.Errorf("a key of %d bytes was kept", len(key))
		}
	}
}

func takenInOrder(t *testing.T, b *bench) {
	b.keep("c", "a", "b")
	ins, err := b.Take(b.ctx, noon, lease, 1)
	b.ok(err)
	want := Inbound("c")
	want.Tries = 1
	b.same(ins, []job.Inbound{want}, "the message, whole")
	b.same(b.take(noon, 9), []string{"a", "b"}, "the others")
	b.same(b.take(noon, 9), []string(nil), "all are leased")
	b.same(b.take(noon, 0), []string(nil), "none were asked for")
}

func laneInOrder(t *testing.T, b *bench) {
	said := func(key, anchor string) {
		in := Inbound(key)
		in.Anchor = anchor
		fresh, err := b.Keep(b.ctx, in)
		if b.ok(err); !fresh {
			t.Errorf("%s was not fresh", key)
		}
	}
	said("request", "r1")
	said("other", "r2")
	said("amend", "r1")
	said("again", "r1")
	said("loose1", "")
	said("loose2", "")
	b.same(b.take(noon, 1), []string{"request"}, "first")
	b.same(b.take(noon, 9), []string{"other", "loose1", "loose2"}, "the rest of the first one's thread waits for it")
	soon := noon.Add(lease / 2)
	b.ok(b.Put(b.ctx, "request", soon))
	b.same(b.take(noon.Add(lease/4), 9), []string(nil), "it waits behind one that was put back, too")
	b.same(b.take(soon, 2), []string{"request", "amend"}, "one desk may take several of a thread, in order")
	b.ok(b.Save(b.ctx, job.Change{Done: "amend"}))
	b.same(b.take(soon, 9), []string(nil), "still behind the first")
	b.ok(b.Save(b.ctx, job.Change{Done: "request"}))
	b.same(b.take(soon, 9), []string{"again"}, "the thread is free")
	said("later", "r2")
	b.same(b.take(soon, 9), []string(nil), "behind the other, which is leased")
	b.ok(b.Put(b.ctx, "other", time.Time{}))
	b.same(b.take(soon, 9), []string{"later"}, "what is set aside holds nobody up")
	b.ok(b.Put(b.ctx, "later", soon))
	b.ok(b.Put(b.ctx, "other", at(9)))
	b.same(b.take(soon, 9), []string(nil), "what was put back from aside holds up those behind it again")
}

func leaseRunsOut(t *testing.T, b *bench) {
	b.keep("a", "b")
	b.same(b.take(noon, 1), []string{"a"}, "first")
	b.same(b.take(noon.Add(lease-time.Millisecond), 9), []string{"b"}, "a is still leased")
	ins, err := b.Take(b.ctx, noon.Add(lease), lease, 9)
	b.ok(err)
	if len(ins) != 1 || ins[0].Key != "a" || ins[0].Tries != 2 {
		t.Errorf("after the lease: %+v, want a at its second try", ins)
	}
}

func putBack(t *testing.T, b *bench) {
	b.keep("a", "b")
	b.take(noon, 2)
	b.ok(b.Put(b.ctx, "b", noon))
	b.ok(b.Put(b.ctx, "a", at(5)))
	b.same(b.take(at(2), 9), []string{"b"}, "only b is free")
	b.ok(b.Save(b.ctx, job.Change{Done: "b"}))
	b.same(b.take(at(5), 9), []string{"a"}, "a after its wait")
	b.is(b.Put(b.ctx, "b", noon), job.ErrDone, "putting back what is done")
	b.is(b.Put(b.ctx, "never", noon), job.ErrNotFound, "putting back what was never kept")
}

func setAside(t *testing.T, b *bench) {
	b.keep("a", "b")
	b.take(noon, 1)
	b.ok(b.Put(b.ctx, "a", time.Time{}))
	b.ok(b.Put(b.ctx, "a", time.Time{}))
	b.same(b.take(at(60), 9), []string{"b"}, "a is aside")
	if fresh, err := b.Keep(b.ctx, Inbound("a")); err != nil || fresh {
		t.Errorf("redelivery of what is aside: fresh %v, %v", fresh, err)
	}
	h, err := b.Health(b.ctx, noon)
	b.ok(err)
	if h.SetAside != 1 || h.Inbox != 1 {
		t.Errorf("health counts %d aside and %d waiting, want 1 and 1", h.SetAside, h.Inbox)
	}
	b.ok(b.Put(b.ctx, "a", at(90)))
	b.same(b.take(at(90), 9), []string{"a", "b"}, "a was put back from aside, and b's lease ran out")
	b.ok(b.Put(b.ctx, "a", time.Time{}))
	b.ok(b.Save(b.ctx, job.Change{Done: "a"}))
	h, err = b.Health(b.ctx, noon)
	b.ok(err)
	if h.SetAside != 0 {
		t.Errorf("%d aside after it was done", h.SetAside)
	}
}

func manyTakers(t *testing.T, b *bench) {
	const messages = 40
	for i := range messages {
		b.keep("m" + string(rune('A'+i)))
	}
	var mu sync.Mutex
	got := map[string]int{}
	together(8, func(int) {
		for {
			ins, err := b.Take(b.ctx, noon, lease, 3)
			if err != nil {
				t.Error(err)
			}
			if len(ins) == 0 {
				return
			}
			mu.Lock()
			for _, in := range ins {
				got[in.Key]++
			}
			mu.Unlock()
		}
	})
	if len(got) != messages {
		t.Errorf("%d of %d messages were taken", len(got), messages)
	}
	for k, n := range got {
		if n != 1 {
			t.Errorf("%q was taken %d times", k, n)
		}
	}
}
