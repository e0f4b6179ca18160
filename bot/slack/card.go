package slack

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	sdk "github.com/slack-go/slack"

	"strikeoff/bot"
)

// cardUnits is a job's card: what to do; the job; each line with its prints; cautions; the test print with a control a step; questions with
// their quick answers; what was taken as usual, odd or unread; what can be done. Reasons and alternatives are behind one button.
func cardUnits(c bot.Card, b *buttons) []unit {
	var us []unit
	add := func(blocks ...sdk.Block) {
		if len(blocks) > 0 {
			us = append(us, blocks)
		}
	}
	head := headline(c.Headline)
	add(append(head, sdk.NewContextBlock("", plainText(cut(clean(facts(c)), 1500))))...)
	for _, l := range c.Lines {
		for _, x := range lineBlocks(l) {
			add(x)
		}
	}
	for _, x := range bullets("Cautions", notes(c.Cautions)...) {
		add(x)
	}
	if s := strings.TrimSpace(c.SignedBy); s != "" {
		add(paragraphs(line(bold("Signed off: "), span(s)))...)
	}
	if s := strings.TrimSpace(c.Refusal); s != "" {
		add(paragraphs(line(bold("Refused: "), span(s)))...)
	}
	steps, left := stepUnits(c.Steps, c.Actions, b)
	us = append(us, steps...)
	if c.Brief {
		add(paragraphs(line(italic(bot.HowElsewhere(c))))...)
	}
	answers, left := grouped(left, "answer")
	for i, q := range c.Questions {
		bits := []bit{bold(q.Text)}
		if i == 0 {
			bits = append([]bit{bold("Ask the customer: ")}, bits...)
		}
		blocks := paragraphs(line(bits...))
		mine, rest := quick(answers, q)
		answers = rest
		add(append(blocks, b.block(mine...)...)...)
	}
	add(b.block(answers...)...)
	for _, part := range []struct {
		heading string
		list    []string
	}{{"Inspect the finished run", c.Inspect}, {"Taken as usual", c.Assumed}, {"Odd in the message", c.Odd}} {
		var rows []row
		for _, s := range part.list {
			rows = append(rows, line(span(s)))
		}
		for _, x := range bullets(part.heading, rows...) {
			add(x)
		}
	}
	for _, x := range quoted("Not used, in the customer's words", strings.Join(c.Unread, "\n")) {
		add(x)
	}
	return withActions(us, b, c, left)
}

// withActions puts what can be done last on a card that is one message, and right under the head of one that is split, where it is found.
func withActions(us []unit, b *buttons, c bot.Card, left []bot.Action) []unit {
	picks, rest := grouped(left, "pick")
	var all []bot.Action
	all = append(all, rest...)
	if hasReasons(c) {
		all = append(all, bot.Action{Label: "Why, and what else", Command: fmt.Sprintf("why %d", c.Job)})
	}
	if len(picks) > 4 {
		all = append(all, bot.Action{Label: "Another method", Command: fmt.Sprintf("pick %d", c.Job), Needs: "method"})
	} else {
		all = append(all, picks...)
	}
	do := unit(b.row(sdk.StylePrimary, all...))
	if len(do) == 0 {
		return us
	}
	if fits(append(slices.Clone(us), do)) {
		return append(us, do)
	}
	return slices.Insert(us, min(1, len(us)), do)
}

// fits reports whether units make one message.
func fits(us []unit) bool {
	return len(pack(us, blocksMost, totalMost, 2)) == 1
}

// hasReasons reports whether there is anything behind the button "why".
func hasReasons(c bot.Card) bool {
	return c.Job != 0 && slices.ContainsFunc(c.Lines, func(l bot.Line) bool {
		return slices.ContainsFunc(l.Prints, func(p bot.Print) bool { return len(p.Why)+len(p.Others) > 0 })
	})
}

// headline is what to do, large where Slack allows.
func headline(s string) []sdk.Block {
	s = strings.TrimSpace(clean(s))
	switch n := utf8.RuneCountInString(s); {
	case n == 0:
		return nil
	case n <= 150:
		return []sdk.Block{sdk.NewHeaderBlock(plainText(s))}
	}
	return paragraphs(line(bold(s)))
}

// facts is the line under the headline.
func facts(c bot.Card) string {
	fs := []string{fmt.Sprintf("Job %d", c.Job), string(c.State)}
	if c.PlanRev > 0 {
		fs = append(fs, fmt.Sprintf("plan %d", c.PlanRev))
	}
	if s := strings.TrimSpace(c.Customer); s != "" {
		fs = append(fs, s)
	}
	if s := strings.TrimSpace(c.Due); s != "" {
		fs = append(fs, "due "+s)
	}
	return strings.Join(fs, " · ")
}

// lineBlocks is one order line: what it is, how each print is made, and the migration risk.
func lineBlocks(l bot.Line) []sdk.Block {
	var rows []row
	for _, p := range l.Prints {
		sep := ": "
		if p.Where == "" || p.Do == "" {
			sep = ""
		}
		rows = append(rows, line(span(p.Where+sep), bold(p.Do)))
		if p.Press != "" {
			rows = append(rows, line(span(p.Press)))
		}
	}
	what, risk := line(bold(l.What)), line(italic(l.Migration))
	n := what.length() + risk.length()
	for _, r := range rows {
		n += r.length()
	}
	if n <= textMost && len(rows) <= 30 { // the usual line is one block: a message has room for only so many
		return oneBlock(what, rows, risk)
	}
	out := append(paragraphs(what), bullets("", rows...)...)
	return append(out, paragraphs(risk)...)
}

