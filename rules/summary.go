package rules

import (
	"slices"
	"strings"
)

// summary is the answer in one sentence.
func (s *sheet) summary(p Plan) string {
	if len(s.benches) == 0 {
		if len(s.order.Lines) == 0 {
			return "Nothing to plan yet: say what is to be printed on what."
		}
		return "Nothing to plan yet: say what is to be printed and where."
	}
	if s.draft {
		return ""
	}
	parts, open, stops := map[string][]string{}, 0, 0
	for _, b := range s.benches {
		if b.pick == "" || b.held {
			open++
			continue
		}
		c := b.choice(b.pick)
		how := b.pick.Plain()
		if c.Setup.Base != NoBase && c.Setup.Base != "" {
			how += " on " + c.Setup.Base.Plain()
			if b.pick == DTF || b.pick == HeatTransfer || b.pick == DTG {
				how = b.pick.Plain() + " with " + c.Setup.Base.Plain()
			}
		}
		switch b.pick {
		case HeatTransfer:
			how = "as a " + how
		case DTF, DTG:
			how = "as " + how
		default:
			how = "in " + how
		}
		where := placeWord(b.print.Place)
		if len(s.order.Lines) > 1 {
			where = lineWord(b.line, b.cloth) + " " + where
		}
		if !slices.Contains(parts[how], where) {
			parts[how] = append(parts[how], where)
		}
	}
	for _, c := range s.cautions {
		if c.it.Severity == Stop {
			stops++
		}
	}
	var says []string
	for how, where := range parts {
		slices.Sort(where)
		if len(where) > 4 {
			where = append(where[:3], "other places")
		}
		says = append(says, and(where)+" "+how)
	}
	slices.Sort(says)
	var out string
	switch {
	case stops > 0 && len(says) == 0:
		out = "Stop: a person must settle the safety of this job before it is printed"
	case len(says) == 0 && len(s.questions) > 0:
		out = "No method yet: the answer to the first question below decides it"
	case len(says) == 0:
		out = "No method works as ordered: a person must look at it"
	default:
		if len(says) > 4 {
			says = append(says[:3], "the rest as listed")
		}
		out = "Print the " + strings.Join(says, "; ")
		if rest, unsaid := strings.CutPrefix(out, "Print the print "); unsaid {
			out = "Print it " + rest
		}
		switch {
		case open > 0:
			out += "; the rest waits for an answer"
		case stops > 0:
			out += ", once a person has settled what is stopped below"
		case p.WashTest:
			out += ", after a test print with a wash test"
		}
	}
	out += "."
	if len(s.changed) > 0 {
		out += " " + slices.Min(s.changed) // the same one whatever the order of lines
	}
	return out
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
