package job

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/rules"
)

// printed records that the test print was made, to the plan that the lead saw. What was read on an earlier print is void.
func printed(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	switch j.State {
	case TestDue, Refused, OnTest, Planned:
	default:
		return j, nil, wrongState(j, "a test print cannot be recorded now")
	}
	if j.Plan.Open() {
		return j, nil, fault(WrongState, "The plan of job %d has a print without a method, so there is nothing to print to. Choose with: pick %d METHOD", j.ID, j.ID)
	}
	if e.PlanRev != j.PlanRev {
		return j, nil, planChanged(j, e, "was the test print made to it? Then type", "printed")
	}
	effects := []Effect{ShowCard, TellThread, CheckAlerts}
	if len(j.Reads) > 0 {
		effects = append(effects, VoidedSign)
	}
	j.Printed, j.PrintRev, j.TriedRev, j.Reads, j.State = by(e), j.PlanRev, j.PlanRev, nil, OnTest
	return j, effects, nil
}

// planChanged tells a lead that what they did was done to a plan that stands no more.
func planChanged(j Job, e Event, so, command string) error {
	return fault(PlanChanged, "The plan of job %d has changed: it is plan %d now, and this was for plan %d. Nothing was recorded. Look at it with: job %d; %s: %s %d",
		j.ID, j.PlanRev, e.PlanRev, j.ID, so, command, j.ID)
}

// stepRead records one check of the test print.
func stepRead(j Job, e Event, now time.Time) (Job, []Effect, error) {
	made := j.Printed
	switch {
	case j.State == OnTest:
	case j.State == Refused && !e.Pass && vetoed(j):
		made = j.Refusal.Printed // more of the print that was turned down
	case j.State == Refused:
		return j, nil, fault(WrongState, "Job %d was refused, and no step that passes can undo that: a new test print can. When it is made, type: printed %d", j.ID, j.ID)
	default:
		return j, nil, wrongState(j, "there is no test print to read")
	}
	check, in := j.Plan.Step(e.Step)
	if !in {
		return j, nil, noSuchStep(j, e)
	}
	if !e.Pass && !given(e.Note) {
		return j, nil, fault(NeedsReason, "Say what was wrong, so that the next plan can change it: fail %d %s NOTE", j.ID, check.Code)
	}
	r := Read{Pass: e.Pass, Note: e.Note, Stamp: by(e)}
	if ready := readyAfter(made.At, check); e.At.Before(ready) {
		switch {
		case given(e.Early):
			r.Early = e.Early
		case !e.Pass:
			r.Early = e.Note // a failure need not wait: it can only keep a job from the run, and its note says why
		default:
			return j, nil, fault(TooEarly, "%s of job %d cannot be read before %s. Then type: pass %d %s. To read it now, say why: pass %d %s early REASON",
				title(check), j.ID, when(ready, now), j.ID, check.Code, j.ID, check.Code)
		}
	}
	if !e.Pass {
		e.Early = r.Early
		return failed(j, e, made)
	}
	j.Reads = cloned(j.Reads)
	j.Reads[check.Code] = r
	return j, []Effect{ShowCard}, nil
}

// title names a check in a sentence.
func title(c rules.Check) string {
	if c.Title != "" {
		return c.Title
	}
	return "The step " + c.Code
}

// noSuchStep lists the codes that can be typed.
func noSuchStep(j Job, e Event) error {
	have := codes(j.Plan.Checklist)
	verb, list := "pass", strings.Join(have, ", ")
	if !e.Pass {
		verb = "fail"
	}
	f := &Fault{Kind: NoSuchStep, Steps: have, Say: fmt.Sprintf("Job %d has no step %q. Its steps are: %s. Type: %s %d STEP", j.ID, e.Step, list, verb, j.ID)}
	if len(have) == 0 {
		f.Say = fmt.Sprintf("Job %d has no steps to read. %s", j.ID, NextWords(j))
	}
	return f
}

