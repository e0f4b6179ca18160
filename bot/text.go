package bot

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"strikeoff/rules"
)

// Text is a post as plain text, its lines at most width characters long where words allow; 0 wraps nothing. It is what a terminal shows,
// and what a platform falls back to. The first line says what to do.
func Text(p Post, width int) string {
	w := &writer{width: width}
	if p.Text != "" {
		w.paragraph(p.Text)
	}
	if p.Card != nil {
		w.gap()
		w.card(*p.Card)
	}
	if len(p.Rows) > 0 {
		w.gap()
		for _, r := range p.Rows {
			w.row(r)
		}
	}
	if len(p.Help) > 0 {
		w.gap()
		w.help(p.Help)
	}
	if p.Link != nil {
		w.gap()
		w.paragraph(p.Link.Label + ":\n" + p.Link.URL)
	}
	return strings.TrimRight(w.b.String(), "\n")
}

// Typed is what a person types for an action: its command without the plan that a button carries, and what must be added.
func Typed(a Action) string {
	s := a.Command
	if head, _, ok := strings.Cut(s, " plan "); ok && a.Group == "job" {
		s = head
	}
	if a.Needs != "" {
		s += " " + strings.ToUpper(a.Needs)
	}
	return s
}

// writer lays text out.
type writer struct {
	b     strings.Builder
	width int
}

// gap leaves one line empty, unless nothing stands above.
func (w *writer) gap() {
	if w.b.Len() > 0 && !strings.HasSuffix(w.b.String(), "\n\n") {
		w.b.WriteByte('\n')
	}
}

// head writes the line that a part begins with.
func (w *writer) head(s string) {
	w.gap()
	w.item("", s)
}

// paragraph writes text with its own line breaks kept.
func (w *writer) paragraph(s string) {
	for line := range strings.SplitSeq(strings.TrimRight(s, "\n"), "\n") {
		lead := line[:len(line)-len(strings.TrimLeft(line, " "))]
		w.item(lead, strings.TrimLeft(line, " "))
	}
}

// item writes one line after a lead-in; what does not fit goes on below, under its first word.
func (w *writer) item(lead, s string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	line, room := lead, w.width
	fresh := true
	for word := range strings.FieldsSeq(s) {
		if !fresh && room > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > room {
			w.b.WriteString(line + "\n")
			line, fresh = indent, true
		}
		if !fresh {
			line += " "
		}
		line, fresh = line+word, false
	}
	w.b.WriteString(strings.TrimRight(line, " ") + "\n")
}

// card writes a job's card: what to do, then why, cautions, checklist, questions.
func (w *writer) card(c Card) {
	w.item("", fmt.Sprintf("Job %d: %s", c.Job, c.Headline))
	if whom := whom(c); whom != "" {
		w.item("", whom)
	}
	if c.Refusal != "" {
		w.item("", "Refused: "+c.Refusal)
	}
	stop := func(n Note) bool { return n.Severity == string(rules.Stop) }
	w.cautions(c.Cautions, stop) // before anything that could be done
	for _, l := range c.Lines {
		w.line(l)
	}
	w.cautions(c.Cautions, func(n Note) bool { return !stop(n) })
	w.steps(c)
	w.list("Inspect the finished run:", c.Inspect)
	if len(c.Questions) > 0 {
		w.head("Ask the customer:")
	}
	for i, q := range c.Questions {
		w.item(fmt.Sprintf("  %d. ", i+1), q.Text)
	}
	w.list("Taken as usual, because the message did not say:", c.Assumed)
	w.list("Odd:", c.Odd)
	w.list("Not used, in the customer's words:", quoted(c.Unread))
	if next := nextWords(c); next != "" {
		w.head("Next: " + next)
	}
}

// cautions writes those of a kind, as a part of their own.
func (w *writer) cautions(notes []Note, of func(Note) bool) {
	first := true
	for _, n := range notes {
		if !of(n) {
			continue
		}
		if first {
			w.gap()
		}
		first = false
		w.item("", cautionWords[n.Severity]+n.Text)
	}
}

var cautionWords = map[string]string{string(rules.Stop): "STOP: ", string(rules.Care): "Caution: ", string(rules.Info): "Note: "}

// whom says whom a job is for and when it is due.
func whom(c Card) string {
	switch {
	case c.Customer != "" && c.Due != "":
		return fmt.Sprintf("For %s, due %s.", c.Customer, c.Due)
	case c.Customer != "":
		return "For " + c.Customer + "."
	case c.Due != "":
		return "Due " + c.Due + "."
	}
	return ""
}

