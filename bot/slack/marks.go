package slack

import "sync"

// marks remember, per channel, up to where everything was kept: the newest message kept, or the oldest one that was not.
type marks struct {
	mu    sync.Mutex
	rooms map[string]*roomMark
}

type roomMark struct {
	high string // newest message kept
	lost string // oldest message that was not kept; "" when none
	put  string // what the ledger has
}

func (m *marks) room(id string) *roomMark {
	if m.rooms == nil {
		m.rooms = map[string]*roomMark{}
	}
	r := m.rooms[id]
	if r == nil {
		r = &roomMark{}
		m.rooms[id] = r
	}
	return r
}

// saw notes a message that was kept.
func (m *marks) saw(room, ts string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	r := m.room(room)
	if later(ts, r.high) {
		r.high = ts
	}
}

// missed notes one that was not.
func (m *marks) missed(room, ts string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	r := m.room(room)
	if r.lost == "" || later(r.lost, ts) {
		r.lost = ts
	}
}

// caughtUp notes that a channel's history was handed in from before the oldest message that was lost.
func (m *marks) caughtUp(room, lost string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if r := m.room(room); r.lost == lost {
		r.lost = ""
	}
}

// lost lists the channels in which a message was not kept.
func (m *marks) lost() map[string]string {
	m.mu.Lock()
	defer m.mu.Unlock()
	out := map[string]string{}
	for id, r := range m.rooms {
		if r.lost != "" {
			out[id] = r.lost
		}
	}
	return out
}

// moved lists the channels whose mark the ledger does not have yet.
func (m *marks) moved() map[string]string {
	m.mu.Lock()
	defer m.mu.Unlock()
	out := map[string]string{}
	for id, r := range m.rooms {
		at := r.high
		if r.lost != "" && (at == "" || later(at, r.lost)) {
			at = r.lost
		}
		if at != "" && at != r.put {
			out[id] = at
		}
	}
	return out
}

// written notes what the ledger has.
func (m *marks) written(room, at string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.room(room).put = at
}

// recent remembers which messages this process has handed in, as many as matter: it saves asking Slack, and may forget.
type recent struct {
	mu   sync.Mutex
	seen map[string]bool
}

func (r *recent) add(room, ts string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.seen == nil || len(r.seen) >= 5000 {
		r.seen = map[string]bool{}
	}
	r.seen[room+"/"+ts] = true
}

func (r *recent) has(room, ts string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.seen[room+"/"+ts]
}
