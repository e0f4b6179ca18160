package bot

import (
	"fmt"
	"strconv"
	"strings"

	"strikeoff/rules"
)

// quick are answers that fit a question's field where the plan gives none, in words that a customer's message could hold.
var quick = map[string][]string{
	"fabric":      {"100 % cotton", "50/50 cotton/polyester", "tri-blend", "100 % polyester"},
	"fibres":      {"100 % cotton", "50/50 cotton/polyester", "tri-blend", "100 % polyester"},
	"place":       {"front", "back", "left chest"},
	"garment":     {"t-shirts", "hoodies", "polos"},
	"colours":     {"white", "black", "navy"},
	"inks":        {"white", "black"},
	"ink_count":   {"1 colour", "2 colours", "full colour"},
	"full_colour": {"1 colour", "2 colours", "full colour"},
}

// quickAnswers are the answers to a question that can be given at a tap; none where only the customer's own words will do.
func quickAnswers(q rules.Question) []string {
	if len(q.Quick) > 0 {
		return q.Quick
	}
	return quick[q.Field[strings.LastIndexByte(q.Field, '.')+1:]]
}

// aimed says an answer so that it is clear which line it is about.
func aimed(field, answer string, o rules.Order) string {
	rest, ok := strings.CutPrefix(field, "lines[")
	if !ok || len(o.Lines) < 2 {
		return answer
	}
	n, err := strconv.Atoi(rest[:max(0, strings.IndexByte(rest, ']'))])
	if err != nil || n < 0 || n >= len(o.Lines) {
		return answer
	}
	return fmt.Sprintf("line %d: %s", n+1, answer)
}
