package job_test

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// The people and the clock of these tests are invented.
var (
	rep  = job.Actor{ID: "U1", Name: "Rhea", Role: job.Rep}
	lead = job.Actor{ID: "U2", Name: "Lennart", Role: job.Lead}
	desk = job.Actor{ID: "desk", Name: "strikeoff", Role: job.Desk}
	noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
)

// planOf is a plan with one print and the given checks: "wash/24" waits 24 hours.
func planOf(method rules.Method, test bool, checks ...string) rules.Plan {
	p := rules.Plan{TestPrint: test, WashTest: test, Lines: rules.List[rules.LinePlan]{{Prints: rules.List[rules.PrintPlan]{{
		Pick: method, Choices: rules.List[rules.Choice]{{Method: method, Verdict: rules.Test, Setup: rules.Setup{Base: rules.LowBleedWhite}}},
	}}}}}
	for _, c := range checks {
		code, hours, waits := strings.Cut(c, "/")
		check := rules.Check{Code: code, Title: "Check " + code}
		if waits {
			if err := json.Unmarshal([]byte(hours), &check.WaitHours); err != nil {
				panic(err)
			}
		}
		p.Checklist = append(p.Checklist, check)
	}
	return p
}

func opening(p rules.Plan) job.Event {
	return job.Event{Kind: job.Opened, By: rep, Text: "72 black tees", Order: &rules.Order{}, Plan: &p, Where: job.Place{Door: "console", Room: "shop", Thread: "1"}}
}

// after applies events an hour apart from noon on and fails where one is refused.
func after(t *testing.T, events ...job.Event) (job.Job, []job.Entry) {
	t.Helper()
	j := job.Job{ID: 12}
	var all []job.Entry
	for i, e := range events {
		next, entries, _, err := job.Apply(j, noon.Add(time.Duration(i)*time.Hour), e)
		if err != nil {
			t.Fatalf("event %d (%s): %v", i, e.Kind, err)
		}
		j, all = next, append(all, entries...)
	}
	return j, all
}

func read(step string, pass bool, note string) job.Event {
	return job.Event{Kind: job.StepRead, By: lead, Step: step, Pass: pass, Note: note}
}

func print1(rev int) job.Event { return job.Event{Kind: job.Printed, By: lead, PlanRev: rev} }
func sign(rev int) job.Event   { return job.Event{Kind: job.SignedOff, By: lead, PlanRev: rev} }

// Ensure the state follows from the plan.
func TestStateIsDerivedFromThePlan(t *testing.T) {
	wash := planOf(rules.Plastisol, false, "wash")
	wash.WashTest = true
	for _, c := range []struct {
		name string
		plan rules.Plan
		want job.State
	}{
		{"nothing was decided", rules.Plan{}, job.Asking},
		{"a print has no pick", planOf("", true, "wash"), job.Asking},
		{"a test print is asked for", planOf(rules.Plastisol, true, "wash"), job.TestDue},
		{"a wash test alone", wash, job.TestDue},
		{"nothing to test", planOf(rules.Plastisol, false, "look"), job.Planned},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, _ := after(t, opening(c.plan))
			if j.State != c.want || j.PlanRev != 1 || j.Revision != 1 {
				t.Errorf("state %q, plan %d, revision %d; want %q, 1, 1", j.State, j.PlanRev, j.Revision, c.want)
			}
		})
	}
}

// Ensure a tested job goes from the request to the run, and that what stands is what was recorded.
func TestTestedJobIsCleared(t *testing.T) {
	j, entries := after(t, opening(planOf(rules.Plastisol, true, "rub", "wash/2")), print1(1), read("rub", true, ""), read("wash", true, "no bleed"), sign(1))
	if j.State != job.Cleared || j.SignOff == nil || j.SignOff.PlanRev != 1 || j.SignOff.By != lead {
		t.Fatalf("state %q, sign-off %+v", j.State, j.SignOff)
	}
	if j.Revision != 5 || j.LastHash != entries[4].Hash {
		t.Errorf("revision %d, last hash %q", j.Revision, j.LastHash)
	}
	if r := j.Reads["wash"]; !r.Pass || r.Note != "no bleed" || r.Early != "" {
		t.Errorf("wash read = %+v", r)
	}
}

