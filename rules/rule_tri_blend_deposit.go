package rules

import "strikeoff/rules/source"

var triBlendDeposit = &rule{
	id: "soft-knit-thin-deposit", basis: source.CommonPractice,
	about: "Tri-blend and poly-viscose want a thin, soft deposit: stretch additive or softener, no heavy ink.",
	judge: func(b *bench) {
		if !b.cloth.known || !b.cloth.soft() {
			return
		}
		b.add(Plastisol, Softener, "Thin, drapy cloth: soften the ink and keep the deposit thin.")
		b.add(Plastisol, StretchAdditive, "")
		if b.coverage() > 0.6 && b.print.Coverage.Known {
			b.move(Plastisol, -18, "A large solid of plastisol is wrong on this cloth: heavy and stiff.")
			b.move(DTF, -8, "A large film is stiff on this cloth.")
			b.move(HeatTransfer, -8, "A large film is stiff on this cloth.")
		}
		if !b.worst.known || !b.worst.light() {
			b.limit(Plastisol, Test, "Each yarn takes ink and gives off dye differently: test.")
		}
	},
}
