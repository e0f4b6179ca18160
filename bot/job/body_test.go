package job

import (
	"encoding/json"
	"reflect"
	"testing"
	"time"

	"strikeoff/rules"
)

// Ensure an event is written as encoding/json writes it, whatever is in it; a field of Event that body.go forgets shows here.
func TestBodyIsPlainJSON(t *testing.T) {
	fields := reflect.TypeFor[Event]().NumField()
	if n := reflect.TypeFor[eventHead]().NumField() + reflect.TypeFor[eventTail]().NumField() + 2; n != fields {
		t.Errorf("an event has %d fields, and %d are written", fields, n)
	}
	order := &rules.Order{Customer: "Nobody <Choir>", Lines: rules.List[rules.Line]{{Quantity: rules.Said(3)}}}
	plan := rules.Decide(*order, rules.Shop{}, rules.Record{Today: "2026-11-25"})
	full := Event{Kind: Opened, By: Actor{ID: "U1", Name: "Rea & Ito", Role: Rep}, At: time.Date(2026, 11, 25, 12, 0, 0, 5, time.UTC),
		Where: Place{Door: "console", Room: "r", Thread: "t"}, Message: "m", Text: "3 tees \"<b>\"", Order: order, Plan: &plan, Odd: []string{"odd"}, Data: true,
		Record: rules.Record{Today: "2026-11-25"}, Chosen: rules.Chosen{Line: 1, Print: 2, Method: "dtf"}, Step: "wash", Pass: true, Note: "n", Early: "e", PlanRev: 4, Key: "k"}
	if v := reflect.ValueOf(full); v.NumField() > 0 {
		for i := range v.NumField() {
			if v.Field(i).IsZero() {
				t.Errorf("the event of this test leaves %s empty", v.Type().Field(i).Name)
			}
		}
	}
	for _, e := range []Event{{}, full, {Kind: Opened, Order: order}, {Kind: RefusedIt, Plan: &plan}, {Kind: AlertSent, Key: "k"}} {
		want, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		got, err := written(e)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(want) {
			t.Errorf("written as\n%s\nwant\n%s", got, want)
		}
	}
}
