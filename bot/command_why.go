package bot

import (
	"fmt"
	"strings"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var whyCommand = command{
	verb:  "why",
	usage: Usage{Form: "why N [METHOD]", Does: "gives every reason, for the methods picked or for one", Example: "why 12 dtg"},
	onJob: true,
	meant: func(j job.Job, a args) bool {
		_, ok := whyAsked(a.rest)
		return ok && j.ID != 0 && !a.colon
	},
	do: tellWhy,
}

// whyAsked reads which method is asked about: "" for those that were picked.
func whyAsked(rest string) (rules.Method, bool) {
	rest = strings.Trim(rest, " .?!")
	if rest == "" {
		return "", true
	}
	m, after, ok := methodIn(strings.TrimPrefix(strings.ToLower(rest), "not "))
	return m, ok && after == ""
}

// tellWhy answers with every reason behind a verdict, each with what it rests on.
func tellWhy(t *turn, a args) error {
	m, ok := whyAsked(a.rest)
	if !ok {
		return half(fmt.Sprintf("There is no method %q. Type why %d, or why %d and one of: %s", short(a.rest, 40), t.job.ID, t.job.ID, list(rules.Methods)))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Job %d", t.job.ID)
	if m != "" {
		fmt.Fprintf(&b, ", %s", word(methodWords, m))
	}
	b.WriteString(":\n")
	told := 0
	for i, l := range t.job.Plan.Lines {
		for k, p := range l.Prints {
			for _, c := range p.Choices {
				if m != "" && c.Method != m || m == "" && c.Method != p.Pick {
					continue
				}
				told++
				fmt.Fprintf(&b, "%s\n", sentence(fmt.Sprintf("%s: %s: %s", printName(t.job.Order, i, k), word(verdictWords, c.Verdict), setupOrName(c))))
				for _, r := range c.Why {
					fmt.Fprintf(&b, "  - %s (%s)\n", strings.TrimRight(r.Text, "."), r.Basis)
				}
			}
			if m == "" && p.Pick != "" {
				tellOthers(&b, p)
			}
		}
	}
	if told == 0 && m == "" {
		b.WriteString("nothing is picked yet. " + headline(t.job, t.now, t.d.Zone))
	} else if told == 0 {
		b.WriteString("it was not weighed: the shop does not have it, or nothing can be weighed before the open questions are answered.")
	}
	t.say(strings.TrimRight(b.String(), "\n"))
	return nil
}

// tellOthers writes the methods that were not picked for a print, each with the reason that weighs most.
func tellOthers(b *strings.Builder, p rules.PrintPlan) {
	head := "  What else there is:\n"
	for _, c := range p.Choices {
		if c.Method == p.Pick || len(c.Why) == 0 {
			continue
		}
		fmt.Fprintf(b, "%s  - %s: %s: %s\n", head, word(methodWords, c.Method), word(verdictWords, c.Verdict), strings.TrimRight(c.Why[0].Text, "."))
		head = ""
	}
}

// setupOrName is the setup of a method that works, and the bare name of one that does not.
func setupOrName(c rules.Choice) string {
	if c.Verdict == rules.No {
		return word(methodWords, c.Method)
	}
	return setup(c)
}
