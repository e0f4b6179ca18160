package rules

import "strikeoff/rules/source"

var breathableWish = &rule{
	id: "breathable", basis: source.CommonPractice,
	about: "To breathe, the print must not close the cloth: dye and soft inks, no large film.",
	judge: func(b *bench) {
		if !b.wish(Breathable) {
			return
		}
		b.move(Sublimation, 8, "Leaves the cloth open, as wished.")
		b.move(WaterBased, 8, "Leaves the cloth open, as wished.")
		b.move(Discharge, 8, "Leaves the cloth open, as wished.")
		b.move(DTF, -8, "A film closes the cloth.")
		b.move(HeatTransfer, -8, "A film closes the cloth.")
		b.move(Plastisol, -4, "A film closes the cloth where it lies.")
	},
}
