package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// mostWhy is how many reasons a print shows: more are not read beside a press. All of them are told by the command why.
const mostWhy = 3

// CardOf is a job as people see it at the given time, with times in the shop's own zone.
func CardOf(j job.Job, now time.Time, zone *time.Location) Card {
	c := Card{Job: j.ID, State: j.State, PlanRev: j.PlanRev, Headline: headline(j, now, zone), Customer: plain(string(j.Order.Customer)),
		Due: dueWords(j.Order), Steps: steps(j, now, zone), Odd: j.Odd, Unread: unread(j.Order.Unread), Actions: actions(j, now)}
	c.Brief = brief(j, c.Steps)
	c.Untested = !j.Plan.TestPrint && !j.Plan.WashTest
	for i, l := range j.Order.Lines {
		c.Lines = append(c.Lines, cardLine(l, i, j.Plan))
	}
	for _, ca := range j.Plan.Cautions {
		c.Cautions = append(c.Cautions, Note{Severity: string(ca.Severity), Text: ca.Text})
	}
	slices.SortStableFunc(c.Cautions, func(a, b Note) int { return cmp.Compare(weight[b.Severity], weight[a.Severity]) })
	if j.State != job.Cleared && j.State != job.Closed {
		for _, q := range j.Plan.Questions {
			c.Questions = append(c.Questions, Ask{Field: q.Field, Text: q.Text, Quick: quickAnswers(q)})
		}
	}
	for _, a := range j.Plan.Assumptions {
		c.Assumed = append(c.Assumed, a.Text)
	}
	if s := j.SignOff; s != nil {
		c.SignedBy = s.By.Name + ", " + hour(s.At, zone)
	}
	if r := j.Refusal; r != nil && j.State != job.Cleared {
		c.Refusal = refusalWords(*r, zone)
	}
	return c
}

// weight orders cautions, stops first.
var weight = map[string]int{string(rules.Stop): 2, string(rules.Care): 1}

// A card is for reading: of what was not used it shows this many stretches, and this many characters of each.
const mostUnread, mostStretch = 8, 300

// unread is what was not used of a message, without what no one can see.
func unread(texts []string) []string {
	var out []string
	for _, s := range texts {
		if len(out) == mostUnread {
			return append(out, "…")
		}
		if s = plain(s); s == "" {
			continue
		}
		if r := []rune(s); len(r) > mostStretch {
			s = string(r[:mostStretch]) + "…"
		}
		out = append(out, s)
	}
	return out
}

// dueWords says when the goods are needed.
func dueWords(o rules.Order) string {
	if o.Due == "" {
		return ""
	}
	return day(o.Due)
}

// refusalWords says who turned a test print down and why: "wash, by Lin Ode, Thu 26 Nov 10:00: pink cast".
func refusalWords(r job.Refusal, zone *time.Location) string {
	what := "the job"
	if r.Step != "" {
		what = r.Step
	}
	return fmt.Sprintf("%s, by %s, %s: %s", what, r.By.Name, hour(r.At, zone), r.Reason)
}

// cardLine is one order line and its answer.
func cardLine(l rules.Line, i int, p rules.Plan) Line {
	out := Line{What: lineWhat(l)}
	if i < len(p.Migration) {
		out.Migration = migration(p.Migration[i])
	}
	for k, pr := range l.Prints {
		cp := Print{Where: printWhere(pr), Do: "no method yet: see what to ask"}
		if i < len(p.Lines) && k < len(p.Lines[i].Prints) {
			answerPrint(&cp, p.Lines[i].Prints[k])
		}
		out.Prints = append(out.Prints, cp)
	}
	return out
}

// lineWhat says one order line: "72 t-shirts, navy, cotton 100 %; S 10, M 30".
func lineWhat(l rules.Line) string {
	s := strings.Join([]string{garments(l), colours(l), blend(l)}, ", ")
	if z := sizes(l.Sizes); z != "" {
		s += "; " + z
	}
	return s
}

