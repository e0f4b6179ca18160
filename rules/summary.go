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
	parts, open, stops := map[string][]*bench{}, 0, 0
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
		parts[how] = append(parts[how], b)
	}
	for _, c := range s.cautions {
		if c.it.Severity == Stop {
			stops++
		}
	}
	var says []string
	for how, list := range parts {
		where := s.where(list)
		if len(where) > 4 {
			where = append(where[:3], "the others")
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

// where names the prints that are made in one way, which stand in the order's own order: by their places in an order of one line, else line by line,
// and a line whose prints are all made in that way by its garments alone.
func (s *sheet) where(list []*bench) []string {
	switch {
	case len(s.order.Lines) == 1:
		return placesOf(list)
	case len(list) == len(s.benches):
		return []string{"whole order"}
	}
	alike := s.alike()
	var out []string
	for len(list) > 0 {
		b, n := list[0], 1
		for n < len(list) && list[n].at[0] == b.at[0] {
			n++
		}
		name := alike.name(b)
		if n < len(b.line.Prints) {
			name = and(placesOf(list[:n])) + " of the " + name
		}
		out, list = append(out, name), list[n:]
	}
	slices.Sort(out) // the same sentence whatever the order of lines
	return slices.Compact(out)
}

func placesOf(list []*bench) []string {
	var out []string
	for _, b := range list {
		if w := placeWord(b.print.Place); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	slices.Sort(out)
	return out
}

// alike counts the lines of each garment, and of each garment in each colour.
type alike struct {
	garments map[Garment]int
	colours  map[string]int
}

func (s *sheet) alike() alike {
	a := alike{map[Garment]int{}, map[string]int{}}
	for k := range s.order.Lines {
		l := &s.order.Lines[k]
		a.garments[l.Garment]++
		a.colours[coloured(l, l.Garment.Many())]++
	}
	return a
}

// name is the least that tells a line from the others: its garments, their colour, their cloth.
func (a alike) name(b *bench) string {
	if a.garments[b.line.Garment] == 1 {
		return b.line.Garment.Many()
	}
	if a.colours[coloured(b.line, b.line.Garment.Many())] > 1 && b.cloth.known {
		return coloured(b.line, b.cloth.word()+" "+b.line.Garment.Many())
	}
	return coloured(b.line, b.line.Garment.Many())
}

// coloured puts a line's colour before a name of its garments: "heather grey hoodies".
func coloured(l *Line, name string) string {
	words := strings.Join(l.Colours, " and ")
	switch {
	case words == "":
		return name
	case l.Heather:
		return "heather " + words + " " + name
	}
	return words + " " + name
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
