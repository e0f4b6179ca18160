package job

import (
	"fmt"
	"strings"
	"time"
)

// FaultKind is why an event was refused, for programs.
type FaultKind string

// The kinds of fault.
const (
	NoJobYet    FaultKind = "no-job"       // the job was never opened
	NotAllowed  FaultKind = "not-allowed"  // the person's role may not
	WrongState  FaultKind = "wrong-state"  // not in this state
	PlanChanged FaultKind = "plan-changed" // made to a plan that is not the present one
	NoSuchStep  FaultKind = "no-step"      // the plan's checklist has no such check
	TooEarly    FaultKind = "too-early"    // the wait is not over
	NotAllRead  FaultKind = "not-all-read" // checks are missing
	NeedsReason FaultKind = "needs-reason" // a reason or note must be given
	Again       FaultKind = "again"        // it stands in the history already
	Malformed   FaultKind = "malformed"    // the event lacks what its kind needs: the caller's mistake, not the person's
)

// Fault says why Step refused an event. The job is as it was. Say is for the person: what was wrong and what to type next.
type Fault struct {
	Kind  FaultKind
	Say   string
	Steps []string // the codes in question: those that are missing, or those that the checklist has
}

// Error is the sentence for the person.
func (f *Fault) Error() string { return f.Say }

// fault writes a Fault.
func fault(kind FaultKind, say string, args ...any) error {
	return &Fault{Kind: kind, Say: fmt.Sprintf(say, args...)}
}

// malformed is a fault of the program, which a person can only report.
func malformed(j Job, e Event, lacks string) error {
	return fault(Malformed, "That could not be recorded on job %d: the %q event %s. Nothing was changed; say it again.", j.ID, e.Kind, lacks)
}

// wrongState says where the job stands, and what can be done there instead.
func wrongState(j Job, cannot string) error {
	return fault(WrongState, "Job %d is %s, so %s. %s", j.ID, stateWords[j.State], cannot, NextWords(j))
}

// stateWords say a state in a sentence that begins "the job is".
var stateWords = map[State]string{
	Asking: "waiting for an answer", Planned: "planned", TestDue: "waiting for a test print", OnTest: "on test",
	Refused: "refused", Cleared: "cleared", Closed: "closed",
}

// NextWords is a sentence that says what to type next on a job.
func NextWords(j Job) string {
	n := j.ID
	switch j.State {
	case Asking:
		return fmt.Sprintf("Answer the open question in its thread, or choose with: pick %d METHOD", n)
	case Planned:
		return fmt.Sprintf("There is nothing to test: a lead clears it with: sign %d", n)
	case TestDue:
		return fmt.Sprintf("When the test print is made, type: printed %d", n)
	case OnTest:
		if missing := Missing(j); len(missing) > 0 {
			return fmt.Sprintf("It waits for: %s. Record each with: pass %d STEP", strings.Join(codes(missing), ", "), n)
		}
		return fmt.Sprintf("Every step has passed: sign it off with: sign %d", n)
	case Refused:
		if j.Plan.Open() {
			return fmt.Sprintf("The plan waits for a choice: pick %d METHOD", n)
		}
		return fmt.Sprintf("Make a test print to the new plan, then type: printed %d", n)
	case Cleared:
		return fmt.Sprintf("To take that back, type: refuse %d REASON", n)
	case Closed:
		return fmt.Sprintf("To open it again, type: reopen %d", n)
	}
	return fmt.Sprintf("To see it, type: job %d", n)
}

// when says a time in the place of the one who asks.
func when(t, now time.Time) string { return t.In(now.Location()).Format("Mon 2 Jan 15:04") }
