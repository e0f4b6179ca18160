package bot

import (
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// actions are what can be done with a job now, most likely first. What a lead confirms carries the plan that the card shows, so that a
// late press cannot confirm a plan that nobody saw.
func actions(j job.Job, now time.Time) []Action {
	a := book{j: j}
	switch j.State {
	case job.Asking:
		a.answers()
		a.picks()
	case job.Planned:
		a.add(Action{Label: "Clear for the run", Command: a.seen("sign"), Lead: true, Group: "job"})
		a.picks()
	case job.TestDue, job.Refused:
		if !j.Plan.Open() {
			a.add(Action{Label: "Test print made", Command: a.seen("printed"), Lead: true, Group: "job"})
		}
		a.answers()
		a.picks()
	case job.OnTest:
		a.reads(now)
		if len(job.Missing(j)) == 0 {
			a.add(Action{Label: "Sign off", Command: a.seen("sign"), Lead: true, Group: "job"})
		}
	case job.Closed:
		a.add(Action{Label: "Reopen", Command: a.of("reopen"), Group: "job"})
		return a.list
	}
	if j.State != job.Asking && j.State != job.Refused {
		a.add(Action{Label: "Refuse", Command: a.of("refuse"), Needs: "reason", Lead: true, Group: "job"})
	}
	a.add(Action{Label: "Amend", Command: a.of("amend"), Needs: "change", Group: "job"},
		Action{Label: "Close", Command: a.of("close"), Needs: "reason", Group: "job"})
	return a.list
}

// book collects actions on one job.
type book struct {
	j    job.Job
	list []Action
}

func (b *book) add(a ...Action)       { b.list = append(b.list, a...) }
func (b *book) of(verb string) string { return fmt.Sprintf("%s %d", verb, b.j.ID) }
func (b *book) seen(verb string) string {
	return fmt.Sprintf("%s %d plan %d", verb, b.j.ID, b.j.PlanRev)
}

// answers are the quick answers to what is asked first.
func (b *book) answers() {
	for _, q := range b.j.Plan.Questions[:min(2, len(b.j.Plan.Questions))] {
		for _, words := range quickAnswers(q) {
			b.add(Action{Label: words, Command: fmt.Sprintf("amend %d %s", b.j.ID, aimed(q.Field, words, b.j.Order)), Group: "answer"})
		}
	}
}

// picks are the methods that could be taken instead, print by print.
func (b *book) picks() {
	many := prints(b.j.Order) > 1
	for i, l := range b.j.Plan.Lines {
		for k, p := range l.Prints {
			for _, c := range p.Choices {
				if c.Verdict == rules.No || c.Method == p.Pick {
					continue
				}
				a := Action{Label: "Use " + word(methodWords, c.Method), Command: fmt.Sprintf("pick %d %s", b.j.ID, c.Method), Lead: stops(b.j.Plan), Group: "pick"}
				if many {
					at := fmt.Sprintf("%d.%d", i+1, k+1)
					a.Command += " " + at
					a.Label += " for " + printName(b.j.Order, i, k)
				}
				b.add(a)
			}
		}
	}
}

// reads are a pass and a fail for every step that is left: those that can be read first, a waiting one only with a reason.
func (b *book) reads(now time.Time) {
	var later []Action
	for _, c := range job.Missing(b.j) {
		title := c.Title
		if title == "" {
			title = c.Code
		}
		fail := Action{Label: "Failed: " + title, Command: fmt.Sprintf("fail %d %s", b.j.ID, c.Code), Needs: "note", Lead: true, Group: "step"}
		if now.Before(job.Ready(b.j, c)) {
			later = append(later, Action{Label: "Passed early: " + title, Command: fmt.Sprintf("pass %d %s early", b.j.ID, c.Code),
				Needs: "reason", Lead: true, Group: "step"}, fail)
			continue
		}
		b.add(Action{Label: "Passed: " + title, Command: fmt.Sprintf("pass %d %s", b.j.ID, c.Code), Lead: true, Group: "step"}, fail)
	}
	b.add(later...)
}

// prints counts the prints of an order.
func prints(o rules.Order) int {
	n := 0
	for _, l := range o.Lines {
		n += len(l.Prints)
	}
	return n
}

// printName names one print so that it can be told from the others: "front", "front of line 2", "print 1.2".
func printName(o rules.Order, line, print int) string {
	if line >= len(o.Lines) || print >= len(o.Lines[line].Prints) {
		return fmt.Sprintf("print %d.%d", line+1, print+1)
	}
	place := o.Lines[line].Prints[print].Place
	switch {
	case place == "":
		return fmt.Sprintf("print %d.%d", line+1, print+1)
	case len(o.Lines) > 1:
		return fmt.Sprintf("%s of line %d", word(placeWords, place), line+1)
	}
	return word(placeWords, place)
}
