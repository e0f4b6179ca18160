package bot

import (
	"fmt"
	"strings"

	"strikeoff/bot/job"
)

var amendCommand = command{
	verb:  "amend",
	usage: Usage{Form: "amend N WORDS", Does: "changes the order, or answers a question, as words in its thread do", Example: "amend 12 make it 60, in navy"},
	onJob: true, changes: true,
	meant: withReason,
	do: func(t *turn, a args) error {
		if strings.TrimSpace(a.rest) == "" {
			return half(fmt.Sprintf("Say what changes: amend %d WORDS, as in: amend %d make it 60, in navy", t.job.ID, t.job.ID))
		}
		said, err := t.amend(a.rest)
		if err == nil && !said {
			return half(fmt.Sprintf("I read no change to job %d in that. Say it as in: amend %d make it 60, in navy", t.job.ID, t.job.ID))
		}
		return err
	},
}

var orderCommand = command{
	verb:  "order",
	usage: Usage{Form: "order: WORDS", Does: "has any words read as a request, even where they do not look like one", Example: "order: the usual for the choir"},
	meant: func(_ job.Job, a args) bool { return a.colon && a.id == 0 && a.rest != "" },
	do: func(t *turn, a args) error {
		if a.rest == "" && a.id == 0 {
			return half("Say what is ordered: order: WORDS, as in: order: 48 black cotton tees, white front print")
		}
		text := a.rest
		if a.id != 0 {
			text = fmt.Sprintf("%d %s", a.id, a.rest) // "order 48 tees": the number counts goods
		}
		t.in.Text = text
		return t.open(t.d.Read(text, t.options()))
	},
}
