package intake

import (
	"fmt"
	"strings"
)

// Explain is the text with each span marked and named, for those who improve the vocabulary: the text with the spans in brackets and numbers, then
// a line for each number, then what was not used and what is odd.
func Explain(text string, r Reading) string {
	var b, notes strings.Builder
	at, n := 0, 0
	for i := 0; i < len(r.Marks); {
		m := r.Marks[i]
		j := i
		var fields []string
		sure := 1.0
		for j < len(r.Marks) && r.Marks[j].Start == m.Start && r.Marks[j].End == m.End {
			fields = append(fields, r.Marks[j].Field)
			sure = min(sure, r.Marks[j].Sure)
			j++
		}
		i = j
		if m.Start < at || m.End > len(text) || m.Start >= m.End {
			continue
		}
		n++
		b.WriteString(text[at:m.Start])
		fmt.Fprintf(&b, "[%s]%d", text[m.Start:m.End], n)
		at = m.End
		fmt.Fprintf(&notes, "%3d  %-24s sure %.2f  %s\n", n, quoted(text[m.Start:m.End]), sure, strings.Join(fields, ", "))
	}
	b.WriteString(text[at:])
	out := strings.TrimRight(b.String(), "\n") + "\n\n" + notes.String()
	if !r.IsOrder {
		out += "This reads as talk, not as an order.\n"
	}
	for _, u := range r.Order.Unread {
		out += "not used: " + quoted(u) + "\n"
	}
	for _, o := range r.Odd {
		out += "odd: " + o.Text + "\n"
	}
	return out
}

// quoted is a stretch of text on one line.
func quoted(s string) string { return fmt.Sprintf("%q", strings.Join(strings.Fields(s), " ")) }
