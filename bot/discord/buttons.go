package discord

import (
	"slices"
	"strings"

	"strikeoff/bot"
)

// row is a row of buttons, or one list to choose from.
type row struct {
	Type       int       `json:"type"` // 1
	Components []control `json:"components"`
}

// control is a button or a list.
type control struct {
	Type        int      `json:"type"` // 2 a button, 3 a list
	Custom      string   `json:"custom_id"`
	Label       string   `json:"label,omitempty"`
	Style       int      `json:"style,omitempty"`
	Placeholder string   `json:"placeholder,omitempty"`
	Options     []option `json:"options,omitempty"`
}

type option struct {
	Label string `json:"label"`
	Value string `json:"value"`
}

const (
	styleMain  = 1
	stylePlain = 2
)

// more is the group of what found no room in its own.
const more = "\x00more"

// listWords are what stands in a closed list.
var listWords = map[string]string{"step": "Record a check", "answer": "Answer for the customer", "job": "More about this job", "pick": "Take another method", more: "More"}

// buttons lays actions out: five rows at most. A group of more than one row becomes a list; where that is not enough, the groups that come
// last share one list. What even there finds no room can still be typed.
func buttons(acts []bot.Action) (rows []row, refs map[string]string) {
	refs, rows = map[string]string{}, []row{}
	groups, order := grouped(acts)
	lists := map[string]bool{}
	for _, g := range order {
		lists[g] = len(groups[g]) > rowLimit
	}
	for i := len(order) - 1; i > 0 && need(groups, order, lists) > rowsLimit; i-- {
		g := order[i]
		groups[more], groups[g] = append(groups[g], groups[more]...), nil
		lists[more] = true
	}
	if lists[more] {
		order = append(order, more)
	}
	id := func(a bot.Action) string {
		full := pressOf(a).id()
		custom, ref := short(full)
		if ref != "" {
			refs[ref] = full
		}
		return custom
	}
	var cur []control
	first := true
	flush := func() {
		if len(cur) > 0 {
			rows = append(rows, row{Type: 1, Components: cur})
		}
		cur = nil
	}
	for _, g := range order {
		if lists[g] {
			continue
		}
		for _, a := range groups[g] {
			if len(cur) == rowLimit {
				flush()
			}
			style := stylePlain
			if first {
				style, first = styleMain, false
			}
			cur = append(cur, control{Type: 2, Custom: id(a), Label: clip(a.Label, labelLimit), Style: style})
		}
	}
	flush()
	for _, g := range order {
		if !lists[g] || len(groups[g]) == 0 {
			continue
		}
		c := control{Type: 3, Custom: "list:" + clip(strings.Trim(g, "\x00"), 60), Placeholder: listWords[g]}
		if c.Placeholder == "" {
			c.Placeholder = "Choose"
		}
		for _, a := range groups[g][:min(optionsLimit, len(groups[g]))] {
			c.Options = append(c.Options, option{Label: clip(a.Label, optionLimit), Value: id(a)})
		}
		rows = append(rows, row{Type: 1, Components: []control{c}})
	}
	return rows[:min(rowsLimit, len(rows))], refs
}

// grouped sorts actions by group, in order of first appearance, without those that do the same as one before: Discord refuses a message
// with the same id twice.
func grouped(acts []bot.Action) (groups map[string][]bot.Action, order []string) {
	groups = map[string][]bot.Action{}
	seen := map[string]bool{}
	for _, a := range acts {
		id := pressOf(a).id()
		if seen[id] || a.Command == "" || a.Label == "" {
			continue
		}
		seen[id] = true
		if !slices.Contains(order, a.Group) {
			order = append(order, a.Group)
		}
		groups[a.Group] = append(groups[a.Group], a)
	}
	return groups, order
}

// need is how many rows a layout takes.
func need(groups map[string][]bot.Action, order []string, lists map[string]bool) int {
	singles, n := 0, 0
	for _, g := range order {
		switch {
		case len(groups[g]) == 0:
		case lists[g]:
			n++
		default:
			singles += len(groups[g])
		}
	}
	if len(groups[more]) > 0 {
		n++
	}
	return n + (singles+rowLimit-1)/rowLimit
}