// answerPrint fills in what the plan says of a print.
func answerPrint(cp *Print, pp rules.PrintPlan) {
	picked, ok := pp.Picked()
	if ok {
		cp.Method, cp.Do = string(picked.Method), setup(picked)
		if picked.Verdict == rules.Expert {
			cp.Do += "; for a practised operator"
		}
		for _, r := range picked.Why[:min(mostWhy, len(picked.Why))] {
			cp.Why = append(cp.Why, r.Text)
		}
	}
	for _, c := range pp.Choices {
		if ok && c.Method == picked.Method {
			continue
		}
		o := Other{Method: string(c.Method), Verdict: string(c.Verdict)}
		if len(c.Why) > 0 {
			o.Why = c.Why[0].Text
		}
		cp.Others = append(cp.Others, o)
	}
}

// migration says a line's dye migration where there is something to say.
func migration(m rules.Migration) string {
	switch m.Risk {
	case "", rules.RiskNone:
		return ""
	case rules.RiskUnknown:
		return "dye migration: unknown until the fabric is known"
	}
	if m.After == m.Risk {
		return fmt.Sprintf("dye migration: %s", m.Risk)
	}
	return fmt.Sprintf("dye migration: %s with plain ink, %s with this setup", m.Risk, m.After)
}

// steps are the checklist with what was recorded on the present test print.
func steps(j job.Job, now time.Time, zone *time.Location) []Step {
	var out []Step
	for _, c := range j.Plan.Checklist {
		s := Step{Code: c.Code, Title: c.Title, How: c.How, Pass: c.Pass}
		ready := job.Ready(j, c)
		switch r, read := j.Reads[c.Code]; {
		case read && r.Pass:
			s.Mark, s.Note = "passed", readWords(r, zone)
		case read:
			s.Mark, s.Note = "failed", readWords(r, zone)
		case j.State == job.OnTest && now.Before(ready):
			s.Mark, s.Note = "waiting", "waits until "+hour(ready, zone)
		case c.WaitHours > 0 && j.State != job.OnTest:
			s.Note = "read " + figure(c.WaitHours) + " h after printing"
		}
		out = append(out, s)
	}
	return out
}

// brief leaves out how steps are done that cannot be read now, and reports whether it did: a card is read on a phone.
func brief(j job.Job, steps []Step) (left bool) {
	for i, s := range steps {
		if j.State == job.OnTest && s.Mark == "" {
			continue
		}
		left = left || s.How != "" && s.Mark != "passed" && s.Mark != "failed"
		steps[i].How, steps[i].Pass = "", ""
	}
	return left
}

// readWords says who read a step, when, and what they noted.
func readWords(r job.Read, zone *time.Location) string {
	s := r.By.Name + ", " + hour(r.At, zone)
	if r.Note != "" {
		s += ": " + r.Note
	}
	if r.Early != "" && r.Early != r.Note {
		s += " (read early: " + r.Early + ")"
	}
	return s
}

// RowOf is a job as one line of a list.
func RowOf(j job.Job, now time.Time, zone *time.Location) Row {
	return Row{Job: j.ID, State: j.State, Customer: plain(string(j.Order.Customer)), What: rowWhat(j.Order), Due: dueWords(j.Order), Waits: waits(j, now, zone)}
}

// rowWhat says an order in a few words: "72 t-shirts, navy, front; 1 line more".
func rowWhat(o rules.Order) string {
	if len(o.Lines) == 0 {
		return "nothing read yet"
	}
	l := o.Lines[0]
	parts := []string{garments(l)}
	if len(l.Colours) > 0 || l.Heather {
		parts = append(parts, colours(l))
	}
	var places []string
	for _, p := range l.Prints {
		if p.Place != "" {
			places = append(places, word(placeWords, p.Place))
		}
	}
	if len(places) > 0 {
		parts = append(parts, list(places))
	}
	s := strings.Join(parts, ", ")
	switch n := len(o.Lines) - 1; {
	case n == 1:
		s += "; 1 line more"
	case n > 1:
		s += fmt.Sprintf("; %d lines more", n)
	}
	return s
}