// Ensure every refusal says its kind and what to type, and changes nothing.
func TestRefusals(t *testing.T) {
	tested := planOf(rules.Plastisol, true, "rub", "wash/24")
	free := planOf(rules.Plastisol, false, "look")
	open := opening(tested)
	closing := job.Event{Kind: job.ClosedIt, By: rep, Note: "customer left"}
	amend := job.Event{Kind: job.Amended, By: rep, Order: &rules.Order{}, Plan: &tested}
	as := func(e job.Event, a job.Actor) job.Event { e.By = a; return e }
	for _, c := range []struct {
		name   string
		before []job.Event
		then   job.Event
		kind   job.FaultKind
		says   string
	}{
		{"a rep signs", []job.Event{open, print1(1)}, as(sign(1), rep), job.NotAllowed, "Only a production lead can sign off"},
		{"nobody known signs", []job.Event{open, print1(1)}, as(sign(1), job.Actor{ID: "U9"}), job.NotAllowed, "Only a production lead"},
		{"the desk signs", []job.Event{open, print1(1)}, as(sign(1), desk), job.NotAllowed, "Only a production lead"},
		{"a rep prints", []job.Event{open}, as(print1(1), rep), job.NotAllowed, "Only a production lead can record a test print"},
		{"a stranger closes", []job.Event{open}, as(closing, job.Actor{ID: "U9"}), job.NotAllowed, "Only a rep or a production lead"},
		{"a stranger opens", nil, as(open, job.Actor{ID: "U9"}), job.NotAllowed, "Only a rep or a production lead"},
		{"sign before the print", []job.Event{open}, sign(1), job.WrongState, "printed 12"},
		{"sign with steps unread", []job.Event{open, print1(1)}, sign(1), job.NotAllRead, "Job 12 waits for: rub, wash (until Thu 26 Nov 13:00). Record each with: pass 12 STEP"},
		{"sign another plan", []job.Event{open, amend, print1(2)}, sign(1), job.PlanChanged, "The plan of job 12 has changed"},
		{"print to another plan", []job.Event{open, amend}, print1(1), job.PlanChanged, "printed 12"},
		{"print to no plan named", []job.Event{open}, print1(0), job.PlanChanged, "it is plan 1 now"},
		{"print what has no pick", []job.Event{opening(planOf("", true))}, print1(1), job.WrongState, "pick 12 METHOD"},
		{"read without a print", []job.Event{open}, read("rub", true, ""), job.WrongState, "printed 12"},
		{"read a step that is not there", []job.Event{open, print1(1)}, read("smell", true, ""), job.NoSuchStep, "rub, wash"},
		{"read too early", []job.Event{open, print1(1)}, read("wash", true, ""), job.TooEarly, "Thu 26 Nov 13:00"},
		{"fail without a note", []job.Event{open, print1(1)}, read("rub", false, " "), job.NeedsReason, "fail 12 rub NOTE"},
		{"pass after a failure", []job.Event{open, print1(1), read("rub", false, "flakes")}, read("rub", true, ""), job.WrongState, "printed 12"},
		{"sign after a failure", []job.Event{open, print1(1), read("rub", false, "flakes")}, sign(1), job.WrongState, "printed 12"},
		{"fail what was refused unprinted", []job.Event{open, {Kind: job.RefusedIt, By: lead, Note: "no"}}, read("rub", false, "x"), job.WrongState, "printed 12"},
		{"clear what must be tested", []job.Event{open}, job.Event{Kind: job.ClearedIt, By: lead}, job.WrongState, "printed 12"},
		{"a rep clears", []job.Event{opening(free)}, job.Event{Kind: job.ClearedIt, By: rep}, job.NotAllowed, "Only a production lead can clear"},
		{"refuse without a reason", []job.Event{open}, job.Event{Kind: job.RefusedIt, By: lead}, job.NeedsReason, "refuse 12 REASON"},
		{"refuse twice", []job.Event{open, {Kind: job.RefusedIt, By: lead, Note: "no"}}, job.Event{Kind: job.RefusedIt, By: lead, Note: "no"}, job.WrongState, "is refused"},
		{"close without a reason", []job.Event{open}, job.Event{Kind: job.ClosedIt, By: rep}, job.NeedsReason, "close 12 REASON"},
		{"amend what is closed", []job.Event{open, closing}, amend, job.WrongState, "reopen 12"},
		{"pick in what is closed", []job.Event{open, closing}, job.Event{Kind: job.Picked, By: rep, Plan: &free, Chosen: rules.Chosen{Method: rules.DTF}}, job.WrongState, "reopen 12"},
		{"close twice", []job.Event{open, closing}, closing, job.WrongState, "reopen 12"},
		{"reopen what is open", []job.Event{open}, job.Event{Kind: job.Reopened, By: rep}, job.WrongState, "nothing to reopen"},
		{"pick nothing", []job.Event{open}, job.Event{Kind: job.Picked, By: rep, Plan: &free}, job.NeedsReason, "pick 12 METHOD"},
		{"open twice", []job.Event{open}, open, job.Again, "job 12"},
		{"a job that never was", nil, print1(1), job.NoJobYet, "jobs"},
		{"an alert by a person", []job.Event{open}, job.Event{Kind: job.AlertSent, By: lead, Key: "k"}, job.Malformed, "desk"},
		{"an alert twice", []job.Event{open, {Kind: job.AlertSent, By: desk, Key: "k"}}, job.Event{Kind: job.AlertSent, By: desk, Key: "k"}, job.Again, "went out already"},
		{"an amendment without a plan", []job.Event{open}, job.Event{Kind: job.Amended, By: rep}, job.Malformed, "lacks"},
		{"no kind", []job.Event{open}, job.Event{By: rep}, job.Malformed, "no known kind"},
		{"a test plan with no steps", []job.Event{opening(planOf(rules.DTF, true)), print1(1)}, sign(1), job.NotAllRead, "lists no steps"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, _ := after(t, c.before...)
			was := asJSON(t, j)
			got, effects, err := job.Step(j, c.then, noon.Add(time.Duration(len(c.before))*time.Hour))
			var f *job.Fault
			if !errors.As(err, &f) {
				t.Fatalf("error = %v, want a Fault", err)
			}
			if f.Kind != c.kind || !strings.Contains(f.Say, c.says) {
				t.Errorf("fault = %s %q, want %s %q", f.Kind, f.Say, c.kind, c.says)
			}
			if asJSON(t, got) != was || asJSON(t, j) != was || len(effects) > 0 {
				t.Errorf("a refused event changed the job or had effects %v", effects)
			}
		})
	}
}

