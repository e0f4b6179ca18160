// Package job is the life of a job as a pure state machine, and the records that a ledger keeps of it. It reads no clock, sends nothing
// and stores nothing: Step is given a job, an event and a time, and says what the job becomes and what must go out.
package job

import (
	"time"

	"strikeoff/rules"
)

// ID is a job's number within the shop, counted from 1. 0 is no job.
type ID int64

// State is where a job stands.
type State string

// The states of a job.
const (
	Asking  State = "asking"   // a deciding fact is missing
	Planned State = "planned"  // nothing to test; a lead may clear it
	TestDue State = "test-due" // a test print must be made
	OnTest  State = "on-test"  // printed; waits and washes run
	Refused State = "refused"  // a test failed; the plan says what to change
	Cleared State = "cleared"  // ready for the run
	Closed  State = "closed"
)

// States lists every state in the order a job passes through them.
var States = []State{Asking, Planned, TestDue, OnTest, Refused, Cleared, Closed}

// Job is a customer's request from the first message to the run.
type Job struct {
	ID       ID
	State    State
	Before   State // the state a closed job was closed in
	Revision int   // events so far; what a ledger compares before it sets
	Place    Place // the room and thread of the request
	Opened   Stamp
	Text     string // the request as it was first written
	Order    rules.Order
	Odd      []string // what is odd in the order as it was last written, as told to people
	Plan     rules.Plan
	PlanRev  int // counts the plans: an amended order or a new pick makes another
	Record   rules.Record
	Printed  Stamp                // when the test print of plan PrintRev was made; zero when none was
	PrintRev int                  // the plan that the test print was made to; 0 where none counts
	TriedRev int                  // the plan that the newest test print was made to, whether it counts still or not
	Reads    map[string]Read      // checks read on the current test print, by code
	SignOff  *SignOff             // nil unless a sign-off stands
	Refusal  *Refusal             // the last refusal, kept until a sign-off
	CloseWhy string               // why it was closed
	Alerted  map[string]time.Time // alerts that went out, by key
	LastHash string               // hash of the last event's entry
}

// Place is where something was said. All are the platform's own strings, opaque here.
type Place struct {
	Door   string `json:"door"`   // which door: "console", "slack", …
	Room   string `json:"room"`   // channel
	Thread string `json:"thread"` // the thread's root within the room; "" outside one
}

// Stamp is who did a thing and when.
type Stamp struct {
	By Actor     `json:"by"`
	At time.Time `json:"at"`
}

// Actor is a person as an event records them.
type Actor struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Role Role   `json:"role"`
}

// Role is what a person may do.
type Role string

// The roles. A rep brings orders; a lead also tests, signs and refuses. The desk is the program itself.
const (
	Rep  Role = "rep"
	Lead Role = "lead"
	Desk Role = "desk"
)

// Read is one check as it was recorded.
type Read struct {
	Pass  bool   `json:"pass"`
	Note  string `json:"note"`
	Early string `json:"early"` // the lead's reason for reading before the wait was over; "" when it was
	Stamp
}

// SignOff clears a job for the run. It holds for the plan revision that it saw and no other.
type SignOff struct {
	PlanRev int `json:"plan_rev"`
	Stamp
}

// Refusal is a test print that was turned down.
type Refusal struct {
	PlanRev int    `json:"plan_rev"`
	Step    string `json:"step"` // the check that failed; "" for the whole
	Reason  string `json:"reason"`
	Printed Stamp  `json:"printed"` // the test print that was turned down; zero where none was made
	Stamp
}
