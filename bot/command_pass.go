package bot

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

var passCommand = command{
	verb:  "pass",
	usage: Usage{Form: "pass N STEP… [NOTE] [early: REASON]", Does: "records that steps of the test print passed", Example: "pass 12 wash", Lead: true},
	onJob: true, bare: true, changes: true,
	meant: stepMeant,
	do:    pass,
}

// fillers are words between and after steps that say nothing.
var fillers = regexp.MustCompile(`(?i)^(?:and|&|\+|test|tests|check|checks|step|steps|also|the|passed|failed|ok|,)$`)

// steps is what pass and fail are told.
type stepWords struct {
	codes  []string // the steps, as their codes
	note   string
	early  string // reason for not waiting
	hasty  bool   // "early" was said
	unread string // the first word, where it is no step
}

var earlyWord = regexp.MustCompile(`(?is)(?:^|\s)early\b\s*[:,-]?\s*(.*)$`)

// readSteps reads one step or several, a note, and a reason for reading early.
func readSteps(checks []rules.Check, rest string, most int) stepWords {
	var s stepWords
	if m := earlyWord.FindStringSubmatchIndex(rest); m != nil {
		s.hasty, s.early, rest = true, strings.TrimSpace(rest[m[2]:m[3]]), rest[:m[0]]
	}
	words, starts := split(rest)
	i := 0
	for i < len(words) {
		if fillers.MatchString(words[i]) && (len(s.codes) > 0 || i+1 < len(words)) {
			i++
			continue
		}
		code, used := stepIn(checks, words[i:])
		if used == 0 || len(s.codes) == most {
			break
		}
		i += used
		if !slices.Contains(s.codes, code) {
			s.codes = append(s.codes, code)
		}
	}
	switch {
	case i == len(words):
	case len(s.codes) == 0:
		s.unread = words[i]
	default:
		s.note = strings.TrimSpace(strings.TrimLeft(strings.TrimRight(rest[starts[i]:], " ,"), ":-"))
	}
	return s
}

// split is the words of a text, parted by spaces and commas, and where each begins.
func split(text string) (words []string, starts []int) {
	start := -1
	for i, r := range text {
		gap := r == ',' || unicode.IsSpace(r)
		if gap && start >= 0 {
			words, starts, start = append(words, text[start:i]), append(starts, start), -1
		} else if !gap && start < 0 {
			start = i
		}
	}
	if start >= 0 {
		words, starts = append(words, text[start:]), append(starts, start)
	}
	return words, starts
}

// stepMeant reports whether typed words tell of a step: it must be one of the job's, or a single word after a number.
func stepMeant(j job.Job, a args) bool {
	if j.ID == 0 {
		return false
	}
	s := readSteps(j.Plan.Checklist, a.rest, 1)
	switch {
	case len(s.codes) > 0:
		return !strings.HasSuffix(a.rest, "?")
	case endsQuietly(a.rest):
		return true
	}
	return a.numbered() && len(strings.Fields(a.rest)) == 1 && !countsGoods(a.rest)
}

// pass records every named step that can be recorded, and says of each other one why not.
func pass(t *turn, a args) error {
	s := readSteps(t.job.Plan.Checklist, a.rest, len(t.job.Plan.Checklist))
	if len(s.codes) == 0 {
		return t.whichStep("pass", s)
	}
	if s.hasty && s.early == "" {
		return half(fmt.Sprintf("Say why the step is read early: pass %d %s early: REASON", t.job.ID, strings.Join(s.codes, " ")))
	}
	if a.plan != 0 && a.plan != t.job.PlanRev {
		return half(fmt.Sprintf("The plan of job %d has changed since that card: nothing was recorded. Look at it with: job %d", t.job.ID, t.job.ID))
	}
	var done []string
	var faults []error
	for _, code := range s.codes {
		check, _ := t.job.Plan.Step(code)
		if words, enough, ok := graded(check, s.note); ok && !enough {
			faults = append(faults, t.tooLow(check, words, s.note))
			continue
		}
		err := t.happen(job.Event{Kind: job.StepRead, Step: code, Pass: true, Note: s.note, Early: s.early})
		if _, fault := errors.AsType[*job.Fault](err); fault {
			faults = append(faults, err)
			continue
		}
		if err != nil {
			return err
		}
		done = append(done, code)
	}
	if len(done) > 0 {
		// The note is shown, so that a step that was misspelt and taken for one is seen.
		note := ""
		if s.note != "" {
			note = fmt.Sprintf(" Note: %s", stopped(s.note))
		}
		t.tell(t.line("passed %s, read by %s.%s %s", list(done), t.by.Name, note, headline(t.job, t.now, t.d.Zone)))
	}
	for _, f := range faults {
		if h, ok := errors.AsType[half](f); ok {
			t.say(string(h))
		} else if err := t.excuse(f); err != nil {
			return err
		}
	}
	return nil
}

// whichStep says which steps there are.
func (t *turn) whichStep(verb string, s stepWords) error {
	if len(t.job.Plan.Checklist) == 0 {
		return half(fmt.Sprintf("Job %d has no test print's steps to record. %s", t.job.ID, job.NextWords(t.job)))
	}
	var codes []string
	for _, c := range t.job.Plan.Checklist {
		codes = append(codes, c.Code)
	}
	need := ""
	if verb == "fail" {
		need = " NOTE"
	}
	what := "Which step?"
	if s.unread != "" {
		what = fmt.Sprintf("Job %d has no step %q.", t.job.ID, short(s.unread, 30))
	}
	return half(fmt.Sprintf("%s Its steps are: %s. Type: %s %d STEP%s", what, list(codes), verb, t.job.ID, need))
}
