package bot

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// mostChanges is how many changes one line tells; the card shows the rest.
const mostChanges = 6

// sameOrder reports whether two orders say the same.
func sameOrder(a, b rules.Order) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && string(x) == string(y)
}

// amendedWords says in one line what changed about a job: "Changed: 60 instead of 48; navy instead of black."
func amendedWords(before, after job.Job) string {
	parts := changes(before.Order, after.Order)
	if n := len(parts) - mostChanges; n > 0 {
		parts = append(parts[:mostChanges], fmt.Sprintf("and %d changes more", n))
	}
	if len(parts) == 0 {
		parts = []string{"a detail of the order"}
	}
	return "Changed: " + strings.Join(parts, "; ") + "." + voidWords(before)
}

// voidWords says what stood to the plan before and does not any more.
func voidWords(before job.Job) string {
	switch {
	case before.SignOff != nil:
		return " The sign-off no longer counts: the plan is new."
	case before.PrintRev != 0:
		return " The test print no longer counts: the plan is new."
	}
	return ""
}

// changes says what is different between two orders, what weighs most first.
func changes(a, b rules.Order) []string {
	var out []string
	many := len(b.Lines) > 1
	for i := range max(len(a.Lines), len(b.Lines)) {
		switch {
		case i >= len(a.Lines):
			out = append(out, "new: "+lineWhat(b.Lines[i]))
		case i >= len(b.Lines):
			out = append(out, "dropped: "+lineWhat(a.Lines[i]))
		default:
			for _, c := range lineChanges(a.Lines[i], b.Lines[i]) {
				if many {
					c = fmt.Sprintf("line %d: %s", i+1, c)
				}
				out = append(out, c)
			}
		}
	}
	out = append(out, swap("", string(a.Customer), string(b.Customer), "for ")...)
	if a.Due != b.Due {
		out = append(out, swap("", dueWords(a), dueWords(b), "due ")...)
	}
	out = append(out, sets(a.Wishes, b.Wishes)...)
	return append(out, sets(a.Uses, b.Uses)...)
}

// lineChanges says what is different on one line.
func lineChanges(a, b rules.Line) []string {
	var out []string
	number := func(m rules.Maybe[int]) string {
		if !m.Known {
			return ""
		}
		return fmt.Sprint(m.Value)
	}
	out = append(out, swap("", number(a.Quantity), number(b.Quantity), "")...)
	out = append(out, swap("", string(a.Garment), string(b.Garment), "")...)
	if !slices.Equal(a.Colours, b.Colours) || a.Heather != b.Heather {
		out = append(out, swap("", known(colours(a)), known(colours(b)), "")...)
	}
	out = append(out, swap("", known(blend(a)), known(blend(b)), "")...)
	if sa, sb := sizes(a.Sizes), sizes(b.Sizes); sa != sb {
		out = append(out, swap("sizes ", sa, sb, "")...)
	}
	for i := range max(len(a.Prints), len(b.Prints)) {
		switch {
		case i >= len(a.Prints):
			out = append(out, "new print: "+printWhere(b.Prints[i]))
		case i >= len(b.Prints):
			out = append(out, "no print any more: "+printWhere(a.Prints[i]))
		default:
			out = append(out, printChanges(a.Prints[i], b.Prints[i])...)
		}
	}
	return out
}

// printChanges says what is different on one print.
func printChanges(a, b rules.Print) []string {
	var out []string
	if x, y := printWhere(a), printWhere(b); x != y {
		out = append(out, fmt.Sprintf("%s instead of %s", y, x))
	}
	return append(out, swap("", string(a.Method), string(b.Method), "by ")...)
}

// known is a word, or nothing where it says that a thing is unsaid.
func known(s string) string {
	if strings.HasSuffix(s, "unsaid") {
		return ""
	}
	return s
}

// swap says one thing instead of another; where there was none, just the new one; where there is none any more, that.
func swap(name, was, is, with string) []string {
	switch {
	case was == is:
		return nil
	case was == "":
		return []string{name + with + is}
	case is == "":
		return []string{fmt.Sprintf("%sno longer %s%s", name, with, was)}
	}
	return []string{fmt.Sprintf("%s%s%s instead of %s", name, with, is, was)}
}

// sets says what came and went in a set of words.
func sets[E ~string](was, is rules.List[E]) []string {
	var out []string
	for _, w := range is {
		if !slices.Contains(was, w) {
			out = append(out, strings.ReplaceAll(string(w), "-", " "))
		}
	}
	for _, w := range was {
		if !slices.Contains(is, w) {
			out = append(out, "no longer "+strings.ReplaceAll(string(w), "-", " "))
		}
	}
	return out
}