// line writes one order line and its prints.
func (w *writer) line(l Line) {
	w.head(l.What)
	for i, p := range l.Prints {
		if i > 0 && p.Method != "" && p.Do == l.Prints[i-1].Do && p.Press == l.Prints[i-1].Press && slices.Equal(p.Why, l.Prints[i-1].Why) {
			w.item("  ", sentence(p.Where+": the same way"))
			continue
		}
		w.item("  ", sentence(p.Where+": "+p.Do))
		for _, why := range p.Why {
			w.item("    - ", why)
		}
		if p.Press != "" {
			w.item("    ", sentence(p.Press))
		}
		if o := OthersWords(p.Others); o != "" {
			w.item("    ", "Or: "+o)
		}
	}
	if l.Migration != "" {
		w.item("  ", sentence(l.Migration))
	}
}

// mostOthers is how many other methods a print names.
const mostOthers = 3

// OthersWords names the methods that could be taken instead, best first; the rest, and those that do not work, are left to the command why.
func OthersWords(others []Other) string {
	var parts []string
	for _, o := range others {
		if o.Verdict != string(rules.No) && len(parts) < mostOthers {
			parts = append(parts, fmt.Sprintf("%s (%s)", word(methodWords, rules.Method(o.Method)), word(verdictWords, rules.Verdict(o.Verdict))))
		}
	}
	return strings.Join(parts, ", ")
}

// steps writes the checklist.
func (w *writer) steps(c Card) {
	if len(c.Steps) == 0 {
		return
	}
	if c.Untested {
		w.head("Check on the first pieces:")
	} else {
		w.head("Test print:")
	}
	for _, s := range c.Steps {
		text := s.Code + ": " + s.Title
		if s.Title == "" {
			text = s.Code
		}
		if s.Mark != "passed" && s.Mark != "failed" {
			if s.How != "" {
				text = strings.TrimRight(text, ".") + ". " + sentence(s.How)
			}
			if s.Pass != "" {
				text += " Pass: " + sentence(s.Pass)
			}
		}
		if s.Note != "" {
			text = strings.TrimRight(text, ".") + " (" + s.Note + ")"
		}
		w.item("  "+boxes[s.Mark], text)
	}
	if c.Brief {
		w.item("  ", HowElsewhere(c))
	}
}

// HowElsewhere says where a card that is Brief has its steps' how.
func HowElsewhere(c Card) string { return fmt.Sprintf("How each is done: job %d", c.Job) }

// boxes are what stands before a step.
var boxes = map[string]string{"": "[ ] ", "passed": "[passed] ", "failed": "[FAILED] ", "waiting": "[waits] "}

// list writes a heading and its points, or nothing.
func (w *writer) list(head string, points []string) {
	if len(points) == 0 {
		return
	}
	w.head(head)
	for _, p := range points {
		w.item("  - ", p)
	}
}

// quoted puts the customer's words in quotation marks.
func quoted(words []string) []string {
	out := make([]string, len(words))
	for i, s := range words {
		out[i] = `"` + strings.Join(strings.Fields(s), " ") + `"`
	}
	return out
}

// nextWords says what to type: one action of each kind, so that the line stays short.
func nextWords(c Card) string {
	var parts []string
	seen := map[string]int{}
	for _, a := range c.Actions {
		if a.Group == "answer" || a.Group == "pick" && seen["pick"] > 0 || a.Group == "step" && seen["step"] > 1 || len(parts) == 4 {
			continue
		}
		seen[a.Group]++
		words := Typed(a)
		if a.Group == "pick" {
			words = fmt.Sprintf("pick %d METHOD", c.Job)
		}
		if a.Lead {
			words += " (lead)"
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, " | ")
}

// row writes one job of a list.
func (w *writer) row(r Row) {
	s := fmt.Sprintf("%s: %s", r.State, r.What)
	if r.Customer != "" {
		s += ", for " + r.Customer
	}
	if r.Due != "" {
		s += ", due " + r.Due
	}
	if r.Waits != "" && r.State != Closed {
		s += "; waits for " + r.Waits
	}
	w.item(fmt.Sprintf("%d  ", r.Job), strings.TrimRight(s, ".")+".")
}

// help writes the commands.
func (w *writer) help(us []Usage) {
	for _, u := range us {
		does := u.Does
		if u.Lead {
			does += " (lead)"
		}
		w.item("", u.Form)
		w.item("    ", fmt.Sprintf("%s, as in: %s", does, u.Example))
	}
}
