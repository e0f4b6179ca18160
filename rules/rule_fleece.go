package rules

import "strikeoff/rules/source"

var fleeceSurface = &rule{
	id: "fleece-surface", basis: source.CommonPractice,
	about: "Fleece has loose surface fibres, and pockets, seams and zips that a screen or press must clear.",
	judge: func(b *bench) {
		if !b.cloth.fleece {
			return
		}
		b.limit(DTG, Test, "Loose surface fibres on fleece make direct-to-garment fuzzy: test it.")
		b.move(DTG, -5, "")
		b.move(WaterBased, -5, "Fleece soaks up water-based ink and the fibres show through.")
		b.move(Discharge, -4, "Thick fleece takes much agent and much heat.")
	},
	after: func(b *bench) {
		if b.cloth.fleece {
			b.caution("fleece", Info, "Fleece: flatten the surface fibres with a first flash or a smoothing screen, and keep screen and press clear of pockets, seams and zips.")
		}
	},
}
