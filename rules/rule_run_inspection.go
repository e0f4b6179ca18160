package rules

import "strikeoff/rules/source"

var runInspection = &rule{
	id: "run-inspection", basis: source.Sampling,
	about: "A finished run is inspected by sample, not by luck.",
	close: func(s *sheet, r *rule) {
		for i := range s.order.Lines {
			l := &s.order.Lines[i]
			n := l.Quantity.Or(l.Sizes.Total())
			if n < 2 || len(l.Prints) == 0 {
				continue
			}
			s.fired[r.at] = true
			in := Inspect(n, s.shop.aql())
			in.Line = i
			s.inspections = append(s.inspections, in)
		}
	},
}