// Ensure one failure vetoes, the next plan voids what stood, more failures of the same print add up, and only a new print lifts the veto.
func TestOneFailureVetoes(t *testing.T) {
	first, second := planOf(rules.Plastisol, true, "rub", "wash/24"), planOf(rules.DTF, true, "rub", "wash/1")
	fail := read("rub", false, "flakes at the edge")
	fail.Plan, fail.Record = &second, rules.Record{Failures: []rules.Failure{{Step: "rub", Note: "flakes at the edge"}}}
	j, _ := after(t, opening(first), print1(1), fail)
	if j.State != job.Refused || j.PlanRev != 2 || j.PrintRev != 0 || j.Reads != nil || j.Refusal == nil || j.Refusal.PlanRev != 1 || j.Refusal.Step != "rub" {
		t.Fatalf("after the failure: state %q, plan %d, print %d, reads %v, refusal %+v", j.State, j.PlanRev, j.PrintRev, j.Reads, j.Refusal)
	}
	j, _, _, err := job.Apply(j, noon.Add(3*time.Hour), read("wash", false, "bled at once"))
	if err != nil {
		t.Fatal(err)
	}
	if len(j.Record.Failures) != 2 || j.Record.Failures[1].Step != "wash" || j.Refusal.PlanRev != 1 {
		t.Errorf("failures %+v, refusal %+v", j.Record.Failures, j.Refusal)
	}
	// A rep's pick of a method that needs no test does not lift the veto.
	free := planOf(rules.WaterBased, false, "look")
	j, _, _, err = job.Apply(j, noon.Add(4*time.Hour), job.Event{Kind: job.Picked, By: rep, Plan: &free, Chosen: rules.Chosen{Method: rules.WaterBased}})
	if err != nil {
		t.Fatal(err)
	}
	if j.State != job.TestDue || len(j.Record.Failures) != 2 {
		t.Errorf("after the pick: state %q, failures %v; want test-due with both failures", j.State, j.Record.Failures)
	}
	j, _, _, err = job.Apply(j, noon.Add(5*time.Hour), print1(3), read("look", true, ""), sign(3))
	if err != nil || j.State != job.Cleared || j.Refusal != nil {
		t.Errorf("after a new print: %v, state %q, refusal %v", err, j.State, j.Refusal)
	}
}

