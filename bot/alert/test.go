package alert

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"strikeoff/bot/job"
)

// test tells production that a test print must be made: once for every print that is to be made, and again where its method or its wash test
// changes before it is. That a piece more is ordered is in the job's card, and nothing to be called for.
func test(j job.Job, now time.Time) []Alert {
	again := j.State == job.Refused && j.Refusal != nil && j.PlanRev > j.Refusal.PlanRev && !j.Plan.Open()
	if j.State != job.TestDue && !again {
		return nil
	}
	what := "a test print"
	if j.Plan.WashTest {
		what = "a wash test"
	}
	kind := strings.ReplaceAll(strings.TrimPrefix(what, "a "), " ", "-") + "+" + strings.Join(picks(j), "+")
	if told(j) == kind {
		return nil
	}
	text := fmt.Sprintf("Job %d needs %s before the run%s.", j.ID, what, about(j))
	if again {
		text = fmt.Sprintf("Job %d was refused and has a new plan: it needs another %s%s.", j.ID, strings.TrimPrefix(what, "a "), about(j))
	}
	return []Alert{{Key: fmt.Sprintf("test:%d:%d:%s", j.ID, j.PlanRev, kind), To: Production, At: now,
		Text: text + fmt.Sprintf(" When the test print is made, type: printed %d", j.ID)}}
}

// told is the kind of test print that production was told of last, "" where it was told of none since the last one was made or refused.
func told(j job.Job) string {
	last, kind := j.TriedRev, ""
	if j.Refusal != nil {
		last = max(last, j.Refusal.PlanRev)
	}
	prefix := fmt.Sprintf("test:%d:", j.ID)
	for key := range j.Alerted {
		rest, ok := strings.CutPrefix(key, prefix)
		rev, what, _ := strings.Cut(rest, ":")
		if n, err := strconv.Atoi(rev); ok && err == nil && n > last {
			last, kind = n, what
		}
	}
	return kind
}
