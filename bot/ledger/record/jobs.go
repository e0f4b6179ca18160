package record

import (
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// jobRecord is a job as it is kept.
type jobRecord struct {
	V        int                   `json:"v"`
	ID       int64                 `json:"id"`
	State    string                `json:"state"`
	Before   string                `json:"before,omitempty"`
	Revision int                   `json:"rev"`
	Place    placeRecord           `json:"place"`
	Opened   stampRecord           `json:"opened"`
	Text     string                `json:"text,omitempty"`
	Order    *rules.Order          `json:"order,omitempty"` // nil where a ledger takes it from the history
	Odd      []string              `json:"odd,omitempty"`
	Plan     *rules.Plan           `json:"plan,omitempty"` // likewise
	PlanRev  int                   `json:"planrev"`
	Record   rules.Record          `json:"record"`
	Printed  *stampRecord          `json:"printed,omitempty"`
	PrintRev int                   `json:"printrev,omitempty"`
	TriedRev int                   `json:"triedrev,omitempty"`
	Reads    map[string]readRecord `json:"reads,omitempty"`
	SignOff  *signRecord           `json:"signoff,omitempty"`
	Refusal  *refusalRecord        `json:"refusal,omitempty"`
	CloseWhy string                `json:"closewhy,omitempty"`
	Alerted  map[string]time.Time  `json:"alerted,omitempty"`
	LastHash string                `json:"last"`
}

type placeRecord struct {
	Door   string `json:"door"`
	Room   string `json:"room"`
	Thread string `json:"thread,omitempty"`
}

type stampRecord struct {
	ID   string    `json:"id"`
	Name string    `json:"name"`
	Role string    `json:"role"`
	At   time.Time `json:"at"`
}

type readRecord struct {
	Pass  bool   `json:"pass"`
	Note  string `json:"note,omitempty"`
	Early string `json:"early,omitempty"`
	stampRecord
}

type signRecord struct {
	PlanRev int `json:"planrev"`
	stampRecord
}

type refusalRecord struct {
	PlanRev int          `json:"planrev"`
	Step    string       `json:"step,omitempty"`
	Reason  string       `json:"reason"`
	Printed *stampRecord `json:"printed,omitempty"`
	stampRecord
}

// Job writes a job down.
func Job(j job.Job) ([]byte, error) { return writeJob(j, &j.Order, &j.Plan) }

func writeJob(j job.Job, order *rules.Order, plan *rules.Plan) ([]byte, error) {
	r := jobRecord{
		V: Version, ID: int64(j.ID), State: string(j.State), Before: string(j.Before), Revision: j.Revision, Place: placeRecord(j.Place),
		Opened: fromStamp(j.Opened), Text: j.Text, Order: order, Odd: j.Odd, Plan: plan, PlanRev: j.PlanRev, Record: j.Record,
		Printed: fromStampOrNone(j.Printed), PrintRev: j.PrintRev, TriedRev: j.TriedRev, CloseWhy: j.CloseWhy, Alerted: j.Alerted, LastHash: j.LastHash,
	}
	if len(j.Reads) > 0 {
		r.Reads = make(map[string]readRecord, len(j.Reads))
		for code, x := range j.Reads {
			r.Reads[code] = readRecord{Pass: x.Pass, Note: x.Note, Early: x.Early, stampRecord: fromStamp(x.Stamp)}
		}
	}
	if s := j.SignOff; s != nil {
		r.SignOff = &signRecord{PlanRev: s.PlanRev, stampRecord: fromStamp(s.Stamp)}
	}
	if f := j.Refusal; f != nil {
		r.Refusal = &refusalRecord{PlanRev: f.PlanRev, Step: f.Step, Reason: f.Reason, Printed: fromStampOrNone(f.Printed), stampRecord: fromStamp(f.Stamp)}
	}
	b, err := encode(fmt.Sprintf("job %d", j.ID), r)
	return pack(b), err
}

// ReadJob reads a job that was written down.
func ReadJob(b []byte) (job.Job, error) {
	var r jobRecord
	if err := decode("a job", b, &r); err != nil {
		return job.Job{}, err
	}
	j := job.Job{
		ID: job.ID(r.ID), State: job.State(r.State), Before: job.State(r.Before), Revision: r.Revision, Place: job.Place(r.Place),
		Opened: toStamp(r.Opened), Text: r.Text, Odd: r.Odd, PlanRev: r.PlanRev, Record: r.Record,
		Printed: toStampOrNone(r.Printed), PrintRev: r.PrintRev, TriedRev: r.TriedRev, CloseWhy: r.CloseWhy, Alerted: r.Alerted, LastHash: r.LastHash,
	}
	if r.Order != nil {
		j.Order = *r.Order
	}
	if r.Plan != nil {
		j.Plan = *r.Plan
	}
	if len(r.Reads) > 0 {
		j.Reads = make(map[string]job.Read, len(r.Reads))
		for code, x := range r.Reads {
			j.Reads[code] = job.Read{Pass: x.Pass, Note: x.Note, Early: x.Early, Stamp: toStamp(x.stampRecord)}
		}
	}
	if s := r.SignOff; s != nil {
		j.SignOff = &job.SignOff{PlanRev: s.PlanRev, Stamp: toStamp(s.stampRecord)}
	}
	if f := r.Refusal; f != nil {
		j.Refusal = &job.Refusal{PlanRev: f.PlanRev, Step: f.Step, Reason: f.Reason, Printed: toStampOrNone(f.Printed), Stamp: toStamp(f.stampRecord)}
	}
	return j, nil
}

func fromStamp(s job.Stamp) stampRecord {
	return stampRecord{ID: s.By.ID, Name: s.By.Name, Role: string(s.By.Role), At: s.At}
}

func toStamp(r stampRecord) job.Stamp {
	return job.Stamp{By: job.Actor{ID: r.ID, Name: r.Name, Role: job.Role(r.Role)}, At: r.At}
}

func fromStampOrNone(s job.Stamp) *stampRecord {
	if s == (job.Stamp{}) {
		return nil
	}
	r := fromStamp(s)
	return &r
}

func toStampOrNone(r *stampRecord) job.Stamp {
	if r == nil {
		return job.Stamp{}
	}
	return toStamp(*r)
}
