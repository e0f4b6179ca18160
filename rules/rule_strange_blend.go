package rules

import "strikeoff/rules/source"

var strangeBlend = &rule{
	id: "unusual-blend", basis: source.CommonPractice,
	about: "A blend that the trade has no set answer for is tested whatever the method.",
	judge: func(b *bench) {
		if !b.cloth.known || b.cloth.class != "other" {
			return
		}
		c := b.cloth
		if c.Cellulose()+c.Elastane > 0.995 && c.Bast+c.Regenerate < 0.3 {
			return // cotton with a little elastane: known ground
		}
		for _, m := range []Method{Plastisol, WaterBased, DTG, DTF, HeatTransfer} {
			b.limit(m, Test, "An unusual blend: test it before the run.")
		}
	},
}