// failed turns down the test print made then, because of one check or as a whole (Step ""). One failure is a veto.
func failed(j Job, e Event, made Stamp) (Job, []Effect, error) {
	rev := j.PlanRev
	if j.State == Refused && j.Refusal != nil {
		rev = j.Refusal.PlanRev // the print that was turned down already, made to the plan before this one
	}
	rec := j.Record
	if e.Plan != nil {
		rec = e.Record
	}
	if len(rec.Failures) <= len(j.Record.Failures) {
		rec.Failures = append(slices.Clip(j.Record.Failures), Failure(j, e.Step, e.Note))
	}
	if made.By.Role == "" && vetoed(j) {
		made = j.Refusal.Printed // refused again before another print was made: the first veto still stands
	}
	j.Refusal = &Refusal{PlanRev: rev, Step: e.Step, Reason: e.Note, Printed: made, Stamp: by(e)}
	j.State = Refused
	effects := []Effect{TellRefusal, CheckAlerts}
	if e.Plan == nil {
		if e.Step != "" && j.PrintRev != 0 {
			j.Reads = cloned(j.Reads)
			j.Reads[e.Step] = Read{Note: e.Note, Early: e.Early, Stamp: by(e)}
		}
		stood := j.SignOff != nil
		j.Record, j.SignOff = rec, nil
		if stood {
			effects = append(effects, VoidedSign)
		}
		return j, append(effects, ShowCard), nil
	}
	j, stood := replan(j, *e.Plan, rec)
	if stood {
		effects = append(effects, VoidedSign)
	}
	return j, append(effects, ShowPlan), nil
}

// Failure is what a failed check teaches: what was on press for every print of the present plan. The next plan is made from a record that
// holds it.
func Failure(j Job, step, note string) rules.Failure {
	f := rules.Failure{Step: step, Note: note}
	var setups []string
	for l, line := range j.Plan.Lines {
		for p, pr := range line.Prints {
			c, ok := pr.Picked()
			if !ok {
				continue
			}
			f.Tried = append(f.Tried, rules.Try{Line: l, Print: p, Method: c.Method, Base: c.Setup.Base})
			words := string(c.Method)
			if b := c.Setup.Base; b != "" && b != rules.NoBase {
				words += " on " + string(b)
			}
			if h := c.Setup.Heat; h != nil {
				words += fmt.Sprintf(" at %g to %g °C", h.TempC[0], h.TempC[1])
			}
			if !slices.Contains(setups, words) {
				setups = append(setups, words)
			}
		}
	}
	f.Setups = strings.Join(setups, "; ")
	return f
}

// signedOff clears a tested job for the run.
func signedOff(j Job, e Event, now time.Time) (Job, []Effect, error) {
	if j.State != OnTest {
		return j, nil, wrongState(j, "there is nothing to sign off")
	}
	if e.PlanRev != j.PlanRev || j.PrintRev != j.PlanRev {
		return j, nil, planChanged(j, e, "to sign that one off, type", "sign")
	}
	if len(j.Plan.Checklist) == 0 && (j.Plan.TestPrint || j.Plan.WashTest) {
		return j, nil, fault(NotAllRead, "The plan of job %d asks for a test print and lists no steps, so nothing shows that it passed. Make another plan with: pick %d METHOD", j.ID, j.ID)
	}
	if missing := Missing(j); len(missing) > 0 {
		return j, nil, notAllRead(j, missing, now)
	}
	j.SignOff = &SignOff{PlanRev: j.PlanRev, Stamp: by(e)}
	j.Refusal = nil
	j.State = Cleared
	return j, []Effect{ShowCard, TellClearing, DropAlerts}, nil
}

// notAllRead names the steps that a sign-off waits for, and until when.
func notAllRead(j Job, missing []rules.Check, now time.Time) error {
	words := make([]string, len(missing))
	for i, c := range missing {
		words[i] = c.Code
		if ready := Ready(j, c); now.Before(ready) {
			words[i] += " (until " + when(ready, now) + ")"
		}
	}
	return &Fault{Kind: NotAllRead, Steps: codes(missing),
		Say: fmt.Sprintf("Job %d waits for: %s. Record each with: pass %d STEP", j.ID, strings.Join(words, ", "), j.ID)}
}

// refused turns a job down as a whole.
func refused(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	switch j.State {
	case OnTest, TestDue, Planned, Cleared:
	default:
		return j, nil, wrongState(j, "there is nothing to refuse")
	}
	if !given(e.Note) {
		return j, nil, fault(NeedsReason, "Say why, so that the next plan can change it: refuse %d REASON", j.ID)
	}
	e.Step = ""
	return failed(j, e, j.Printed)
}

// cleared lets a job with nothing to test go to the run.
func cleared(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	if j.State != Planned {
		return j, nil, wrongState(j, "it cannot be cleared without a test")
	}
	j.SignOff = &SignOff{PlanRev: j.PlanRev, Stamp: by(e)}
	j.Refusal = nil
	j.State = Cleared
	return j, []Effect{ShowCard, TellClearing, DropAlerts}, nil
}
