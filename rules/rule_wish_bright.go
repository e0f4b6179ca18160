package rules

import "strikeoff/rules/source"

var brightWish = &rule{
	id: "bright", basis: source.CommonPractice,
	about: "Bright colour: sublimation on light polyester, plastisol or film on a base; discharge mutes.",
	judge: func(b *bench) {
		if !b.wish(Bright) {
			return
		}
		b.move(Sublimation, 6, "The brightest on light polyester.")
		b.move(Plastisol, 5, "Opaque and bright.")
		b.move(DTF, 3, "Opaque and bright.")
		b.move(Discharge, -12, "Discharge mutes the colours.")
		if b.worst.known && !b.worst.light() {
			b.move(WaterBased, -6, "Water-based colours sink into dark cloth.")
		}
	},
}
