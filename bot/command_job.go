package bot

import (
	"time"

	"strikeoff/bot/job"
)

var jobCommand = command{
	verb:  "job",
	usage: Usage{Form: "job N", Does: "shows a job with all its steps", Example: "job 12"},
	onJob: true,
	meant: alone,
	do: func(t *turn, _ args) error {
		card := FullCardOf(t.job, t.now, t.d.Zone)
		t.reply(Post{Card: &card, Link: t.link("On a page, to print as a ticket", func(l Links, until time.Time) string { return l.JobLink(t.job.ID, until) })})
		return nil
	},
}

var reopenCommand = command{
	verb:  "reopen",
	usage: Usage{Form: "reopen N", Does: "opens a closed job again, where it was", Example: "reopen 12"},
	onJob: true, bare: true, changes: true,
	meant: alone,
	do: func(t *turn, _ args) error {
		if err := t.happen(job.Event{Kind: job.Reopened}); err != nil {
			return err
		}
		t.tell(t.line("is open again. It waits for %s.", waits(t.job, t.now, t.d.Zone)))
		return nil
	},
}
