package bot

import (
	"fmt"
	"strings"

	"strikeoff/bot/job"
)

var helpCommand = command{
	verb:  "help",
	usage: Usage{Form: "help [COMMAND]", Does: "shows what can be said", Example: "help pass"},
	meant: func(_ job.Job, a args) bool {
		rest := strings.Trim(a.rest, " .?!")
		return a.id == 0 && !a.colon && (rest == "" || verbOf(rest) != nil)
	},
	do: func(t *turn, a args) error {
		if c := verbOf(strings.Trim(a.rest, " .?!")); c != nil {
			t.reply(Post{Help: []Usage{c.usage}})
			return nil
		}
		t.reply(Post{Text: fmt.Sprintf("Paste a customer's request and its plan comes back in a thread. In that thread, answer the questions, say what changes, " +
			"and leave the number out of a command. Type to me:"), Help: Commands()})
		return nil
	},
}
