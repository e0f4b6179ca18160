package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot/job"
)

// mostRows is how many jobs one list shows.
const mostRows = 15

var jobsWords = regexp.MustCompile(`(?i)^(all|open)?([a-z-]*)\s*(?:before #?(\d{1,9}))?$`)

var jobsCommand = command{
	verb:  "jobs",
	usage: Usage{Form: "jobs [STATE | all] [before N]", Does: "lists the open jobs, newest first", Example: "jobs test-due"},
	meant: func(_ job.Job, a args) bool {
		_, _, ok := jobsAsked(a.rest)
		return ok && a.id == 0 && !a.colon
	},
	do: listJobs,
}

// jobsAsked reads which jobs are asked for.
func jobsAsked(rest string) (states []job.State, below job.ID, ok bool) {
	m := jobsWords.FindStringSubmatch(strings.Trim(rest, " .?!"))
	if m == nil {
		return nil, 0, false
	}
	if n, err := strconv.ParseInt(m[3], 10, 64); err == nil {
		below = job.ID(n)
	}
	state := job.State(strings.ToLower(m[2]))
	switch {
	case m[1] == "" && state == "", strings.EqualFold(m[1], "open") && state == "":
		return OpenStates, below, true
	case strings.EqualFold(m[1], "all") && state == "":
		return nil, below, true
	case m[1] == "" && slices.Contains(job.States, state):
		return []job.State{state}, below, true
	}
	return nil, 0, false
}

// listJobs answers with one row a job.
func listJobs(t *turn, a args) error {
	states, below, ok := jobsAsked(a.rest)
	if !ok {
		return half(fmt.Sprintf("Jobs are listed by state. Type jobs, jobs all, or jobs and one of: %s", list(job.States)))
	}
	jobs, err := t.d.Ledger.Jobs(t.ctx, states, below, mostRows+1)
	if err != nil {
		return err
	}
	p := Post{}
	for _, j := range jobs[:min(mostRows, len(jobs))] {
		p.Rows = append(p.Rows, RowOf(j, t.now, t.d.Zone))
	}
	switch {
	case len(jobs) == 0:
		p.Text = "No such jobs. Paste a customer's request to open one."
	case len(jobs) > mostRows:
		last := p.Rows[mostRows-1].Job
		more := strings.TrimSpace(fmt.Sprintf("jobs %s before %d", strings.TrimSpace(regexp.MustCompile(`(?i)before.*`).ReplaceAllString(a.rest, "")), last))
		more = strings.Join(strings.Fields(more), " ")
		p.Text = fmt.Sprintf("The newest %d; for older ones type: %s", mostRows, more)
		p.Quick = []Action{{Label: "Older", Command: more}}
	case len(jobs) == 1:
		p.Text = "1 job:"
	default:
		p.Text = fmt.Sprintf("%d jobs, newest first:", len(jobs))
	}
	p.Link = t.link("On a board", func(l Links, until time.Time) string { return l.BoardLink(until) })
	t.reply(p)
	return nil
}