// Ensure an amended order voids what stood, whatever stood.
func TestAmendmentVoids(t *testing.T) {
	p := planOf(rules.Plastisol, true, "rub")
	amend := job.Event{Kind: job.Amended, By: rep, Order: &rules.Order{Customer: "Invented Rowing Club"}, Plan: &p}
	for name, before := range map[string][]job.Event{
		"a print":    {opening(p), print1(1)},
		"a read":     {opening(p), print1(1), read("rub", true, "")},
		"a sign-off": {opening(p), print1(1), read("rub", true, ""), sign(1)},
	} {
		j, _ := after(t, before...)
		next, effects, err := job.Step(j, amend, noon.Add(9*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		if next.State != job.TestDue || next.PlanRev != 2 || next.SignOff != nil || next.PrintRev != 0 || next.Reads != nil || next.Order.Customer == "" {
			t.Errorf("%s: %+v", name, next)
		}
		if !slices.Contains(effects, job.VoidedSign) || !slices.Contains(effects, job.ShowPlan) {
			t.Errorf("%s: effects %v", name, effects)
		}
	}
	j, _ := after(t, opening(p))
	if _, effects, _ := job.Step(j, amend, noon); slices.Contains(effects, job.VoidedSign) {
		t.Errorf("nothing stood, yet effects are %v", effects)
	}
}

// Ensure an early read is taken with a reason, and the reason is kept.
func TestEarlyReadNeedsAReason(t *testing.T) {
	j, _ := after(t, opening(planOf(rules.Plastisol, true, "wash/24")), print1(1))
	early := read("wash", true, "")
	early.Early = "customer collects tonight"
	next, _, err := job.Step(j, early, noon.Add(2*time.Hour))
	if err != nil || next.Reads["wash"].Early != early.Early {
		t.Errorf("error %v, read %+v", err, next.Reads["wash"])
	}
	// At or after the wait the reason is not needed and not kept as one.
	next, _, err = job.Step(j, early, noon.Add(25*time.Hour))
	if err != nil || next.Reads["wash"].Early != "" {
		t.Errorf("error %v, read %+v", err, next.Reads["wash"])
	}
	// The wait must be over by both clocks.
	claims := read("wash", true, "")
	claims.At = noon.Add(48 * time.Hour)
	if _, _, err = job.Step(j, claims, noon.Add(2*time.Hour)); err == nil {
		t.Error("a message dated in the future shortened the wait")
	}
}

// Ensure closing keeps what stood, and reopening brings it back.
func TestCloseAndReopen(t *testing.T) {
	j, _ := after(t, opening(planOf(rules.Plastisol, true, "rub")), print1(1), read("rub", true, ""),
		job.Event{Kind: job.ClosedIt, By: rep, Note: "on hold"}, job.Event{Kind: job.Reopened, By: rep}, sign(1))
	if j.State != job.Cleared || j.CloseWhy != "" || j.Before != "" {
		t.Errorf("state %q, why %q, before %q", j.State, j.CloseWhy, j.Before)
	}
}

// Ensure a reprint voids the reads of the print before, and that a careful shop may test what needs no test.
func TestReprint(t *testing.T) {
	j, _ := after(t, opening(planOf(rules.Plastisol, false, "look")), print1(1), read("look", true, ""), print1(1))
	if j.State != job.OnTest || len(j.Reads) != 0 {
		t.Errorf("state %q, reads %v", j.State, j.Reads)
	}
}

// Ensure odd clocks and figures do no harm.
func TestOddClocks(t *testing.T) {
	p := planOf(rules.Plastisol, true, "a", "b", "c", "d")
	for i, h := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		p.Checklist[i].WaitHours = h
	}
	for _, now := range []time.Time{{}, time.Unix(0, 0), noon, time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(-400, 1, 1, 0, 0, 0, 0, time.UTC)} {
		j := job.Job{ID: 12}
		for _, e := range []job.Event{opening(p), print1(1), read("a", true, ""), read("c", true, ""), sign(1)} {
			next, _, _, err := job.Apply(j, now, e)
			if err == nil {
				j, now = next, now.Add(-time.Hour)
			}
		}
		if j.State != job.OnTest {
			t.Errorf("now %v: state %q", now, j.State)
		}
	}
}

// asJSON is a job as text, to compare.
func asJSON(t *testing.T, j job.Job) string {
	t.Helper()
	b, err := json.Marshal(j)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Ensure a job that is refused a second time, before another print was made, still carries the first veto: an amendment must not make it a
// job with nothing to test.
func TestSecondRefusalKeepsTheVeto(t *testing.T) {
	plain := planOf(rules.Plastisol, false, "cure")
	amend := job.Event{Kind: job.Amended, By: rep, Text: "make it 60", Order: &rules.Order{}, Plan: &plain}
	j, _ := after(t, opening(plain),
		job.Event{Kind: job.Printed, By: lead, PlanRev: 1},
		job.Event{Kind: job.RefusedIt, By: lead, Note: "hand too stiff"},
		amend,
		job.Event{Kind: job.RefusedIt, By: lead, Note: "still no", Plan: &plain},
		amend)
	if j.State != job.TestDue {
		t.Errorf("the job is %s, want %s: only a new print lifts a veto", j.State, job.TestDue)
	}
	if _, _, _, err := job.Apply(j, noon.Add(24*time.Hour), job.Event{Kind: job.ClearedIt, By: lead}); err == nil {
		t.Error("a job was cleared over a veto")
	}
}
