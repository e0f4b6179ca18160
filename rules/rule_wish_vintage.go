package rules

import "strikeoff/rules/source"

var vintageLook = &rule{
	id: "vintage-look", basis: source.CommonPractice,
	about: "A faded, worn look comes from discharge, water-based, a thin plastisol, or sublimation on a blend.",
	judge: func(b *bench) {
		if !b.wish(Vintage) {
			return
		}
		b.move(Discharge, 20, "A muted print is the look that is wished.")
		b.move(WaterBased, 8, "A worn look comes easily in water-based ink.")
		if b.cloth.known && b.cloth.Polyester < 0.85 {
			b.move(Sublimation, 18, "On a blend it fades into the vintage look that is wished.")
		}
		b.move(Plastisol, -4, "Thin it and cure it flat for a worn look.")
		b.move(DTF, -6, "A crisp film is not the vintage look.")
		b.move(HeatTransfer, -6, "A crisp film is not the vintage look.")
	},
}
