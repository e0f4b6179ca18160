package bot

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"strikeoff/bot/job"
)

// command is one thing that can be told to the desk. Each has a file of its own, command_….go: its words, its usage as data, when typed
// words mean it, and its one deed. To add one, write such a file and list it in commands.
//
// Most of what is said in a print shop is not said to the desk, though it may begin with the same word: "pass me the squeegee", "close
// the door". So a typed message is a command only where meant says so, even one that calls the desk by name ("close enough" closes
// nothing). A button or a slash command is one always, and gets told what to type where it is wrong.
type command struct {
	verb    string
	usage   Usage
	onJob   bool // it is about one job: by number, or in the job's thread without
	bare    bool // the verb alone, typed outside a thread, is half a command and not talk
	changes bool // it changes the job
	meant   func(j job.Job, a args) bool
	do      func(t *turn, a args) error
}

// args are the words of a command.
type args struct {
	id    job.ID // 0 where no number was typed
	rest  string // what follows, trimmed
	colon bool   // a colon stands before the rest
	tail  bool   // written as "job 12 VERB …"
	plan  int    // the plan that a button's card showed; 0 where none is named
}

// numbered reports whether the words aim at a job in so many words.
func (a args) numbered() bool { return a.id != 0 && !a.tail }

// commands lists every command as help shows them.
var commands []*command

// init rather than a literal: help is in the list and reads it.
func init() {
	commands = []*command{&jobsCommand, &jobCommand, &whyCommand, &pickCommand, &amendCommand, &printedCommand, &passCommand, &failCommand,
		&signCommand, &refuseCommand, &closeCommand, &reopenCommand, &orderCommand, &wallCommand, &helpCommand}
}

// Commands is how every command is used.
func Commands() []Usage {
	var out []Usage
	for _, c := range commands {
		out = append(out, c.usage)
	}
	return out
}

// verbOf finds a command by its exact word.
func verbOf(word string) *command {
	for _, c := range commands {
		if strings.EqualFold(c.verb, word) {
			return c
		}
	}
	return nil
}

var (
	// A command begins with its word: a quotation, a code block or a list does not.
	commandWords = regexp.MustCompile(`(?s)^([A-Za-z]+)(?:(?:\s+#?|#)(\d{1,9})\b)?\s*(:)?\s*(.*)$`)
	shownPlan    = regexp.MustCompile(`(?i)^(.*?)\s*\bplan (\d{1,6})$`)
)

// parse splits a text into a command and its words: nil where the first word is no command. near reports that the word was misspelt.
func parse(text string) (c *command, a args, near bool) {
	text = strings.TrimSpace(text)
	text = strings.TrimPrefix(text, "please ")
	m := commandWords.FindStringSubmatch(text)
	if m == nil {
		return nil, args{}, false
	}
	if c = verbOf(m[1]); c == nil {
		if c = nearVerb(m[1]); c == nil {
			return nil, args{}, false
		}
		near = true
	}
	if n, err := strconv.ParseInt(m[2], 10, 64); err == nil {
		a.id = job.ID(n)
	}
	a.colon, a.rest = m[3] != "", plain(m[4])
	if c == &jobCommand && a.id != 0 && !near {
		if m := commandWords.FindStringSubmatch(a.rest); m != nil && m[2] == "" {
			if inner := verbOf(m[1]); inner != nil && inner.onJob && inner != c {
				c, a.tail, a.colon, a.rest = inner, true, m[3] != "", strings.TrimSpace(m[4])
			}
		}
	}
	if a.id != 0 {
		a.rest = strings.TrimSpace(strings.TrimSuffix(a.rest, "please"))
	}
	if m := shownPlan.FindStringSubmatch(a.rest); m != nil && c.changes && c.verb != "amend" {
		a.plan, _ = strconv.Atoi(m[2])
		a.rest = m[1]
	}
	return c, a, near
}

