package bot

import (
	"fmt"

	"strikeoff/bot/job"
)

var closeCommand = command{
	verb:  "close",
	usage: Usage{Form: "close N REASON", Does: "ends a job", Example: "close 12 customer cancelled"},
	onJob: true, bare: true, changes: true,
	meant: withReason,
	do: func(t *turn, a args) error {
		if t.job.State == job.Closed {
			return half(t.line("is closed already: %s To open it again, type: %s", stopped(t.job.CloseWhy), t.words("reopen")))
		}
		if endsQuietly(a.rest) {
			return half(fmt.Sprintf("Say why, so that it can be read later: close %d REASON", t.job.ID))
		}
		if err := t.happen(job.Event{Kind: job.ClosedIt, Note: a.rest}); err != nil {
			return err
		}
		t.tell(t.line("is closed by %s: %s To open it again, type: %s", t.by.Name, stopped(a.rest), t.words("reopen")))
		return nil
	},
}
