package rules

import "strikeoff/rules/source"

var pileSurface = &rule{
	id: "pile-surface", basis: source.CommonPractice,
	about: "Terry and other pile swallow a print: bold art, and a test.",
	judge: func(b *bench) {
		if !b.cloth.pile {
			return
		}
		b.limit(Plastisol, Test, "The pile swallows ink: bold shapes, much pressure, test it.")
		b.limit(WaterBased, Test, "The pile swallows ink: bold shapes, test it.")
		b.limit(DTG, Expert, "A loop pile gives direct-to-garment no smooth surface.")
		b.limit(DTF, Expert, "A film bridges the loops and comes off.")
		b.limit(HeatTransfer, Expert, "A film bridges the loops and comes off.")
	},
}
