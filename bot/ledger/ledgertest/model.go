package ledgertest

import (
	"cmp"
	"slices"
	"time"

	"strikeoff/bot/job"
)

// model is a ledger so plain that it can be seen to be right: lists, gone through from the front. Times are whole milliseconds.
type model struct {
	msgs   []*message
	posts  []*post
	places map[string]*place
	newest map[string]string // slot -> the newest item for it
	refs   map[string]string // slot -> the post that stands there
	jobs   map[job.ID]*stored
	seq    int
}

type message struct {
	key, lane   string
	free        time.Time
	tries       int
	done, aside bool
}

type post struct {
	key, place, slot string
	at               time.Time
	seq, tries       int
	sent, gone       bool
}

// place is where items go, one at a time.
type place struct {
	holder *post
	leased bool
	until  time.Time
}

type stored struct {
	job  job.Job
	next time.Time
}

func newModel() *model {
	return &model{places: map[string]*place{}, newest: map[string]string{}, refs: map[string]string{}, jobs: map[job.ID]*stored{}}
}

func (m *model) message(key string) *message {
	for _, x := range m.msgs {
		if x.key == key {
			return x
		}
	}
	return nil
}

func (m *model) keep(key, lane string) bool {
	if m.message(key) != nil {
		return false
	}
	m.msgs = append(m.msgs, &message{key: key, lane: lane})
	return true
}

func (m *model) take(now time.Time, lease time.Duration, n int) []string {
	var out []string
	blocked := map[string]bool{}
	for _, x := range m.msgs {
		switch {
		case x.done, x.aside:
		case len(out) == n, x.free.After(now), blocked[x.lane]:
			blocked[x.lane] = x.lane != ""
		default:
			x.tries, x.free = x.tries+1, now.Add(lease)
			out = append(out, x.key)
		}
	}
	return out
}

func (m *model) put(key string, at time.Time) error {
	x := m.message(key)
	switch {
	case x == nil:
		return job.ErrNotFound
	case x.done:
		return job.ErrDone
	}
	x.aside, x.free = at.IsZero(), at
	return nil
}

func (m *model) save(c job.Change) error {
	x := m.message(c.Done)
	if x != nil && x.done {
		return job.ErrDone
	}
	if c.Job != nil {
		rev := 0
		if s := m.jobs[c.Job.ID]; s != nil {
			rev = s.job.Revision
		}
		if rev != c.Expect {
			return job.ErrStale
		}
		m.jobs[c.Job.ID] = &stored{*c.Job, c.Next}
	}
	if c.Done != "" {
		if x == nil {
			x = &message{key: c.Done}
			m.msgs = append(m.msgs, x)
		}
		x.done, x.aside = true, false
	}
	for _, o := range c.Out {
		m.enqueue(o)
	}
	return nil
}

func (m *model) post(key string) *post {
	for _, p := range m.posts {
		if p.key == key {
			return p
		}
	}
	return nil
}

func (m *model) enqueue(o job.Outbound) {
	if m.post(o.Key) != nil {
		return
	}
	m.seq++
	p := &post{key: o.Key, place: o.Place.Room, at: o.At, seq: m.seq}
	if o.Slot != "" {
		p.slot = o.Place.Room + " " + o.Slot
		m.newest[p.slot] = p.key
	}
	m.posts = append(m.posts, p)
	if m.places[p.place] == nil {
		m.places[p.place] = &place{}
	}
	if pl := m.places[p.place]; pl.holder != nil && !pl.leased && m.old(pl.holder) {
		pl.holder.gone, pl.holder = true, nil
	}
}

// old reports whether a newer item for the slot was saved.
func (m *model) old(p *post) bool { return p.slot != "" && m.newest[p.slot] != p.key }

// lease leases the item whose turn it is at a place; nil where none is due.
func (m *model) lease(name string, now time.Time, lease time.Duration) *post {
	pl := m.places[name]
	if pl.holder != nil && pl.until.After(now) {
		return nil
	}
	if pl.holder != nil && m.old(pl.holder) {
		pl.holder.gone, pl.holder = true, nil
	}
	next := pl.holder
	if next == nil {
		var waiting []*post
		for _, p := range m.posts {
			if p.place == name && !p.sent && !p.gone && !m.old(p) {
				waiting = append(waiting, p)
			}
		}
		if len(waiting) == 0 {
			return nil
		}
		next = slices.MinFunc(waiting, func(a, b *post) int { return cmp.Or(a.at.Compare(b.at), a.seq-b.seq) })
		if next.at.After(now) {
			return nil
		}
	}
	next.tries++
	pl.holder, pl.leased, pl.until = next, true, now.Add(lease)
	return next
}

// mine is the item that a caller leased by that attempt.
func (m *model) mine(key string, tries int) (*post, *place, error) {
	p := m.post(key)
	switch {
	case p == nil:
		return nil, nil, job.ErrNotFound
	case p.tries != tries || p.gone:
		return nil, nil, job.ErrNotMine
	case p.sent:
		return p, nil, nil
	}
	if pl := m.places[p.place]; pl.holder == p && pl.leased {
		return p, pl, nil
	}
	return nil, nil, job.ErrNotMine
}

func (m *model) sent(key string, tries int, ref string) error {
	p, pl, err := m.mine(key, tries)
	if err != nil || p.sent {
		return err
	}
	if ref != "" {
		m.refs[p.slot] = ref
	}
	p.sent, pl.holder = true, nil
	return nil
}

func (m *model) retry(key string, tries int, at time.Time) error {
	p, pl, err := m.mine(key, tries)
	switch {
	case err != nil:
		return err
	case p.sent:
		return job.ErrNotMine
	case at.IsZero() || m.old(p):
		p.gone, pl.holder = true, nil
	default:
		pl.leased, pl.until = false, at
	}
	return nil
}

// due is the numbers of the jobs that must be looked at.
func (m *model) due(now time.Time) []job.ID {
	var out []job.ID
	for id, s := range m.jobs {
		if !s.next.IsZero() && !s.next.After(now) {
			out = append(out, id)
		}
	}
	slices.SortFunc(out, func(a, b job.ID) int { return cmp.Or(m.jobs[a].next.Compare(m.jobs[b].next), int(a-b)) })
	return out
}

// list is the numbers of the jobs in those states, newest first.
func (m *model) list(states []job.State) []job.ID {
	var out []job.ID
	for id, s := range m.jobs {
		if len(states) == 0 || slices.Contains(states, s.job.State) {
			out = append(out, id)
		}
	}
	slices.SortFunc(out, func(a, b job.ID) int { return int(b - a) })
	return out
}
