package job

import (
	"slices"
	"time"

	"strikeoff/rules"
)

// opened begins a job.
func opened(j Job, e Event) (Job, []Effect, error) {
	switch {
	case j.Revision != 0:
		return j, nil, fault(Again, "Job %d is open already. To see it, type: job %d", j.ID, j.ID)
	case j.ID <= 0:
		return j, nil, malformed(j, e, "has no job number")
	case e.Order == nil || e.Plan == nil:
		return j, nil, malformed(j, e, "lacks its order or its plan")
	}
	if e.By.Role != Rep && e.By.Role != Lead {
		return j, nil, fault(NotAllowed, "Only a rep or a production lead of this shop can open a job. Nothing was kept; ask one of them to post the request.")
	}
	next := Job{ID: j.ID, Place: e.Where, Opened: by(e), Text: e.Text, Order: *e.Order, Odd: e.Odd}
	next, _ = replan(next, *e.Plan, e.Record)
	next.State = derived(next)
	next.Revision = 1
	return next, []Effect{ShowPlan, CheckAlerts}, nil
}

// amended takes what the customer changed.
func amended(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	if e.Order == nil || e.Plan == nil {
		return j, nil, malformed(j, e, "lacks its order or its plan")
	}
	j.Order, j.Odd = *e.Order, e.Odd
	return replanned(j, e)
}

// picked takes a person's choice of method.
func picked(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	switch {
	case e.Plan == nil:
		return j, nil, malformed(j, e, "lacks its plan")
	case e.Chosen.Method == "":
		return j, nil, fault(NeedsReason, "Say which method to use: pick %d METHOD", j.ID)
	}
	if e.Order != nil {
		j.Order = *e.Order
	}
	if !knows(e.Record, e.Chosen) {
		e.Record.Chosen = append(slices.Clip(e.Record.Chosen), e.Chosen)
	}
	return replanned(j, e)
}

// replanned gives a job the plan of an event and the state that follows from it.
func replanned(j Job, e Event) (Job, []Effect, error) {
	j, stood := replan(j, *e.Plan, e.Record)
	j.State = derived(j)
	effects := []Effect{ShowPlan, CheckAlerts}
	if stood {
		effects = append(effects, VoidedSign)
	}
	return j, effects, nil
}

// replan gives a job another plan. What stood to the plan before, a test print, its reads, a sign-off, stands no more, and it reports
// whether there was such a thing. What failed tests taught is never lost, whatever record the event carries.
func replan(j Job, p rules.Plan, rec rules.Record) (Job, bool) {
	stood := j.SignOff != nil || j.PrintRev != 0
	if len(rec.Failures) < len(j.Record.Failures) {
		rec.Failures = j.Record.Failures
	}
	j.Plan, j.Record = p, rec
	j.PlanRev++
	j.SignOff, j.Printed, j.PrintRev, j.Reads = nil, Stamp{}, 0, nil
	return j, stood
}

// derived is the state that follows from a plan. A job whose test print was turned down goes on test again even where the next plan alone
// would ask for none: only a new print lifts a veto.
func derived(j Job) State {
	switch {
	case j.Plan.Open():
		return Asking
	case j.Plan.TestPrint || j.Plan.WashTest || vetoed(j):
		return TestDue
	default:
		return Planned
	}
}

// vetoed reports whether a test print of the job was turned down and none was signed off since.
func vetoed(j Job) bool { return j.Refusal != nil && j.Refusal.Printed.By.Role != "" }
