package job_test

import (
	"errors"
	"maps"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// life is a job under random events, with what an honest bystander would have noted down about the present test print. The bystander knows
// nothing of Step: it is told only which events were taken.
type life struct {
	j       job.Job
	now     time.Time
	entries []job.Entry

	plan    rules.Plan // as the last taken event gave it
	planRev int
	madeTo  int // the plan the print on the table was made to; 0 for none
	madeAt  time.Time
	good    map[string]bool // checks that passed on that print, waits over or a lead's reason given
	vetoed  bool            // a print was turned down and no other made since
	signer  job.Actor
	looked  int
}

// cleared and tested count what the model saw, so that it cannot pass for want of anything to see.
var cleared, tested int

// Ensure that no sequence of events clears a job with a check unread, failed or read too early, with a sign-off by somebody who is no lead,
// or to another plan than the print was made to; and that the history always verifies and replays to the same job.
func TestNothingUntestedIsCleared(t *testing.T) {
	cleared, tested = 0, 0
	for range 3 { // three times the usual hundred lives
		rapid.Check(t, live)
	}
	if cleared == 0 || tested == 0 {
		t.Fatalf("of all lives %d were cleared and %d after a test: nothing was checked", cleared, tested)
	}
	t.Logf("%d states seen cleared, %d of them after a test", cleared, tested)
}

// live is one life.
func live(t *rapid.T) {
	l := &life{j: job.Job{ID: 12}, now: noon}
	begin := drawPlan(t)
	l.take(t, opening(begin))
	l.replan(begin)
	// Half of the lives are nudged along the way to the run, or few would get there: the model would have nothing to say.
	nudged := rapid.Bool().Draw(t, "nudged")
	actions := map[string]func(*rapid.T){
		"": func(t *rapid.T) { l.check(t) },
		"open or amend or pick": func(t *rapid.T) {
			p := drawPlan(t)
			kind := rapid.SampledFrom([]job.Kind{job.Opened, job.Amended, job.Picked}).Draw(t, "kind")
			if nudged && !l.vetoed && rapid.IntRange(0, 3).Draw(t, "skip") > 0 {
				t.Skip()
			}
			e := job.Event{Kind: kind, By: drawActor(t), Order: &rules.Order{}, Plan: &p, Chosen: rules.Chosen{Method: rules.DTF}}
			if l.take(t, e) {
				l.replan(p)
			}
		},
		"print": func(t *rapid.T) {
			e := job.Event{Kind: job.Printed, By: drawActor(t), PlanRev: l.drawRev(t)}
			if l.take(t, e) {
				l.madeTo, l.madeAt, l.good, l.vetoed = e.PlanRev, l.now, map[string]bool{}, false
			}
		},
		"read": func(t *rapid.T) {
			steps := []string{"rub", "wash", "stretch", "smell"}
			if missing := job.Missing(l.j); nudged && len(missing) > 0 {
				steps = []string{missing[0].Code, missing[len(missing)-1].Code}
			}
			e := job.Event{Kind: job.StepRead, By: drawActor(t), Step: rapid.SampledFrom(steps).Draw(t, "step"),
				Pass: rapid.IntRange(0, 7).Draw(t, "pass") > 0, Note: rapid.SampledFrom([]string{"", "seen"}).Draw(t, "note"),
				Early: rapid.SampledFrom([]string{"", "", "", "customer waits"}).Draw(t, "early"), At: l.now.Add(time.Duration(rapid.IntRange(-30, 30).Draw(t, "skew")) * time.Hour)}
			if !e.Pass && rapid.Bool().Draw(t, "replans") {
				p := drawPlan(t)
				e.Plan = &p
			}
			check, _ := l.plan.Step(e.Step)
			if !l.take(t, e) {
				return
			}
			if e.By.Role != job.Lead {
				t.Fatalf("%s read a step", e.By.Role)
			}
			if !e.Pass {
				l.vetoed = true
				if e.Plan != nil {
					l.replan(*e.Plan)
					l.vetoed = true
				}
				return
			}
			read := l.now
			if e.At.Before(read) {
				read = e.At
			}
			over := !read.Before(l.madeAt.Add(time.Duration(check.WaitHours * float64(time.Hour))))
			if over || e.Early != "" {
				l.good[e.Step] = true
			}
		},
		"sign": func(t *rapid.T) {
			e := job.Event{Kind: job.SignedOff, By: drawSigner(t), PlanRev: l.drawRev(t)}
			if l.take(t, e) {
				if e.PlanRev != l.planRev {
					t.Fatalf("a sign-off of plan %d was taken, the plan is %d", e.PlanRev, l.planRev)
				}
				l.signer = e.By
			}
		},
		"clear": func(t *rapid.T) {
			e := job.Event{Kind: job.ClearedIt, By: drawSigner(t)}
			if l.take(t, e) {
				l.signer = e.By
			}
		},
		"refuse": func(t *rapid.T) {
			e := job.Event{Kind: job.RefusedIt, By: drawActor(t), Note: rapid.SampledFrom([]string{"", "hand too stiff"}).Draw(t, "note")}
			if rapid.Bool().Draw(t, "replans") {
				p := drawPlan(t)
				e.Plan = &p
			}
			printed := l.madeTo != 0
			if l.take(t, e) {
				if e.Plan != nil {
					l.replan(*e.Plan)
				}
				l.vetoed = l.vetoed || printed
			}
		},
		"close": func(t *rapid.T) {
			l.take(t, job.Event{Kind: job.ClosedIt, By: drawActor(t), Note: rapid.SampledFrom([]string{"", "gone"}).Draw(t, "note")})
		},
		"reopen": func(t *rapid.T) { l.take(t, job.Event{Kind: job.Reopened, By: drawActor(t)}) },
		"alert": func(t *rapid.T) {
			l.take(t, job.Event{Kind: job.AlertSent, By: drawActor(t), Key: rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, "key")})
		},
		"wait": func(t *rapid.T) {
			l.now = l.now.Add(time.Duration(rapid.IntRange(-5, 30).Draw(t, "hours")) * time.Hour)
		},
	}
	for _, often := range []string{"print", "read", "sign", "clear"} {
		actions["again "+often], actions["once more "+often] = actions[often], actions[often]
	}
	t.Repeat(actions)
	l.verify(t)
}

