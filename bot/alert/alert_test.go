package alert_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"strikeoff/bot/alert"
	"strikeoff/bot/job"
	"strikeoff/rules"
)

var (
	rep  = job.Actor{ID: "U1", Role: job.Rep}
	lead = job.Actor{ID: "U2", Role: job.Lead}
	desk = job.Actor{ID: "desk", Role: job.Desk}
	// 25 November 2026 is a Wednesday.
	noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("shop", -5*3600))
)

func plan(test bool, checks ...rules.Check) *rules.Plan {
	return &rules.Plan{TestPrint: test, WashTest: test, Checklist: checks,
		Lines: rules.List[rules.LinePlan]{{Prints: rules.List[rules.PrintPlan]{{Pick: rules.Plastisol}}}}}
}

var checks = []rules.Check{{Code: "rub"}, {Code: "wash", WaitHours: 24}, {Code: "stretch", WaitHours: 24}, {Code: "age", WaitHours: 72}}

// steps applies events at noon and fails where one is refused.
func steps(t *testing.T, due rules.Date, p *rules.Plan, more ...job.Event) job.Job {
	t.Helper()
	open := job.Event{Kind: job.Opened, By: rep, Plan: p, Order: &rules.Order{Due: due, Customer: "<!channel> Invented Club",
		Lines: rules.List[rules.Line]{{Quantity: rules.Said(72), Garment: "t-shirt"}}}}
	j, _, _, err := job.Apply(job.Job{ID: 12}, noon, append([]job.Event{open}, more...)...)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// keys tells which alerts are due.
func keys(alerts []alert.Alert) []string {
	var out []string
	for _, a := range alerts {
		out = append(out, a.To+" "+a.Key)
	}
	return out
}

func TestDue(t *testing.T) {
	tested := plan(true, checks...)
	printed := job.Event{Kind: job.Printed, By: lead, PlanRev: 1}
	toldOf := job.Event{Kind: job.AlertSent, By: desk, Key: "test:12:1:wash-test+plastisol"}
	film := plan(true, checks...)
	film.Lines[0].Prints[0].Pick = rules.DTF
	amended := func(p *rules.Plan) job.Event {
		return job.Event{Kind: job.Amended, By: rep, Plan: p, Order: &rules.Order{Lines: rules.List[rules.Line]{{Quantity: rules.Said(73), Garment: "t-shirt"}}}}
	}
	printKey := fmt.Sprintf("production read:12:1:%d:", noon.Unix())
	h24, h72 := noon.Add(24*time.Hour), noon.Add(72*time.Hour)
	day := func(d, hour int) time.Time { return time.Date(2026, 12, d, hour, 0, 0, 0, noon.Location()) }
	for _, c := range []struct {
		name string
		job  job.Job
		now  time.Time
		want []string
		next time.Time
	}{
		{"a test is told at once", steps(t, "", tested), noon, []string{"production test:12:1:wash-test+plastisol"}, noon},
		{"a job with nothing to test is quiet", steps(t, "", plan(false, checks...)), noon, nil, time.Time{}},
		{"a wait has begun", steps(t, "", tested, printed), noon, nil, h24},
		{"steps that become ready together are told together", steps(t, "", tested, printed), h24, []string{printKey + fmt.Sprint(h24.Unix())}, h24},
		{"a later one is told later", steps(t, "", tested, printed), h72, []string{printKey + fmt.Sprint(h24.Unix()), printKey + fmt.Sprint(h72.Unix())}, h24},
		{"what was read is not told", steps(t, "", tested, printed,
			job.Event{Kind: job.StepRead, By: lead, Step: "wash", Pass: true, Early: "hurry"}, job.Event{Kind: job.StepRead, By: lead, Step: "stretch", Pass: true, Early: "hurry"}),
			h24, nil, h72},
		{"a new plan after a refusal", steps(t, "", tested, printed, job.Event{Kind: job.StepRead, By: lead, Step: "rub", Note: "flakes", Plan: tested}), noon,
			[]string{"production test:12:2:wash-test+plastisol"}, noon},
		{"a refusal without a new plan", steps(t, "", tested, printed, job.Event{Kind: job.RefusedIt, By: lead, Note: "no"}), noon, nil, time.Time{}},
		{"a date far off", steps(t, "2026-12-18", plan(false)), noon, nil, day(15, 8)},
		{"a Friday in danger from Tuesday on", steps(t, "2026-12-18", plan(false)), day(15, 8), []string{"production danger:12:2026-12-18:production"}, day(15, 8)},
		{"a Monday in danger from Wednesday on", steps(t, "2026-12-21", plan(false)), day(16, 7), nil, day(16, 8)},
		{"on the day itself", steps(t, "2026-12-18", plan(false)), day(18, 9), []string{"production late:12:2026-12-18:production"}, day(18, 8)},
		{"an answer is owed: the thread is told", steps(t, "2026-12-18", &rules.Plan{}), day(15, 8), []string{"thread danger:12:2026-12-18:thread"}, day(15, 8)},
		{"a cleared job is quiet", steps(t, "2026-12-18", plan(false), job.Event{Kind: job.ClearedIt, By: lead}), day(18, 9), nil, time.Time{}},
		{"a closed job is quiet", steps(t, "2026-12-18", tested, job.Event{Kind: job.ClosedIt, By: rep, Note: "gone"}), day(18, 9), nil, time.Time{}},
		{"what went out is quiet", steps(t, "", tested, toldOf), noon, nil, time.Time{}},
		{"a piece more is nothing to be called for", steps(t, "", tested, toldOf, amended(tested)), noon, nil, time.Time{}},
		{"another method is", steps(t, "", tested, toldOf, amended(film)), noon, []string{"production test:12:2:wash-test+dtf"}, noon},
		{"and so is the first one again", steps(t, "", tested, toldOf, amended(film), job.Event{Kind: job.AlertSent, By: desk, Key: "test:12:2:wash-test+dtf"}, amended(tested)), noon,
			[]string{"production test:12:3:wash-test+plastisol"}, noon},
		{"a print that an amendment voided must be made again", steps(t, "", tested, toldOf, printed, amended(tested)), noon,
			[]string{"production test:12:2:wash-test+plastisol"}, noon},
		{"a date that is none", steps(t, "soon", plan(false)), noon, nil, time.Time{}},
		{"no job", job.Job{}, noon, nil, time.Time{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := keys(alert.Due(c.job, c.now)); !slices.Equal(got, c.want) {
				t.Errorf("due %q, want %q", got, c.want)
			}
			if got := alert.Next(c.job, c.now); !got.Equal(c.next) {
				t.Errorf("next %v, want %v", got, c.next)
			}
		})
	}
}

func TestWords(t *testing.T) {
	j := steps(t, "2026-12-18", plan(true, checks...))
	got := alert.Due(j, noon)
	want := "Job 12 needs a wash test before the run (72 × t-shirt, plastisol, due Fri 18 Dec 2026). When the test print is made, type: printed 12"
	if len(got) != 1 || got[0].Text != want {
		t.Fatalf("got %+v, want %q", got, want)
	}
	if never := (alert.Settings{DangerDays: -1}).Next(steps(t, "2026-12-18", plan(false)), noon); !never.IsZero() {
		t.Errorf("dates are not watched, yet next is %v", never)
	}
}

// Ensure, for any job and time: nothing is due before Next, something is due at Next, an alert that was recorded is not due again, and what
// a customer wrote is not in the text.
func TestNextAgreesWithDue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []rules.Check
		for i, h := range rapid.SliceOfN(rapid.SampledFrom([]float64{0, 0.5, 24, 24, 72}), 0, 5).Draw(t, "waits") {
			list = append(list, rules.Check{Code: fmt.Sprint("c", i), WaitHours: h})
		}
		due := rules.DateOf(noon.AddDate(0, 0, rapid.IntRange(-5, 30).Draw(t, "due")))
		if rapid.Bool().Draw(t, "undated") {
			due = ""
		}
		p := plan(rapid.Bool().Draw(t, "tested"), list...)
		events := []job.Event{{Kind: job.Opened, By: rep, Plan: p, Order: &rules.Order{Due: due, Customer: "<!channel>"}}}
		if rapid.Bool().Draw(t, "printed") {
			events = append(events, job.Event{Kind: job.Printed, By: lead, PlanRev: 1})
		}
		j, _, _, err := job.Apply(job.Job{ID: 3}, noon, events...)
		if err != nil {
			t.Fatal(err)
		}
		now := noon
		for range 12 {
			next := alert.Next(j, now)
			if next.IsZero() {
				if d := alert.Due(j, now.AddDate(1, 0, 0)); len(d) > 0 {
					t.Fatalf("Next says never, and a year on %v is due", keys(d))
				}
				return
			}
			if next.After(now) {
				if d := alert.Due(j, next.Add(-time.Nanosecond)); len(d) > 0 {
					t.Fatalf("%v is due before Next", keys(d))
				}
				now = next
			}
			d := alert.Due(j, now)
			if len(d) == 0 {
				t.Fatalf("nothing is due at Next %v", next)
			}
			for _, a := range d {
				if strings.Contains(a.Text, "channel") || a.Key == "" || a.Text == "" {
					t.Fatalf("alert %+v", a)
				}
				if j, _, _, err = job.Apply(j, now, job.Event{Kind: job.AlertSent, By: desk, Key: a.Key}); err != nil {
					t.Fatal(err)
				}
			}
			if d := alert.Due(j, now); len(d) > 0 {
				t.Fatalf("%v is due again", keys(d))
			}
		}
		b, _ := json.Marshal(j)
		t.Fatalf("alerts without end: %s", b)
	})
}
