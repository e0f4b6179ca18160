package job

import (
	"bytes"
	"encoding/json"
	"sync"
	"time"

	"strikeoff/rules"
)

// body is an event as it is written down: as encoding/json writes it, its keys in fixed order, every text in valid UTF-8.
func body(e Event) json.RawMessage {
	b, err := written(e)
	if err != nil {
		// Only a year beyond 9999 or a figure that is no number cannot be written. The error stands for the event: it will not verify as
		// anything else, and nothing panics.
		b, _ = json.Marshal(struct {
			Kind  Kind   `json:"kind"`
			Error string `json:"unwritable"`
		}{e.Kind, err.Error()})
		return b
	}
	if bytes.Contains(b, []byte(`\ufffd`)) {
		// Broken UTF-8 is escaped the first time and plain the second: write what reading and writing again would give.
		var again Event
		if json.Unmarshal(b, &again) == nil {
			if b2, err := written(again); err == nil {
				return b2
			}
		}
	}
	return b
}

// eventHead and eventTail are an event's fields before its order and plan, and those after.
type (
	eventHead struct {
		Kind    Kind      `json:"kind"`
		By      Actor     `json:"by"`
		At      time.Time `json:"at"`
		Where   Place     `json:"where"`
		Message string    `json:"message"`
		Text    string    `json:"text,omitempty"`
	}
	eventTail struct {
		Odd     []string     `json:"odd,omitempty"`
		Data    bool         `json:"data,omitempty"`
		Record  rules.Record `json:"record"`
		Chosen  rules.Chosen `json:"chosen"`
		Step    string       `json:"step,omitempty"`
		Pass    bool         `json:"pass,omitempty"`
		Note    string       `json:"note,omitempty"`
		Early   string       `json:"early,omitempty"`
		PlanRev int          `json:"planrev,omitempty"`
		Key     string       `json:"key,omitempty"`
	}
)

// desks are room to write an event on before its length is known.
var desks = sync.Pool{New: func() any { return new([]byte) }}

// written is what json.Marshal makes of an event, which a test holds it to. The order and the plan are most of it, and encoding/json would go
// over them again and again: they write themselves.
func written(e Event) ([]byte, error) {
	desk := desks.Get().(*[]byte)
	defer desks.Put(desk)
	head, err := json.Marshal(eventHead{e.Kind, e.By, e.At, e.Where, e.Message, e.Text})
	if err != nil {
		return nil, err
	}
	b := append((*desk)[:0], head[:len(head)-1]...)
	if e.Order != nil {
		if b, err = e.Order.AppendJSON(append(b, `,"order":`...)); err != nil {
			return nil, err
		}
	}
	if e.Plan != nil {
		if b, err = e.Plan.AppendJSON(append(b, `,"plan":`...)); err != nil {
			return nil, err
		}
	}
	tail, err := json.Marshal(eventTail{e.Odd, e.Data, e.Record, e.Chosen, e.Step, e.Pass, e.Note, e.Early, e.PlanRev, e.Key})
	if err != nil {
		return nil, err
	}
	b = append(append(b, ','), tail[1:]...)
	*desk = b
	return bytes.Clone(b), nil
}
