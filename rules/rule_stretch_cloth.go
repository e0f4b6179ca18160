package rules

import "strikeoff/rules/source"

var stretchClothStretches = &rule{
	id: "stretch-cloth", basis: source.CommonPractice,
	about: "On cloth with elastane the ink must stretch with it, and the heat stays low.",
	judge: func(b *bench) {
		if !b.cloth.known || !b.cloth.stretchy() {
			return
		}
		b.add(Plastisol, StretchAdditive, "The cloth stretches: the ink must too.")
		if b.cloth.Elastane >= 0.05 {
			b.limit(HeatTransfer, Test, "Take a stretch transfer and pull it after pressing.")
			b.limit(DTF, Test, "The film must stretch with the cloth: pull it after pressing.")
			b.limit(DTG, Test, "The print may crack when the cloth stretches.")
			b.move(DTG, -6, "")
			b.move(WaterBased, -5, "A water-based print may open up when the cloth stretches.")
		}
	},
}
