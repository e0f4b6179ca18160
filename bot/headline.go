package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// headline is what to do about a job, in one sentence or two.
func headline(j job.Job, now time.Time, zone *time.Location) string {
	summary := sentence(j.Plan.Summary)
	switch j.State {
	case job.Asking:
		switch {
		case summary != "":
			return summary
		case len(j.Plan.Questions) > 0:
			return "Ask the customer: " + sentence(j.Plan.Questions[0].Text)
		}
		return "Say what is to be printed: how many of what, in which fabric and colour, and where the print goes."
	case job.OnTest:
		return onTest(j, now, zone)
	case job.Refused:
		if summary == "" {
			return "Refused. Make a test print to the new plan."
		}
		return "Refused. " + summary
	case job.Cleared:
		if s := j.SignOff; s != nil {
			return fmt.Sprintf("Clear to run: signed off by %s, %s.", s.By.Name, hour(s.At, zone))
		}
		return "Clear to run."
	case job.Closed:
		return "Closed: " + stopped(j.CloseWhy)
	}
	if summary == "" {
		return sentence(waits(j, now, zone))
	}
	return summary
}

// onTest says what a test print waits for.
func onTest(j job.Job, now time.Time, zone *time.Location) string {
	missing := job.Missing(j)
	if len(missing) == 0 {
		return "Every step has passed: a lead signs it off, or refuses it."
	}
	slices.SortStableFunc(missing, func(a, b rules.Check) int { return job.Ready(j, a).Compare(job.Ready(j, b)) })
	var ready, later []string
	for i := 0; i < len(missing); {
		at, together := job.Ready(j, missing[i]), []string(nil)
		for ; i < len(missing) && job.Ready(j, missing[i]).Equal(at); i++ {
			together = append(together, missing[i].Code)
		}
		if now.Before(at) {
			later = append(later, list(together)+" from "+hour(at, zone))
		} else {
			ready = append(ready, together...)
		}
	}
	switch {
	case len(ready) == 0:
		return "The test print waits: read " + strings.Join(later, "; ") + "."
	case len(later) == 0:
		return "Read the test print now: " + list(ready) + "."
	}
	return "Read the test print now: " + list(ready) + "; then " + strings.Join(later, "; ") + "."
}

// waits says what a job waits for, and for whom.
func waits(j job.Job, now time.Time, zone *time.Location) string {
	switch j.State {
	case job.Asking:
		if len(j.Plan.Questions) > 0 {
			return "an answer: " + strings.TrimSpace(j.Plan.Questions[0].Text)
		}
		return "a person's decision"
	case job.Planned:
		return "a lead to clear it; there is nothing to test"
	case job.TestDue:
		return "a test print"
	case job.OnTest:
		missing := job.Missing(j)
		if len(missing) == 0 {
			return "a lead's sign-off"
		}
		first := missing[0]
		for _, c := range missing {
			if job.Ready(j, c).Before(job.Ready(j, first)) {
				first = c
			}
		}
		if at := job.Ready(j, first); now.Before(at) {
			return fmt.Sprintf("%s, to be read from %s", first.Code, hour(at, zone))
		}
		return fmt.Sprintf("%s, to be read by a lead", first.Code)
	case job.Refused:
		return "a test print to the new plan"
	case job.Cleared:
		return "the run"
	}
	return "nothing"
}
