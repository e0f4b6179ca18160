package job

import (
	"encoding/json"
	"time"

	"strikeoff/rules"
)

// Kind is what happened to a job.
type Kind string

// The kinds of event.
const (
	Opened    Kind = "opened"     // Order, Plan, Text
	Amended   Kind = "amended"    // Order, Plan, Text
	Picked    Kind = "picked"     // Chosen, Plan
	Printed   Kind = "printed"    // the test print was made to plan PlanRev
	StepRead  Kind = "step-read"  // Step, Pass, Note, Early; Plan where it failed
	SignedOff Kind = "signed-off" // PlanRev
	RefusedIt Kind = "refused"    // Note, Plan
	ClearedIt Kind = "cleared"    // a planned job with nothing to test
	ClosedIt  Kind = "closed"     // Note
	Reopened  Kind = "reopened"
	AlertSent Kind = "alert-sent" // Key
)

// Event is one change of a job: who, when, where, what. Events are never edited.
type Event struct {
	Kind    Kind         `json:"kind"`
	By      Actor        `json:"by"`
	At      time.Time    `json:"at"`
	Where   Place        `json:"where"`
	Message string       `json:"message"`           // key of the inbound message that caused it
	Text    string       `json:"text,omitempty"`    // what was written
	Order   *rules.Order `json:"order,omitempty"`   // the order as it now stands
	Plan    *rules.Plan  `json:"plan,omitempty"`    // the plan as it now stands
	Odd     []string     `json:"odd,omitempty"`     // what is odd in what was written, as told to people
	Data    bool         `json:"data,omitempty"`    // the order was handed in as data: Text was not read for it, and is not read again
	Record  rules.Record `json:"record"`            // what the plan was made from, beyond the order
	Chosen  rules.Chosen `json:"chosen"`            // a pick
	Step    string       `json:"step,omitempty"`    // code of a check
	Pass    bool         `json:"pass,omitempty"`    // the check was passed
	Note    string       `json:"note,omitempty"`    // a note or reason
	Early   string       `json:"early,omitempty"`   // reason for reading a step before its wait is over
	PlanRev int          `json:"planrev,omitempty"` // the plan that a print or a sign-off was made to
	Key     string       `json:"key,omitempty"`     // an alert's key
}

// Entry is an event as it stands in the history, with its place in the chain: each entry's hash covers the one before it.
type Entry struct {
	Job  ID     `json:"job"`
	Seq  int    `json:"seq"`  // 1 for the first
	Prev string `json:"prev"` // hash of the entry before; "" for the first
	Hash string `json:"hash"`
	// Body is the event as it was written down, byte for byte. The hash covers these bytes and not a fresh encoding of Event, so that a
	// later version, whose events have more fields, still finds old entries whole. Ledgers keep it as it is.
	Body json.RawMessage `json:"-"`
	Event
}

// Effect is something that must go out because of an event.
type Effect string

// The effects of an event.
const (
	ShowCard     Effect = "card"     // the job's card changed: bring what was posted up to date
	ShowPlan     Effect = "plan"     // the plan changed: people must see it anew
	TellThread   Effect = "thread"   // one line in the thread
	CheckAlerts  Effect = "alerts"   // alerts may have become due, or moved
	DropAlerts   Effect = "no-alert" // nothing of this job may alert any more
	VoidedSign   Effect = "voided"   // a sign-off or test print that stood does not any more
	TellRefusal  Effect = "refusal"  // the thread must be told of a refusal
	TellClearing Effect = "clearing" // the thread must be told that the job is clear to run
)