func (l *life) verify(t *rapid.T) {
	if err := job.VerifyJob(l.j, l.entries); err != nil {
		t.Fatal(err)
	}
}

// take gives the job an event and reports whether it was taken.
func (l *life) take(t *rapid.T, e job.Event) bool {
	reads, alerts := maps.Clone(l.j.Reads), maps.Clone(l.j.Alerted)
	next, entries, effects, err := job.Apply(l.j, l.now, e)
	if !maps.Equal(reads, l.j.Reads) || !maps.Equal(alerts, l.j.Alerted) {
		t.Fatalf("the job that was given changed: %v %v", l.j.Reads, l.j.Alerted)
	}
	if err != nil {
		var f *job.Fault
		if !errors.As(err, &f) || f.Say == "" || f.Kind == "" || len(effects) > 0 || len(entries) > 0 {
			t.Fatalf("a refusal without words, or with effects: %v", err)
		}
		return false
	}
	if e.Kind == job.AlertSent != (e.By.Role == job.Desk) {
		t.Fatalf("%s by %q was taken", e.Kind, e.By.Role)
	}
	if l.j.State == job.Closed && e.Kind != job.Reopened && e.Kind != job.AlertSent {
		t.Fatalf("%s was taken by a closed job", e.Kind)
	}
	l.j, l.entries = next, append(l.entries, entries...)
	return true
}

// replan notes that the plan changed: whatever was printed and signed was for another one.
func (l *life) replan(p rules.Plan) {
	l.plan, l.planRev = p, l.planRev+1
	l.madeTo, l.madeAt, l.good, l.signer = 0, time.Time{}, nil, job.Actor{}
}

func (l *life) drawRev(t *rapid.T) int {
	return l.planRev + rapid.SampledFrom([]int{0, 0, 0, -1, 1}).Draw(t, "rev")
}

// check is what must hold whatever happened.
func (l *life) check(t *rapid.T) {
	if l.j.Revision == 0 {
		return
	}
	if l.looked++; l.looked%8 == 0 { // the whole history each time would take most of the test's time
		l.verify(t)
	}
	if l.j.PlanRev != l.planRev || l.j.Revision != len(l.entries) || !slices.Contains(job.States, l.j.State) {
		t.Fatalf("plan %d, want %d; revision %d, want %d; state %q", l.j.PlanRev, l.planRev, l.j.Revision, len(l.entries), l.j.State)
	}
	state := l.j.State
	if state == job.Closed {
		state = l.j.Before
	}
	if state != job.Cleared {
		if l.j.SignOff != nil {
			t.Fatalf("a sign-off stands on a job that is %s", state)
		}
		return
	}
	switch s := l.j.SignOff; {
	case s == nil || s.By.Role != job.Lead || s.By != l.signer:
		t.Fatalf("cleared by %+v", s)
	case s.PlanRev != l.planRev:
		t.Fatalf("cleared to plan %d, the plan is %d", s.PlanRev, l.planRev)
	case l.plan.Open():
		t.Fatal("cleared with a print that has no method")
	case l.vetoed:
		t.Fatal("cleared over a veto")
	}
	cleared++
	needs := l.plan.TestPrint || l.plan.WashTest
	if l.madeTo == 0 {
		if needs {
			t.Fatal("cleared without a test print")
		}
		return
	}
	tested++
	if l.madeTo != l.planRev {
		t.Fatalf("cleared on a print made to plan %d, the plan is %d", l.madeTo, l.planRev)
	}
	for _, c := range l.plan.Checklist {
		if !l.good[c.Code] {
			t.Fatalf("cleared with %s unread, failed or read too early", c.Code)
		}
	}
}

func drawPlan(t *rapid.T) rules.Plan {
	method := rapid.SampledFrom([]rules.Method{rules.Plastisol, rules.DTF, rules.Plastisol, ""}).Draw(t, "method")
	checks := rapid.SampledFrom([][]string{{"rub", "wash/24"}, {"rub"}, {"rub", "wash/24", "stretch/1"}, {}}).Draw(t, "checks")
	return planOf(method, rapid.IntRange(0, 2).Draw(t, "tested") > 0, checks...)
}

func drawActor(t *rapid.T) job.Actor {
	return rapid.SampledFrom([]job.Actor{lead, lead, lead, lead, lead, lead, lead, rep, desk, {ID: "U9"}, {ID: "U8", Role: "owner"}}).Draw(t, "by")
}

// drawSigner is somebody who signs, half of the time somebody who may not.
func drawSigner(t *rapid.T) job.Actor {
	return rapid.SampledFrom([]job.Actor{lead, lead, rep, {ID: "U9"}}).Draw(t, "by")
}
