package discord

import "strings"

// formField is the name of a form's one input.
const formField = "said"

// wants says how a form asks for what an action needs: the input's label, a hint, whether it may stay empty.
var wants = map[string]struct {
	label, hint string
	may         bool
}{
	"reason":  {"Reason", "In a sentence: it is kept with the job.", false},
	"note":    {"What was seen", "What was measured or seen, with its unit.", false},
	"reading": {"Reading", "What was measured, with its unit.", false},
	"change":  {"What changes", "As you would write it: make it 60, in black", false},
}

// formFor is the form that a press opens. id is the button's own custom_id: a long one stays a reference.
func formFor(p press, id string) map[string]any {
	w, ok := wants[p.Needs]
	if !ok {
		w.label = upperFirst(p.Needs)
	}
	custom := p.formID()
	if strings.HasPrefix(id, refPrefix) || units(custom) > customLimit {
		custom = id
	}
	return map[string]any{
		"custom_id": custom,
		"title":     clip(upperFirst(p.Command), 45),
		"components": []any{map[string]any{
			"type": 18, "label": clip(w.label, 45), // a label around its input: rows in forms are on their way out
			"component": map[string]any{"type": 4, "custom_id": formField, "style": 2, "min_length": 1, "max_length": 2000,
				"required": !w.may, "placeholder": clip(w.hint, 100)},
		}},
	}
}
