package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var pickCommand = command{
	verb:  "pick",
	usage: Usage{Form: "pick N METHOD [PLACE | LINE.PRINT | all]", Does: "takes another method for a print", Example: "pick 12 dtf front"},
	onJob: true, bare: true, changes: true,
	meant: func(j job.Job, a args) bool {
		if j.ID == 0 || a.colon {
			return false
		}
		if _, rest, ok := methodIn(a.rest); ok {
			_, aimed := printsAt(j.Order, rest)
			return aimed || len(strings.Fields(rest)) == 1
		}
		return endsQuietly(a.rest) || a.numbered() && len(strings.Fields(a.rest)) == 1 && !countsGoods(a.rest)
	},
	do: pick,
}

// at is one print of an order.
type at struct{ line, print int }

// pick takes a method for one print, or for all.
func pick(t *turn, a args) error {
	id := t.job.ID
	m, rest, ok := methodIn(a.rest)
	if !ok {
		return half(fmt.Sprintf("Say which method: pick %d METHOD. The methods are: %s", id, list(rules.Methods)))
	}
	where, ok := printsAt(t.job.Order, rest)
	if !ok {
		return half(fmt.Sprintf("Job %d has no print %q. Its prints are: %s. Type: pick %d %s PLACE", id, short(rest, 40), strings.Join(printNames(t.job.Order), ", "), id, m))
	}
	if len(where) > 1 && rest != "all" {
		p := Post{Text: fmt.Sprintf("Job %d has several prints: %s. Which one? Type: pick %d %s PLACE, or: pick %d %s all",
			id, strings.Join(printNames(t.job.Order), ", "), id, m, id, m)}
		for _, w := range where {
			p.Quick = append(p.Quick, Action{Label: printName(t.job.Order, w.line, w.print), Command: fmt.Sprintf("pick %d %s %d.%d", id, m, w.line+1, w.print+1), Group: "pick"})
		}
		t.reply(p)
		return nil
	}
	if len(where) == 0 {
		return half(fmt.Sprintf("Job %d has no print yet. Say in its thread where the print goes.", id))
	}
	if stopped := stops(t.job.Plan); stopped && t.by.Role != job.Lead {
		return &job.Fault{Kind: job.NotAllowed, Say: fmt.Sprintf("The plan of job %d stops for a person to decide, so only a production lead can pick a method in spite of it. "+
			"Job %d is as it was; ask a lead to type it.", id, id)}
	}
	before := t.job
	var done []string
	for _, w := range where {
		if no := t.refusedBy(w, m); no != "" {
			return half(fmt.Sprintf("%s does not work for the %s: %s Nothing was changed; for more, type: why %d %s", capital(word(methodWords, m)), printName(t.job.Order, w.line, w.print), no, id, m))
		}
		rec := t.job.Record
		rec.Chosen = slices.DeleteFunc(slices.Clone(rec.Chosen), func(c rules.Chosen) bool { return c.Line == w.line && c.Print == w.print })
		c := rules.Chosen{Line: w.line, Print: w.print, Method: m, After: len(rec.Failures)}
		rec.Chosen = append(rec.Chosen, c)
		plan, rec := t.plan(t.job.Order, rec)
		if w.line >= len(plan.Lines) || w.print >= len(plan.Lines[w.line].Prints) || plan.Lines[w.line].Prints[w.print].Pick != m {
			return half(fmt.Sprintf("%s cannot be used for the %s as things stand. Nothing was changed; for the reasons, type: why %d %s",
				capital(word(methodWords, m)), printName(t.job.Order, w.line, w.print), id, m))
		}
		if err := t.happen(job.Event{Kind: job.Picked, Chosen: c, Plan: &plan, Record: rec}); err != nil {
			return err
		}
		done = append(done, printName(t.job.Order, w.line, w.print))
	}
	t.tell(t.line("takes %s for the %s now.%s", word(methodWords, m), list(done), voidWords(before)) + t.nowWords(before))
	return nil
}

// stops reports whether a plan holds a stop: something that a person must decide before anything is printed.
func stops(p rules.Plan) bool {
	return slices.ContainsFunc(p.Cautions, func(c rules.Caution) bool { return c.Severity == rules.Stop })
}

// newStop reports whether a plan holds a stop that another did not.
func newStop(was, is rules.Plan) bool {
	return slices.ContainsFunc(is.Cautions, func(c rules.Caution) bool {
		return c.Severity == rules.Stop && !slices.ContainsFunc(was.Cautions, func(o rules.Caution) bool { return o.Severity == rules.Stop && o.Code == c.Code })
	})
}

// refusedBy is why a method cannot be picked for a print; "" where it can.
func (t *turn) refusedBy(w at, m rules.Method) string {
	if w.line >= len(t.job.Plan.Lines) || w.print >= len(t.job.Plan.Lines[w.line].Prints) {
		return ""
	}
	for _, c := range t.job.Plan.Lines[w.line].Prints[w.print].Choices {
		if c.Method == m && c.Verdict == rules.No {
			if len(c.Why) > 0 {
				return sentence(c.Why[0].Text)
			}
			return "the plan rules it out."
		}
	}
	return ""
}

var linePrint = regexp.MustCompile(`^(?:line |print )?(\d{1,3})(?:\.(\d{1,3}))?$`)

// printsAt finds the prints that words name: every print for "" and "all".
func printsAt(o rules.Order, words string) ([]at, bool) {
	words = strings.ToLower(strings.Trim(words, " .!"))
	words = strings.TrimPrefix(strings.TrimPrefix(words, "for "), "the ")
	of := 0
	if head, tail, ok := strings.Cut(words, " of line "); ok {
		n, err := strconv.Atoi(tail)
		if err != nil {
			return nil, false
		}
		words, of = head, n
	}
	m := linePrint.FindStringSubmatch(words)
	var out []at
	for i, l := range o.Lines {
		for k, p := range l.Prints {
			switch {
			case of != 0 && of != i+1:
			case m != nil:
				line, _ := strconv.Atoi(m[1])
				print, _ := strconv.Atoi(m[2])
				if line == i+1 && (m[2] == "" || print == k+1) {
					out = append(out, at{i, k})
				}
			case words == "" || words == "all" || p.Place == rules.Place(strings.ReplaceAll(words, " ", "-")):
				out = append(out, at{i, k})
			}
		}
	}
	return out, len(out) > 0 || words == "" || words == "all"
}

// printNames names every print of an order.
func printNames(o rules.Order) []string {
	var out []string
	for i, l := range o.Lines {
		for k := range l.Prints {
			out = append(out, printName(o, i, k))
		}
	}
	return out
}
