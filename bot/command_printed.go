package bot

import (
	"strikeoff/bot/job"
)

var printedCommand = command{
	verb:  "printed",
	usage: Usage{Form: "printed N", Does: "records that the test print was made; waits count from now", Example: "printed 12", Lead: true},
	onJob: true, changes: true,
	meant: alone,
	do: func(t *turn, a args) error {
		if !endsQuietly(a.rest) {
			return half("Nothing was recorded. When the test print is made, type just: " + t.words("printed"))
		}
		if err := t.happen(job.Event{Kind: job.Printed, PlanRev: t.planSeen(a)}); err != nil {
			return err
		}
		t.tell(t.line("has its test print, made by %s. %s", t.by.Name, headline(t.job, t.now, t.d.Zone)))
		return nil
	},
}

// planSeen is the plan that a person confirms: the one on the card where a button was pressed, else the present one.
func (t *turn) planSeen(a args) int {
	if a.plan != 0 {
		return a.plan
	}
	return t.job.PlanRev
}
