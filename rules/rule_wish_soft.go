package rules

import "strikeoff/rules/source"

var softHand = &rule{
	id: "soft-hand", basis: source.CommonPractice,
	about: "A soft hand: water-based on light, discharge on dark cotton, sublimation on polyester; a film is what cannot be soft.",
	judge: func(b *bench) {
		if !b.wish(SoftHand) {
			return
		}
		b.move(WaterBased, 14, "Soft to the touch, as wished.")
		b.move(Discharge, 30, "Soft to the touch on dark cloth, as wished.")
		b.move(Sublimation, 8, "Nothing to feel, as wished.")
		b.move(DTG, 6, "Softer than a film.")
		b.move(Plastisol, -6, "A film on the cloth: thin it and soften it.")
		b.move(DTF, -12, "A film on the cloth, against the wish for a soft hand.")
		b.move(HeatTransfer, -12, "A film on the cloth, against the wish for a soft hand.")
		b.add(Plastisol, Softener, "")
	},
}
