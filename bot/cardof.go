package bot

import (
	"time"

	"strikeoff/bot/job"
)

// CardOf is a job as people see it at the given time, with times in the shop's own zone.
func CardOf(j job.Job, now time.Time, zone *time.Location) Card {
	return Card{Job: j.ID, State: j.State, PlanRev: j.PlanRev, Headline: j.Plan.Summary, Customer: string(j.Order.Customer)}
}

// RowOf is a job as one line of a list.
func RowOf(j job.Job, now time.Time, zone *time.Location) Row {
	return Row{Job: j.ID, State: j.State, Customer: string(j.Order.Customer)}
}
