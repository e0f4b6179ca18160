package webhook

import (
	"time"

	"strikeoff/bot"
	"strikeoff/rules"
)

// states are the states of a job in the order it passes through them.
var states = []bot.State{bot.Asking, bot.Planned, bot.TestDue, bot.OnTest, bot.Refused, bot.Cleared, bot.Closed}

// What the API says of a job is separate from what a ledger keeps, so that either can change alone.

// listView is a page of jobs.
type listView struct {
	Jobs []briefView `json:"jobs"`
	Next string      `json:"next,omitempty"` // cursor of the next page; "" on the last
}

// briefView is a job in a list.
type briefView struct {
	Job      bot.JobID  `json:"job"`
	State    bot.State  `json:"state"`
	Revision int        `json:"revision"`
	PlanRev  int        `json:"plan_revision"`
	Customer rules.Name `json:"customer"`
	Due      rules.Date `json:"due"`
	Summary  string     `json:"summary"`
	Opened   time.Time  `json:"opened_at"`
	URL      string     `json:"url"`
}

func (a *API) viewBrief(j bot.Job) briefView {
	return briefView{Job: j.ID, State: j.State, Revision: j.Revision, PlanRev: j.PlanRev, Customer: j.Order.Customer, Due: j.Order.Due,
		Summary: j.Plan.Summary, Opened: j.Opened.At.UTC(), URL: a.jobURL(j.ID)}
}

// jobView is a whole job.
type jobView struct {
	briefView
	Text    string              `json:"text"` // the request as it was first written
	By      personView          `json:"opened_by"`
	Order   rules.Order         `json:"order"`
	Plan    rules.Plan          `json:"plan"`
	Printed *stampView          `json:"printed"` // when the test print was made; null when none was
	Reads   map[string]readView `json:"reads"`   // checks read on the current test print, by code
	Sign    *signView           `json:"sign_off"`
	Refusal *refusalView        `json:"refusal"`
	Why     string              `json:"close_reason,omitempty"`
	Events  string              `json:"events_url"`
}

type personView struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Role string `json:"role"`
}

type stampView struct {
	By personView `json:"by"`
	At time.Time  `json:"at"`
}

type readView struct {
	stampView
	Pass  bool   `json:"pass"`
	Note  string `json:"note,omitempty"`
	Early string `json:"early,omitempty"` // the lead's reason for reading before the wait was over
}

type signView struct {
	stampView
	PlanRev int `json:"plan_revision"`
}

type refusalView struct {
	stampView
	PlanRev int    `json:"plan_revision"`
	Step    string `json:"step,omitempty"`
	Reason  string `json:"reason"`
}

func viewPerson(a bot.Actor) personView {
	return personView{ID: a.ID, Name: a.Name, Role: string(a.Role)}
}

func viewStamp(s bot.Stamp) stampView { return stampView{By: viewPerson(s.By), At: s.At.UTC()} }

func (a *API) viewJob(j bot.Job) jobView {
	v := jobView{briefView: a.viewBrief(j), Text: j.Text, By: viewPerson(j.Opened.By), Order: j.Order, Plan: j.Plan, Reads: map[string]readView{},
		Why: j.CloseWhy, Events: a.jobURL(j.ID) + "/events"}
	if !j.Printed.At.IsZero() {
		s := viewStamp(j.Printed)
		v.Printed = &s
	}
	for code, r := range j.Reads {
		v.Reads[code] = readView{stampView: viewStamp(r.Stamp), Pass: r.Pass, Note: r.Note, Early: r.Early}
	}
	if s := j.SignOff; s != nil {
		v.Sign = &signView{stampView: viewStamp(s.Stamp), PlanRev: s.PlanRev}
	}
	if r := j.Refusal; r != nil {
		v.Refusal = &refusalView{stampView: viewStamp(r.Stamp), PlanRev: r.PlanRev, Step: r.Step, Reason: r.Reason}
	}
	return v
}

// eventsView is a page of a job's history.
type eventsView struct {
	Job    bot.JobID   `json:"job"`
	Events []eventView `json:"events"`
	Next   int         `json:"next,omitempty"` // pass it as after; 0 on the last page
}

// eventView is one change of a job. prev and hash are those of the ledger's chain.
type eventView struct {
	Seq     int          `json:"seq"`
	Prev    string       `json:"prev"`
	Hash    string       `json:"hash"`
	Kind    bot.Kind     `json:"kind"`
	By      personView   `json:"by"`
	At      time.Time    `json:"at"`
	Where   placeView    `json:"where"`
	Text    string       `json:"text,omitempty"`
	Order   *rules.Order `json:"order,omitempty"`
	Plan    *rules.Plan  `json:"plan,omitempty"`
	Step    string       `json:"step,omitempty"`
	Pass    *bool        `json:"pass,omitempty"` // only where a check was read
	Note    string       `json:"note,omitempty"`
	Early   string       `json:"early,omitempty"`
	PlanRev int          `json:"plan_revision,omitempty"`
}

type placeView struct {
	Door   string `json:"door"`
	Room   string `json:"room"`
	Thread string `json:"thread"`
}

func viewEvent(e bot.Entry) eventView {
	v := eventView{Seq: e.Seq, Prev: e.Prev, Hash: e.Hash, Kind: e.Kind, By: viewPerson(e.By), At: e.At.UTC(), Where: placeView(e.Where),
		Text: e.Text, Order: e.Order, Plan: e.Plan, Step: e.Step, Note: e.Note, Early: e.Early, PlanRev: e.PlanRev}
	if e.Kind == bot.StepRead {
		pass := e.Pass
		v.Pass = &pass
	}
	return v
}
