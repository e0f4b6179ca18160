package bot

import (
	"fmt"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var failCommand = command{
	verb:  "fail",
	usage: Usage{Form: "fail N STEP NOTE", Does: "records that a step failed and what was seen; the next plan says what to change", Example: "fail 12 wash pink cast in the white", Lead: true},
	onJob: true, bare: true, changes: true,
	meant: stepMeant,
	do:    fail,
}

var refuseCommand = command{
	verb:  "refuse",
	usage: Usage{Form: "refuse N REASON", Does: "turns the job down as a whole", Example: "refuse 12 white is too thin", Lead: true},
	onJob: true, bare: true, changes: true,
	meant: withReason,
	do:    refuse,
}

// fail records a failed step: the test print is refused, and the next plan is made from what was seen.
func fail(t *turn, a args) error {
	s := readSteps(t.job.Plan.Checklist, a.rest, 1)
	if len(s.codes) == 0 {
		return t.whichStep("fail", s)
	}
	note := s.note
	if note == "" {
		note = s.early
	}
	code := s.codes[0]
	if note == "" {
		return half(fmt.Sprintf("Say what was wrong, so that the next plan can change it: fail %d %s NOTE", t.job.ID, code))
	}
	plan, rec := t.learn(code, note)
	if err := t.happen(job.Event{Kind: job.StepRead, Step: code, Note: note, Early: s.early, Plan: &plan, Record: rec}); err != nil {
		return err
	}
	t.tell(t.line("is refused: %s failed, read by %s: %s", code, t.by.Name, stopped(note)) + "\nNext: " + sentence(t.job.Plan.Summary))
	return nil
}

// refuse turns the job down as a whole.
func refuse(t *turn, a args) error {
	if endsQuietly(a.rest) {
		return half(fmt.Sprintf("Say why, so that the next plan can change it: refuse %d REASON", t.job.ID))
	}
	plan, rec := t.learn("", a.rest)
	if err := t.happen(job.Event{Kind: job.RefusedIt, Note: a.rest, Plan: &plan, Record: rec}); err != nil {
		return err
	}
	t.tell(t.line("is refused by %s: %s", t.by.Name, stopped(a.rest)) + "\nNext: " + sentence(t.job.Plan.Summary))
	return nil
}

// learn is the next plan, made from the record with one failure more.
func (t *turn) learn(step, note string) (rules.Plan, rules.Record) {
	f := job.Failure(t.job, step, note)
	rec := t.job.Record
	if n := len(rec.Failures); t.job.State == job.Refused && n > 0 {
		// What is still being read is the print that was turned down, not one made to the plan that stands now.
		f.Setups, f.Tried = rec.Failures[n-1].Setups, rec.Failures[n-1].Tried
	}
	rec.Failures = append(rec.Failures[:len(rec.Failures):len(rec.Failures)], f)
	return t.plan(t.job.Order, rec)
}
