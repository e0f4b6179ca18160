package job

import (
	"maps"
	"strings"
	"time"

	"strikeoff/rules"
)

// Step is what a job becomes by an event, and what must go out. It is pure: the job it is given stays as it was, and where the event is
// refused the error is a *Fault that says why and what to type next, and the returned job is the one that was given.
//
// An event's At is when it happened. Where it is zero or lies after now, now is taken: a door whose clock is ahead cannot shorten a wait. An
// entry of the history thereby carries all that Step went by, and replays to the same job. Times in messages are told in now's location.
//
// Step counts the revision. It does not touch LastHash: Apply does both.
func Step(j Job, e Event, now time.Time) (Job, []Effect, error) {
	e.At = happened(e, now)
	if e.Kind == Opened {
		return opened(j, e)
	}
	if j.Revision == 0 || j.ID <= 0 {
		return j, nil, fault(NoJobYet, "There is no job %d. To list the jobs, type: jobs", j.ID)
	}
	move, known := moves[e.Kind]
	if !known {
		return j, nil, malformed(j, e, "is of no known kind")
	}
	if err := mayDo(j, e); err != nil {
		return j, nil, err
	}
	if j.State == Closed && e.Kind != Reopened && e.Kind != AlertSent {
		return j, nil, wrongState(j, "nothing more can be done to it")
	}
	next, effects, err := move(j, e, now)
	if err != nil {
		return j, nil, err
	}
	next.Revision++
	return next, effects, nil
}

// happened is the event's time in the form in which it is kept: UTC, without the monotonic reading.
func happened(e Event, now time.Time) time.Time {
	if e.At.IsZero() || e.At.After(now) {
		return now.UTC().Round(0)
	}
	return e.At.UTC().Round(0)
}

// moves are what each kind of event does to an open job. Opened is apart: it has no job to begin from.
var moves = map[Kind]func(Job, Event, time.Time) (Job, []Effect, error){
	Amended: amended, Picked: picked, Printed: printed, StepRead: stepRead, SignedOff: signedOff, RefusedIt: refused, ClearedIt: cleared,
	ClosedIt: closed, Reopened: reopened, AlertSent: alertSent,
}

// leadDoes says, for the events that only a lead may cause, what the lead does.
var leadDoes = map[Kind]string{
	Printed: "record a test print", StepRead: "record a step of the test print", SignedOff: "sign off a test print",
	RefusedIt: "refuse a job", ClearedIt: "clear a job",
}

// mayDo refuses those whose role does not allow the event.
func mayDo(j Job, e Event) error {
	role := e.By.Role
	if e.Kind == AlertSent {
		if role != Desk {
			return malformed(j, e, "is for the desk alone")
		}
		return nil
	}
	if does, only := leadDoes[e.Kind]; only && role != Lead {
		return fault(NotAllowed, "Only a production lead can %s. Job %d is as it was; ask a lead to type it.", does, j.ID)
	}
	if role != Rep && role != Lead {
		return fault(NotAllowed, "Only a rep or a production lead of this shop can change a job. Job %d is as it was; ask one of them.", j.ID)
	}
	return nil
}

// by is the stamp of an event.
func by(e Event) Stamp { return Stamp{By: e.By, At: e.At} }

// given reports whether a reason or note was written.
func given(s string) bool { return strings.TrimSpace(s) != "" }

// alertSent remembers that an alert went out.
func alertSent(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	if !given(e.Key) {
		return j, nil, malformed(j, e, "names no alert")
	}
	if _, sent := j.Alerted[e.Key]; sent {
		return j, nil, fault(Again, "The alert %q of job %d went out already.", e.Key, j.ID)
	}
	j.Alerted = cloned(j.Alerted)
	j.Alerted[e.Key] = e.At
	return j, []Effect{CheckAlerts}, nil
}

// closed ends a job, whatever state it is in.
func closed(j Job, e Event, _ time.Time) (Job, []Effect, error) {
	if !given(e.Note) {
		return j, nil, fault(NeedsReason, "Say why job %d is closed, so that it can be read later: close %d REASON", j.ID, j.ID)
	}
	j.Before, j.State, j.CloseWhy = j.State, Closed, e.Note
	return j, []Effect{ShowCard, TellThread, DropAlerts}, nil
}

// reopened takes a job back to where it was closed. Nothing about the plan changed, so what stood still stands.
func reopened(j Job, _ Event, _ time.Time) (Job, []Effect, error) {
	if j.State != Closed {
		return j, nil, wrongState(j, "there is nothing to reopen")
	}
	j.State, j.Before, j.CloseWhy = j.Before, "", ""
	return j, []Effect{ShowCard, TellThread, CheckAlerts}, nil
}

// cloned copies a map, so that the job that was given stays as it was; nil becomes an empty map.
func cloned[V any](m map[string]V) map[string]V {
	if m == nil {
		return map[string]V{}
	}
	return maps.Clone(m)
}

// knows reports whether a record holds a pick.
func knows(r rules.Record, c rules.Chosen) bool {
	for _, have := range r.Chosen {
		if have == c {
			return true
		}
	}
	return false
}
