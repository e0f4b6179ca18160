package bot

import "strikeoff/bot/job"

// The words of a job, named here too so that a door that shows jobs needs to know bot alone.
type (
	Job     = job.Job
	JobID   = job.ID
	State   = job.State
	Entry   = job.Entry
	Kind    = job.Kind
	Actor   = job.Actor
	Stamp   = job.Stamp
	Read    = job.Read
	SignOff = job.SignOff
	Refusal = job.Refusal
	Change  = job.Change
)

// Sort is what kind of thing came in.
type Sort = job.Sort

// The sorts of inbound.
const (
	Message  = job.Message
	Command  = job.Command
	Shortcut = job.Shortcut
	Edited   = job.Edited
	Deleted  = job.Deleted
)

// The states of a job, in the order a job passes through them.
const (
	Asking  = job.Asking
	Planned = job.Planned
	TestDue = job.TestDue
	OnTest  = job.OnTest
	Refused = job.Refused
	Cleared = job.Cleared
	Closed  = job.Closed
)

// StepRead is the kind of event that a check's reading is.
const StepRead = job.StepRead

// The errors of a ledger that a door tells apart, with errors.Is.
var (
	ErrNoJob = job.ErrNoJob
	ErrDown  = job.ErrDown
)
