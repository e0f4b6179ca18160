package rules

import "strikeoff/rules/source"

var patternedGround = &rule{
	id: "patterned-cloth", basis: source.CommonPractice,
	about: "Camouflage and sublimated cloth bleed worst; patterned cloth shows through whatever is not opaque.",
	judge: func(b *bench) {
		for _, g := range b.grounds {
			if !g.pattern && !g.sublimated {
				continue
			}
			b.limit(WaterBased, Expert, "The pattern shows through a transparent ink.")
			b.limit(Discharge, Expert, "A printed pattern discharges unevenly.")
			if b.cloth.known && b.cloth.Polyester > 0.3 {
				b.base(Plastisol, GreyBlocker, "Camouflage and sublimated polyester bleed worst of all: a grey blocking base.")
				b.add(Plastisol, LowCure, "The lowest heat that cures, on cloth with loose dye.")
				b.limit(Plastisol, Test, "Test this very cloth for bleeding.")
			}
			return
		}
	},
	after: func(b *bench) {
		for _, g := range b.grounds {
			if (g.pattern || g.sublimated) && (!b.cloth.known || b.cloth.Polyester > 0.1) {
				b.caution("patterned-cloth", Care, "Camouflage, sublimated and other printed polyester has loose dye: the worst cloth for migration. Use a blocking base and the lowest heat, and hold the test print three days.")
			}
		}
	},
}
