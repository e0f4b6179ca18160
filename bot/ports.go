package bot

import (
	"context"
	"time"

	"strikeoff/bot/job"
)

// The words of a ledger's records, named here too so that a door needs to know bot alone.
type (
	Inbound  = job.Inbound
	Outbound = job.Outbound
	Person   = job.Person
	Place    = job.Place
	File     = job.File
)

// Ledger keeps jobs, their history, what came in and what must go out. Every method may block and honours its context's deadline. Where
// the store cannot be reached the error is job.ErrDown, and nothing of the call was kept, or all of it was (a repeat is harmless).
type Ledger interface {
	// Keep keeps an inbound message under its key and reports whether it is new. A message must be kept before it is acknowledged.
	Keep(ctx context.Context, in job.Inbound) (fresh bool, err error)
	// Take leases up to n kept messages that are not done, oldest first, until now+lease. A lease that runs out makes the message free
	// again. Messages of one thread (door, room and anchor) are leased in order, and none behind one that an earlier Take leased or that
	// Put made wait: else a second desk could read an amendment before the request that it amends.
	Take(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Inbound, error)
	// Put gives a message back, to be tried again at the given time; with the zero time it is set aside as one that cannot be handled.
	Put(ctx context.Context, key string, at time.Time) error
	// Number is a number for a new job, that no other job has or gets. One whose job was not kept because its message was done (Save said
	// job.ErrDone) may be given again.
	Number(ctx context.Context) (job.ID, error)
	// Load reads a job: job.ErrNoJob where there is none.
	Load(ctx context.Context, id job.ID) (job.Job, error)
	// InThread finds the newest job whose request stands in that thread: job.ErrNoJob where there is none.
	InThread(ctx context.Context, p job.Place) (job.ID, error)
	// FromMessage finds the job that the inbound message with that key opened: job.ErrNoJob where it opened none.
	FromMessage(ctx context.Context, key string) (job.ID, error)
	// Jobs lists jobs by number, newest first, those in the given states (all where none are given), below the given number (0: from the
	// newest), at most n.
	Jobs(ctx context.Context, states []job.State, below job.ID, n int) ([]job.Job, error)
	// History is a job's entries, oldest first.
	History(ctx context.Context, id job.ID) ([]job.Entry, error)
	// Save keeps a change whole or not at all: job.ErrStale where the job is not at the expected revision, job.ErrDone where the inbound
	// was done before. Saving marks the inbound done.
	Save(ctx context.Context, c job.Change) error
	// Post leases up to n outbound items that are due, oldest first, with Ref filled in from their slot. Items of one place are leased in
	// order, and none behind one that is leased. Of several items in one slot only the newest is leased; the older ones are dropped.
	Post(ctx context.Context, now time.Time, lease time.Duration, n int) ([]job.Outbound, error)
	// Sent takes an item off and remembers ref for its slot: job.ErrNotMine where the lease passed to somebody else.
	Sent(ctx context.Context, key string, tries int, ref string) error
	// Retry sends an item back to wait until at; with the zero time it is set aside, to be seen in Health.
	Retry(ctx context.Context, key string, tries int, at time.Time, why string) error
	// Due lists up to n jobs whose Next is not after now, soonest first.
	Due(ctx context.Context, now time.Time, n int) ([]job.ID, error)
	// Cursor remembers, per door and room, the last message that a door has handed in, for catching up.
	Cursor(ctx context.Context, door, room string) (string, error)
	SetCursor(ctx context.Context, door, room, at string) error
	// Health says how the ledger is doing.
	Health(ctx context.Context, now time.Time) (Health, error)
	Close() error
}

// Health is how a ledger is doing.
type Health struct {
	Kind      string        // "bolt file …", "redis …": for people
	Durable   bool          // what was acknowledged survives a crash of the machine
	Warnings  []string      // what an operator should change
	InboxAge  time.Duration // age of the oldest kept message that is not done
	OutboxAge time.Duration // age of the oldest due outbound item
	Inbox     int           // kept messages that are not done
	Outbox    int           // outbound items that wait
	SetAside  int           // items that could not be handled or sent
}

// Poster is what a door does for posts: put one up, and say where it stands. An error is tried again later, unless it is Permanent.
type Poster interface {
	Post(ctx context.Context, p Parcel) (ref string, err error)
}

// Listener is a door with rooms in which nobody listens, such as those of programs that ask when they want to know. The desk lays by
// nothing for them.
type Listener interface {
	// Listens reports whether posts to a place would be heard. It answers at once, and the same while the door is open.
	Listens(p Place) bool
}

// Parcel is one post on its way out.
type Parcel struct {
	Key   string // the same at every attempt, so that a platform with idempotent posts can use it
	Place Place  // room and thread
	To    string // the platform's id of the one person who may see it; "" for everybody. A door without private posts says it in the thread
	Reply string // the inbound's Reply token
	Ref   string // the post to bring up to date; "" to make a new one. A door that cannot change posts makes a new one where Post.Anew
	Post  Post
	Tries int // attempts so far, this one counted: above 1 an earlier one may have gone through unnoticed. A door with a schedule of its own answers with After or Permanent by it
}
