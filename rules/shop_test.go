package rules

import (
	"encoding/json"
	"strings"
	"testing"
)

// Ensure each setting of a shop changes what it is for, and its zero means the usual.
func TestShopSettings(t *testing.T) {
	o := tee("polyester 100", "navy", "white", sized(280, 300))
	usual := Decide(o, Shop{}, Record{})
	step := func(p Plan, code string) Check { c, _ := p.Step(code); return c }

	if got := Decide(o, Shop{AQL: 1}, Record{}).Inspection[0]; got == usual.Inspection[0] || got.AQL != 1 {
		t.Errorf("AQL 1: %+v", got)
	}
	if c := step(Decide(o, Shop{Washes: 10, WashTempC: 60}, Record{}), "wash"); !strings.Contains(c.How, "10 times at 60 °C (140 °F)") || !strings.Contains(c.How, "6N") {
		t.Errorf("ten washes at 60 °C: %s", c.How)
	}
	if c := step(usual, "wash"); !strings.Contains(c.How, "5 times at 40 °C (104 °F)") || !strings.Contains(c.How, "4N") {
		t.Errorf("the usual wash: %s", c.How)
	}
	if c := step(Decide(o, Shop{HoldHours: 48}, Record{}), "migration"); c.WaitHours != 48 {
		t.Errorf("a hold of 48 hours: %+v", c)
	}
	if c := step(usual, "migration"); c.WaitHours != 72 {
		t.Errorf("the usual hold: %+v", c)
	}
	// A high activation energy makes a low cure worth more.
	if hot, cool := Decide(o, Shop{Activation: 60}, Record{}).Migration[0], Decide(o, Shop{Activation: 200}, Record{}).Migration[0]; hot.AfterChange <= cool.AfterChange || hot.Change != cool.Change {
		t.Errorf("activation 60: %+v, 200: %+v", hot, cool)
	}
	slow := Shop{Rates: map[Method]Rate{Plastisol: {SecondsEach: 600}}}
	if e := choiceOf(Decide(o, slow, Record{}), Plastisol).Effort; e == nil || e.SecondsEach < 600 || e.SetupMinutes != choiceOf(usual, Plastisol).Effort.SetupMinutes {
		t.Errorf("a slow press: %+v", e)
	}
	if p := Decide(tee("cotton 100", "black", "white,red,blue", asking(Plastisol)), Shop{PressHeads: 4}, Record{}); !strings.Contains(asJSON(t, p.Cautions), "the press has 4") {
		t.Errorf("four heads: %v", p.Cautions)
	}
	due(Date("2026-12-18"))(&o)
	one, half := Decide(o, Shop{HoursADay: 1}, Record{Today: "2026-11-25"}).Schedule, Decide(o, Shop{ClosedDays: List[string]{"thu", "fri", "sat", "sun"}}, Record{Today: "2026-11-25"}).Schedule
	if one == nil || one.RunDays < 2 || half == nil || half.RunStarts != "2026-12-16" {
		t.Errorf("an hour a day: %+v; closed from Thursday: %+v", one, half)
	}
}

// A shop's settings are read and written by the names in its file.
func TestShopNames(t *testing.T) {
	const text = `{"methods":["plastisol"],"press_heads":8,"rates":{"dtf":{"setup_minutes":5,"minutes_per_colour":0,"seconds_each":60}},"hours_a_day":6,"closed_days":["sun"],"holidays":["2026-12-25"],"aql":4,"washes":7,"wash_temp_c":30,"hold_hours":24,"activation_kj_mol":100}`
	var s Shop
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(s)
	if err != nil || string(b) != text {
		t.Errorf("%s\nwant\n%s\n%v", b, text, err)
	}
}