// command does what the message tells the desk to do. It reports whether the message was a command.
func (t *turn) command() (bool, error) {
	c, a, near := parse(t.in.Text)
	if c == nil {
		return false, nil
	}
	sure := t.in.Sort == job.Command
	if near && !sure && a.id == 0 {
		return false, nil
	}
	if c.onJob {
		if told, err := t.aim(c, &a, sure); told || err != nil {
			return told, err
		}
	}
	if !sure && !c.meant(t.job, a) {
		t.was, t.job, t.hint = job.Job{}, job.Job{}, c.usage.Form
		return false, nil
	}
	if near && c.changes {
		right := strings.TrimSpace(fmt.Sprintf("%s %d %s", c.verb, t.job.ID, a.rest))
		t.reply(Post{Text: "Nothing was done. Did you mean: " + right, Quick: []Action{{Label: right, Command: right, Lead: c.usage.Lead}}})
		return true, nil
	}
	return true, t.run(*c, a)
}

// mostReason is how long a note or a reason can be, in characters.
const mostReason = 1000

// run does a command, and says it to the person where the job does not allow it.
func (t *turn) run(c command, a args) error {
	if n := utf8.RuneCountInString(a.rest); n > mostReason && c.onJob && c.verb != amendCommand.verb {
		t.say(fmt.Sprintf("That is too long for a note or a reason: %d characters, and %d can be kept. Nothing was changed; say it shorter: %s", n, mostReason, c.usage.Form))
		return nil
	}
	err := c.do(t, a)
	if h, ok := errors.AsType[half](err); ok {
		t.say(string(h))
		return nil
	}
	return t.excuse(err)
}

// half is what to type instead of a wrong or half command.
type half string

// Error is the sentence for the person.
func (h half) Error() string { return string(h) }

// aim loads the job that a command is about. It reports whether the person was told that there is none.
func (t *turn) aim(c *command, a *args, sure bool) (told bool, err error) {
	id := a.id
	if id == 0 {
		if id, err = t.here(); err != nil {
			return false, err
		}
		if id == 0 {
			if !sure && (!c.bare || a.rest != "" || a.colon) {
				return false, nil // t.job is none, and what needs one is not meant
			}
			t.say(fmt.Sprintf("Which job? Type: %s. To list the jobs, type: jobs", c.usage.Form))
			return true, nil
		}
	}
	err = t.load(id)
	if errors.Is(err, job.ErrNoJob) {
		if !sure && !c.meant(job.Job{ID: id}, *a) {
			return false, nil
		}
		t.say(fmt.Sprintf("There is no job %d. To list the jobs, type: jobs", id))
		return true, nil
	}
	return false, err
}

// endsQuietly reports whether nothing but a full stop follows: a question is no command.
func endsQuietly(rest string) bool { return strings.Trim(rest, " .!") == "" }

// alone is the meaning of a command that takes nothing but a job.
func alone(j job.Job, a args) bool { return j.ID != 0 && endsQuietly(a.rest) && !a.colon }

// withReason is the meaning of a command that takes free text: after a number any words that do not count goods, else only after a
// colon, or nothing at all, which is half a command.
func withReason(j job.Job, a args) bool {
	switch {
	case j.ID == 0:
		return false
	case a.colon, endsQuietly(a.rest):
		return true
	}
	return a.numbered() && !countsGoods(a.rest)
}

// goods are words that a number counts in a print shop's talk: "close 12 boxes" is not about job 12.
var goods = regexp.MustCompile(`(?i)^(?:more |of |the |these |those |dozen|doz\b|dz\b|box|cart|case|shirt|tee|hood|jersey|polo|tank|cap|hat|bag|tote|apron|piece|pcs|pc\b|` +
	`unit|item|screen|squeegee|print|transfer|towel|sheet|roll|spool|order|job|people|person|hour|hr|min|day|week|time|and \d|or \d|to \d|-|/|\.\d|,\d|%)`)

// countsGoods reports whether the words after a number read as if it counted them.
func countsGoods(rest string) bool { return goods.MatchString(rest) }
