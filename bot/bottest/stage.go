// Package bottest holds a recording platform and the contract that every door passes: whole conversations of a rep and a lead, in
// which the desk is real, the shop is a toy, and the door is the one under test.
package bottest

import (
	"context"
	"sync"
	"testing"
	"time"

	"strikeoff/bot"
)

// Who is one of the two people of the contract. A door's stage gives each an id of its own and makes the lead a lead.
type Who string

// The people of the contract. Both are invented.
const (
	Rep  Who = "Rea Ito (invented)"
	Lead Who = "Lin Ode (invented)"
)

// Production is the thread name under which Stage.Seen shows what was posted in the production room.
const Production = "(production room)"

// Stage is a door set up for the contract, with a platform behind it that can be looked at. Its methods fail the test by themselves where
// the platform is used wrongly.
type Stage interface {
	// Say writes a message as a person would: in a thread, or outside any where thread is "". It returns what replies thread under, to be
	// used as thread later. It returns when the door has kept the message, or has said that it could not.
	Say(who Who, thread, text string) (anchor string)
	// Press does what a button or a slash command with these command words does, in a thread. It returns as Say does.
	Press(who Who, thread, command string)
	// Seen is the posts that everybody can see in a thread, oldest first, each as the text that people would read on it now: a post
	// that was brought up to date stands with its latest text.
	Seen(thread string) []string
	// Private is what only that person was shown, oldest first.
	Private(who Who) []string
}

// Redeliverer is a stage whose platform can deliver a message twice.
type Redeliverer interface {
	// Redeliver delivers the last thing said or pressed once more, with the same platform ids.
	Redeliver()
}

// Editor is a stage whose platform lets people change what they said.
type Editor interface {
	// Edit changes the message that Say returned anchor for, in place.
	Edit(who Who, anchor, text string)
}

// Deleter is a stage whose platform lets people take back what they said.
type Deleter interface {
	// Delete takes back the message that Say returned anchor for.
	Delete(who Who, anchor string)
}

// Asker is a stage whose platform has a way to ask for a message to be read as an order.
type Asker interface {
	// Ask asks for the message that Say returned anchor for to be read as an order.
	Ask(who Who, anchor, text string)
}

// Guard is a stage that can look at what went over the wire.
type Guard interface {
	// Harmless fails the test where the customer's text could ping a room or a person, make a link, a button or markup, as it stands
	// in what was sent to the thread.
	Harmless(t *testing.T, thread, text string)
}

// Retrier is a stage whose platform delivers a message again by itself when the door did not acknowledge it: such a door need not tell
// the person who wrote it that nothing was kept.
type Retrier interface {
	// Retries reports so.
	Retries() bool
}

// Open sets a door up against a desk: it fills in the desk's Doors, Roster and Production for its door, and starts what it needs. It
// must not call Run, nor Work, Deliver or Alert: the contract does. What it starts it stops in t.Cleanup.
type Open func(t *testing.T, d *bot.Desk) Stage

// NewLedger opens an empty ledger for one test.
type NewLedger func(t *testing.T) bot.Ledger

// Clock is a clock that stands until it is moved.
type Clock struct {
	mu sync.Mutex
	at time.Time
}

// NewClock is a clock that stands at Wednesday, 25 November 2026, 09:00 UTC.
func NewClock() *Clock { return &Clock{at: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)} }

// Now is the clock's time.
func (c *Clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

// Move moves the clock on.
func (c *Clock) Move(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(d)
}

// NewDesk is a desk of the toy shop on the given ledger and clock. It has no door yet.
func NewDesk(l bot.Ledger, c *Clock) *bot.Desk {
	return &bot.Desk{Ledger: l, Now: c.Now, Read: Read, Amend: Amend, Decide: Decide, Limits: bot.Limits{PerSecond: 1e6, Burst: 1000}}
}

// Settle works, alerts and delivers until there is nothing left to do now.
func Settle(t testing.TB, d *bot.Desk) {
	t.Helper()
	for range 50 {
		did := 0
		for _, do := range []func(context.Context) (int, error){d.Work, d.Alert, d.Deliver} {
			n, err := do(t.Context())
			if err != nil {
				t.Fatalf("the desk: %v", err)
			}
			did += n
		}
		if did == 0 {
			return
		}
	}
	t.Fatal("the desk never comes to rest: something is done over and over")
}
