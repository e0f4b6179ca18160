package webhook

import (
	"encoding/json"
	"fmt"
	"time"

	"strikeoff/bot"
	"strikeoff/rules"
)

// cloudEvent is one event on its way out: CloudEvents 1.0 in structured JSON mode (CNCF CloudEvents specification 1.0.2, sections 3 and
// its JSON format), with the sequence extension of the same project, which wants a string whose order by letters is the order.
type cloudEvent struct {
	SpecVersion string          `json:"specversion"`
	ID          string          `json:"id"`
	Source      string          `json:"source"`
	Type        string          `json:"type"`
	Time        string          `json:"time"`
	Subject     string          `json:"subject"`
	Sequence    string          `json:"sequence"`
	ContentType string          `json:"datacontenttype"`
	Data        json.RawMessage `json:"data"`
}

// changeData is what an event says of a change. The whole job is at url.
type changeData struct {
	Job      bot.JobID  `json:"job"`
	State    bot.State  `json:"state"` // after the change
	Was      bot.State  `json:"was"`   // before it; "" for a new job
	Revision int        `json:"revision"`
	PlanRev  int        `json:"plan_revision"`
	Customer rules.Name `json:"customer"`
	Due      rules.Date `json:"due"`
	Summary  string     `json:"summary"`
	By       personView `json:"by"`
	Step     string     `json:"step,omitempty"`
	Pass     *bool      `json:"pass,omitempty"`
	Note     string     `json:"note,omitempty"`
	URL      string     `json:"url"`
	Text     string     `json:"text,omitempty"` // what the desk says, in a reply
}

// Announcer makes the news that targets are told when a job changes.
type Announcer struct {
	Targets []string // their names
	Base    string   // as in Config
}

// Also is for bot.Desk.Also: the news of a change, to be saved with it. One item a target and entry; the place's thread is the job, so
// that one job's news go out in order and one job's trouble holds up no other's.
func (a Announcer) Also(before, after bot.Job, news []bot.Entry) []bot.Outbound {
	return a.outbound(before, bot.Through(before, after, news), news, "")
}

// outbound makes the items; again sets a repeat's keys apart from the first time's.
func (a Announcer) outbound(before bot.Job, after []bot.Job, news []bot.Entry, again string) []bot.Outbound {
	var out []bot.Outbound
	was := before.State
	for i, e := range news {
		n := a.news(was, after[i], e)
		was = after[i].State
		payload, err := json.Marshal(bot.Post{News: &n})
		if err != nil {
			continue // news holds only plain values: it always marshals
		}
		for _, t := range a.Targets {
			out = append(out, bot.Outbound{Key: fmt.Sprintf("news:%s:%d-%d%s", t, n.Job, n.Seq, again), Job: n.Job,
				Place: bot.Place{Door: Door, Room: t, Thread: fmt.Sprint(n.Job)}, Payload: payload, At: e.At})
		}
	}
	return out
}

// news is one entry as it is told.
func (a Announcer) news(was bot.State, j bot.Job, e bot.Entry) bot.News {
	d := changeData{Job: j.ID, State: j.State, Was: was, Revision: e.Seq, PlanRev: j.PlanRev, Customer: j.Order.Customer, Due: j.Order.Due,
		Summary: j.Plan.Summary, By: viewPerson(e.By), Step: e.Step, Note: e.Note, URL: fmt.Sprintf("%s/v1/jobs/%d", a.Base, j.ID)}
	if e.Kind == bot.StepRead {
		pass := e.Pass
		d.Pass = &pass
	}
	data, _ := json.Marshal(d) // plain values
	return bot.News{Type: "job." + string(e.Kind), Job: j.ID, Seq: e.Seq, At: e.At.UTC(), Data: data}
}

// event dresses news as a CloudEvent. The same news is the same event at every attempt and every repeat.
func event(n bot.News, source string) cloudEvent {
	return cloudEvent{SpecVersion: "1.0", ID: fmt.Sprintf("job-%d-%d", n.Job, n.Seq), Source: source, Type: "strikeoff." + n.Type,
		Time: n.At.UTC().Format(time.RFC3339Nano), Subject: fmt.Sprint(n.Job), Sequence: fmt.Sprintf("%08d", n.Seq),
		ContentType: "application/json", Data: n.Data}
}
