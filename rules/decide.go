package rules

// Decide answers an order: what to print with, why, and what to test first. It is a pure function of its arguments and safe for
// concurrent use. It never panics: an order it cannot answer gets questions.
func Decide(o Order, shop Shop, rec Record) Plan {
	p := Plan{}
	for _, l := range o.Lines {
		p.Lines = append(p.Lines, LinePlan{Prints: make(List[PrintPlan], len(l.Prints))})
		p.Migration = append(p.Migration, Migration{Risk: RiskUnknown, After: RiskUnknown})
	}
	return p
}
