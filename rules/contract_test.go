package rules

import (
	"encoding/json"
	"strings"
	"testing"
)

// TestPlanContract holds a plan's JSON to the names that other programs read: every path must be there, and an empty list is [], no pick null.
func TestPlanContract(t *testing.T) {
	p := Decide(tee("polyester 50 cotton 25 viscose 25", "maroon", "white"), Shop{}, Record{})
	var got any
	if err := json.Unmarshal([]byte(asJSON(t, p)), &got); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"lines.0.prints.0.pick", "lines.0.prints.0.choices.0.method", "lines.0.prints.0.choices.0.verdict", "lines.0.prints.0.choices.0.score",
		"lines.0.prints.0.choices.0.why.0.rule", "lines.0.prints.0.choices.0.why.0.text", "lines.0.prints.0.choices.0.why.0.basis",
		"lines.0.prints.0.choices.0.setup.base", "lines.0.prints.0.choices.0.setup.additives.0", "lines.0.prints.0.choices.0.setup.heat.temp_c.1",
		"lines.0.prints.0.choices.0.setup.heat.seconds.1", "lines.0.prints.0.choices.0.expect.vividness", "migration.0.risk", "migration.0.after",
		"cautions.0.code", "cautions.0.severity", "cautions.0.text", "cautions.0.basis", "summary", "checklist.0.code", "checklist.0.title", "checklist.0.how",
		"checklist.0.pass", "checklist.0.wait_hours", "wash_test", "test_print", "questions.0.field", "questions.0.text", "assumptions"} {
		at := got
		for key := range strings.SplitSeq(path, ".") {
			switch x := at.(type) {
			case map[string]any:
				v, ok := x[key]
				if !ok {
					t.Errorf("%s: no %q", path, key)
				}
				at = v
			case []any:
				i := int(key[0] - '0')
				if i >= len(x) {
					t.Errorf("%s: too short", path)
					at = nil
					continue
				}
				at = x[i]
			default:
				t.Errorf("%s: nothing at %q", path, key)
			}
		}
		if at == nil {
			t.Errorf("%s is null", path)
		}
	}
	open := asJSON(t, Decide(tee("", "black", "white"), Shop{}, Record{}))
	for _, want := range []string{`"pick": null`, `"cautions": []`, `"checklist": []`, `"heat": null`} {
		if !strings.Contains(open, want) {
			t.Errorf("an open plan does not hold %s", want)
		}
	}
}
