// Package bot is the conversation, platform-neutral: what is said to the desk, what the desk does about it, and what it says back.
//
// A door (a platform's package) hands in what people say with [Desk.Keep], before it acknowledges it, and puts up what the desk says as
// a [Poster]. Nothing else is asked of a door: it takes no decision. [Desk.Run] works until its context ends; [Desk.Work],
// [Desk.Deliver] and [Desk.Alert] do one round of it each, for the console and for tests.
//
// The desk keeps no job in memory. What it must not forget is in the [Ledger], and several desks may work on one ledger.
package bot

import (
	"log/slog"
	"slices"
	"sync"
	"time"

	"strikeoff/bot/alert"
	"strikeoff/bot/job"
	"strikeoff/intake"
	"strikeoff/rules"
)

// Desk answers what is said. Set the fields before its first method is called and leave them alone after; Ledger and Now are required.
// Its methods are safe for concurrent use.
type Desk struct {
	Ledger     Ledger
	Now        func() time.Time  // the clock
	Shop       rules.Shop        // the shop's own settings
	Zone       *time.Location    // the shop's location: what "today" is, and how times are shown; nil is UTC
	DayFirst   bool              // "12/11" is 12 November
	Roster     map[string]Leads  // who the leads are, by door
	Production map[string]Place  // the room that alerts go to, by door; "" is for doors that have none of their own
	Doors      map[string]Poster // where posts go out, by door
	Alerts     alert.Settings    // when alerts are due
	Links      Links             // the pages that show jobs; nil where there are none
	Limits     Limits
	Log        *slog.Logger // nil is silence
	Around     Around       // traces; nil for none

	// How a message is understood and an order answered; nil is intake.Read, intake.Amend, rules.Decide.
	Read   func(text string, o intake.Options) intake.Reading
	Amend  func(r intake.Reading, text string, o intake.Options) (intake.Reading, bool)
	Decide func(o rules.Order, shop rules.Shop, rec rules.Record) rules.Plan

	// Also, where it is set, adds what else must go out with a change of a job: it is saved with the change and sent after. Each
	// addition needs a key that is the same when the change is tried again; the entries' hashes are not.
	Also func(before, after job.Job, news []job.Entry) []Outbound

	once     sync.Once
	wakeIn   chan struct{} // something was kept
	wakeOut  chan struct{} // something must go out
	wakeBell chan struct{} // an alert may have moved
	paces    sync.Map      // *rate.Limiter by door and room
}

// Leads are the people who may test, sign and refuse, as a door knows them.
type Leads struct {
	People []string // the platform's ids of persons
	Groups []string // the platform's ids of groups or roles
}

// Has reports whether a person is a lead.
func (l Leads) Has(p Person) bool {
	return p.ID != "" && slices.Contains(l.People, p.ID) ||
		slices.ContainsFunc(p.Groups, func(g string) bool { return g != "" && slices.Contains(l.Groups, g) })
}

// Limits bound what a desk does at once. Every zero means the usual value, named beside it.
type Limits struct {
	Workers   int           // messages handled at once: 4
	Batch     int           // messages or posts taken from the ledger at once: 32
	Lease     time.Duration // how long a message or post is ours before another desk may have it: 1 minute
	Poll      time.Duration // how often to look for work that nobody told of, left by another desk or a crash: 2 seconds
	Tries     int           // how often a message is tried before it is set aside: 5
	SendTries int           // how often a post is tried before it is set aside: 300, a day or so
	Backoff   time.Duration // wait after a first failure, doubled at each more, to at most 5 minutes: 1 second
	PerSecond float64       // posts a second to one room; 0 leaves it to the door, if it is a Pacer
	Burst     int           // how many of these may go at once: 1
	TextBytes int           // a longer message is cut: 256 KiB
	Call      time.Duration // how long one call of a door or the ledger may take: 15 seconds
}

// usual puts the usual value where none is set.
func (l Limits) usual() Limits {
	return Limits{
		Workers: or(l.Workers, 4), Batch: or(l.Batch, 32), Lease: or(l.Lease, time.Minute), Poll: or(l.Poll, 2*time.Second),
		Tries: or(l.Tries, 5), SendTries: or(l.SendTries, 300), Backoff: or(l.Backoff, time.Second), PerSecond: l.PerSecond,
		Burst: or(l.Burst, 1), TextBytes: or(l.TextBytes, 256<<10), Call: or(l.Call, 15*time.Second),
	}
}

// or is v, or the usual value where v is not above zero.
func or[T int | float64 | time.Duration](v, usual T) T {
	if v > 0 {
		return v
	}
	return usual
}

// setup fills in what was left out. Every exported method calls it first.
func (d *Desk) setup() {
	d.once.Do(func() {
		d.Limits = d.Limits.usual()
		if d.Zone == nil {
			d.Zone = time.UTC
		}
		if d.Log == nil {
			d.Log = slog.New(slog.DiscardHandler)
		}
		if d.Read == nil {
			d.Read = intake.Read
		}
		if d.Amend == nil {
			d.Amend = intake.Amend
		}
		if d.Decide == nil {
			d.Decide = rules.Decide
		}
		d.wakeIn, d.wakeOut, d.wakeBell = make(chan struct{}, 1), make(chan struct{}, 1), make(chan struct{}, 1)
	})
}

// wake tells a loop that there is work; it never blocks, and once told is enough.
func wake(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}