// oneBlock is a heading, a list and a closing line in one block; none where all are empty.
func oneBlock(head row, items []row, foot row) []sdk.Block {
	var es, list []sdk.RichTextElement
	if len(head) > 0 {
		es = append(es, head.section())
	}
	for _, r := range items {
		if len(r) > 0 {
			list = append(list, r.section())
		}
	}
	if len(list) > 0 {
		es = append(es, sdk.NewRichTextList(sdk.RTEListBullet, 0, list...))
	}
	if len(foot) > 0 {
		if len(es) > 0 && len(list) == 0 {
			foot = append(row{span("\n")}, foot...)
		}
		es = append(es, foot.section())
	}
	if len(es) == 0 {
		return nil
	}
	return []sdk.Block{sdk.NewRichTextBlock("", es...)}
}

// notes are cautions, each with its severity in a word.
func notes(ns []bot.Note) []row {
	words := map[string]string{"stop": "Stop: ", "caution": "Caution: ", "info": "Note: "}
	var rows []row
	for _, n := range ns {
		w, ok := words[n.Severity]
		if !ok && n.Severity != "" {
			w = n.Severity + ": "
		}
		rows = append(rows, line(bold(w), span(n.Text)))
	}
	return rows
}

// stepUnits are the checks of the test print. Where none can be recorded now they are a list; else each has its control under it. What
// actions are left over is returned.
func stepUnits(steps []bot.Step, as []bot.Action, b *buttons) (us []unit, left []bot.Action) {
	controls := false
	mine := make([][]bot.Action, len(steps))
	left = as
	for i, s := range steps {
		mine[i], left = stepActions(left, s.Code)
		controls = controls || len(mine[i]) > 0 && !b.still
	}
	if !controls {
		var rows []row
		for _, s := range steps {
			rows = append(rows, slices.Concat(stepHead(s), line(span(" ")), stepBody(s)))
		}
		for _, x := range bullets("Test print", rows...) {
			us = append(us, unit{x})
		}
		return us, left
	}
	for i, s := range steps {
		var rows []row
		if i == 0 {
			rows = append(rows, line(bold("Test print")))
		}
		var withNote []bot.Action
		for _, a := range mine[i] {
			withNote = append(withNote, a)
			if a.Needs == "" && strings.HasPrefix(a.Command, "pass ") {
				withNote = append(withNote, bot.Action{Label: "Passed, with a note", Command: a.Command, Needs: "note", Lead: a.Lead, Group: a.Group})
			}
		}
		rows = append(rows, stepHead(s), stepBody(s))
		if blocks := append(paragraphs(rows...), b.block(withNote...)...); len(blocks) > 0 {
			us = append(us, blocks)
		}
	}
	return us, left
}

// stepHead is a check's title and where it stands.
func stepHead(s bot.Step) row {
	bits := row{bold(cmp.Or(s.Title, s.Code) + ".")}
	if s.Mark != "" {
		bits = append(bits, bold(" "+capital(s.Mark)+"."))
	}
	switch {
	case s.Note == "":
	case s.Mark == "passed" || s.Mark == "failed":
		bits = append(bits, span(" "+s.Note))
	default:
		bits = append(bits, italic(" "+capital(s.Note)+"."))
	}
	return line(bits...)
}

// stepBody is how a check is done and when it passes; a check that was read needs neither.
func stepBody(s bot.Step) row {
	if s.Mark == "passed" || s.Mark == "failed" {
		return nil
	}
	bits := row{span(s.How)}
	if s.Pass != "" {
		bits = append(bits, italic(" Passes when: "), span(s.Pass))
	}
	return line(bits...)
}

// capital begins with a capital letter.
func capital(s string) string {
	if s == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// stepActions are the actions of one step ("pass 12 wash"), and the rest.
func stepActions(as []bot.Action, code string) (mine, rest []bot.Action) {
	for _, a := range as {
		w := strings.Fields(a.Command)
		if a.Group == "step" && len(w) >= 3 && w[2] == code {
			mine = append(mine, a)
		} else {
			rest = append(rest, a)
		}
	}
	return mine, rest
}

// grouped are the actions of one group, and the rest.
func grouped(as []bot.Action, group string) (mine, rest []bot.Action) {
	for _, a := range as {
		if a.Group == group {
			mine = append(mine, a)
		} else {
			rest = append(rest, a)
		}
	}
	return mine, rest
}

// quick are the answers that fit a question, and the rest.
func quick(as []bot.Action, q bot.Ask) (mine, rest []bot.Action) {
	for _, a := range as {
		if len(mine) < len(q.Quick) && slices.Contains(q.Quick, a.Label) {
			mine = append(mine, a)
		} else {
			rest = append(rest, a)
		}
	}
	return mine, rest
}
