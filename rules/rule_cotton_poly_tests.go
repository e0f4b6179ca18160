package rules

import "strikeoff/rules/source"

var cottonPolyTests = &rule{
	id: "cotton-polyester-tests", basis: source.CommonPractice,
	about: "Of dyed cotton-polyester some bleed and some do not, by maker and colour: test.",
	judge: func(b *bench) {
		if !b.cloth.known || b.cloth.Polyester < 0.08 || b.cloth.Polyester >= 0.9 || b.cloth.Cellulose() < 0.2 {
			return
		}
		if len(b.grounds) > 0 && b.groundKnown() && b.worst.light() && grade(b.migrates.plain) == RiskNone {
			return
		}
		b.limit(Plastisol, Test, "Some dyed cotton-polyester bleeds and some does not, by maker and colour: test this one.")
	},
}
