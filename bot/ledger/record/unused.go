package record

import (
	"slices"
	"sync"

	"strikeoff/bot/job"
)

// Unused are numbers that were given out and came back: those of jobs that were never kept, because their message turned out to be done. Giving
// them out again keeps people from asking where a job went. It is safe for concurrent use.
type Unused struct {
	mu  sync.Mutex
	ids []job.ID // the largest first
}

// Put takes numbers back.
func (u *Unused) Put(ids ...job.ID) {
	u.mu.Lock()
	defer u.mu.Unlock()
	u.ids = append(u.ids, ids...)
	slices.SortFunc(u.ids, func(a, b job.ID) int { return int(b - a) })
}

// Get gives out the smallest, 0 where there is none.
func (u *Unused) Get() job.ID {
	u.mu.Lock()
	defer u.mu.Unlock()
	if len(u.ids) == 0 {
		return 0
	}
	id := u.ids[len(u.ids)-1]
	u.ids = u.ids[:len(u.ids)-1]
	return id
}

// All gives out all that are left, the smallest first.
func (u *Unused) All() []job.ID {
	u.mu.Lock()
	defer u.mu.Unlock()
	ids := u.ids
	u.ids = nil
	slices.Reverse(ids)
	return ids
}
