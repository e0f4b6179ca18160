// Package alert says which alerts of a job are due, from the job and a time alone. It sends nothing: the desk puts what is due into the
// outbox in the same change that records it with an AlertSent event, so that each goes out once.
//
// The production room is told at once when a job needs a test print, told when a wait is over and a step can be read, and told when a
// due date is in danger. A refusal and a clearance are no alerts: Step gives them as effects (TellRefusal, TellClearing), and the desk tells
// the thread in the change that made them.
package alert

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// Where an alert goes.
const (
	Production = "production" // the shop's production room
	Thread     = "thread"     // the request's own thread
)

// Alert is something people must be told of their own accord.
type Alert struct {
	Key  string    // the same whenever it is worked out again: an alert whose key is in Job.Alerted went out
	To   string    // Production or Thread
	Text string    // plain sentences; holds nothing that a customer wrote
	At   time.Time // when it became due; now for one that is due at once
}

// Settings are a shop's own. The zero value is a usable shop.
type Settings struct {
	DangerDays int // working days before the due date from which a job that is not cleared is in danger; 0 means 3, below 0 never
	FromHour   int // hour of the day, shop's time, at which a day's alerts go out; 0 means 8
}

// Due lists the alerts of a job that are due now and did not go out, with the usual settings.
func Due(j job.Job, now time.Time) []Alert { return Settings{}.Due(j, now) }

// Next is when the job must be looked at again, with the usual settings.
func Next(j job.Job, now time.Time) time.Time { return Settings{}.Next(j, now) }

// Due lists the alerts of a job that are due now and did not go out, the oldest first. Days are those of now's location: the shop's.
func (s Settings) Due(j job.Job, now time.Time) []Alert {
	var out []Alert
	for _, a := range s.coming(j, now) {
		if !a.At.After(now) {
			out = append(out, a)
		}
	}
	return out
}

// Next is when the job's next alert that did not go out is due: not after now where one is due already, the zero time where none will come
// of itself.
func (s Settings) Next(j job.Job, now time.Time) time.Time {
	if c := s.coming(j, now); len(c) > 0 {
		return c[0].At
	}
	return time.Time{}
}

// coming lists the alerts that did not go out, due or to come, the soonest first.
func (s Settings) coming(j job.Job, now time.Time) []Alert {
	if j.State == job.Closed || j.State == job.Cleared || j.Revision == 0 {
		return nil
	}
	all := slices.Concat(test(j, now), reads(j, now), s.danger(j, now))
	all = slices.DeleteFunc(all, func(a Alert) bool { _, sent := j.Alerted[a.Key]; return sent })
	slices.SortStableFunc(all, func(a, b Alert) int { return a.At.Compare(b.At) })
	return all
}

// about says in a few words what a job is: pieces, garment, methods, due date.
func about(j job.Job) string {
	var parts []string
	for _, l := range j.Order.Lines {
		switch {
		case l.Quantity.Known && l.Garment != "":
			parts = append(parts, fmt.Sprintf("%d × %s", l.Quantity.Value, l.Garment))
		case l.Garment != "":
			parts = append(parts, string(l.Garment))
		}
	}
	if methods := picks(j); len(methods) > 0 {
		parts = append(parts, strings.Join(methods, " and "))
	}
	if day, ok := j.Order.Due.Time(); ok {
		parts = append(parts, "due "+day.Format("Mon 2 Jan 2006"))
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// picks are the methods of a job, each once.
func picks(j job.Job) (methods []string) {
	for _, l := range j.Plan.Lines {
		for _, p := range l.Prints {
			if p.Pick != "" && !slices.Contains(methods, string(p.Pick)) {
				methods = append(methods, string(p.Pick))
			}
		}
	}
	return methods
}

// reads tells production that steps can be read: once for all steps of a print that become ready together.
func reads(j job.Job, now time.Time) []Alert {
	if j.State != job.OnTest {
		return nil
	}
	ready := map[int64][]rules.Check{}
	for _, c := range job.Missing(j) {
		if at := job.Ready(j, c); at.After(j.Printed.At) {
			ready[at.UnixNano()] = append(ready[at.UnixNano()], c)
		}
	}
	var out []Alert
	for _, checks := range ready {
		at := job.Ready(j, checks[0])
		codes := make([]string, len(checks))
		for i, c := range checks {
			codes[i] = c.Code
		}
		out = append(out, Alert{To: Production, At: at, Key: fmt.Sprintf("read:%d:%d:%d:%d", j.ID, j.PrintRev, j.Printed.At.Unix(), at.Unix()),
			Text: fmt.Sprintf("Job %d: the wait is over since %s, %s can be read now. Type: pass %d %s, or fail %d %s NOTE",
				j.ID, at.In(now.Location()).Format("Mon 2 Jan 15:04"), strings.Join(codes, " and "), j.ID, codes[0], j.ID, codes[0])})
	}
	return out
}
