package rules

import "strikeoff/rules/source"

var photoArt = &rule{
	id: "photographic-art", basis: source.CommonPractice,
	about: "Photographic art is for direct-to-garment, film and sublimation; on screens it takes process separations and a run that pays for them.",
	judge: func(b *bench) {
		if !b.print.FullColour {
			return
		}
		b.move(DTG, 16, "Photographic art prints directly, with no screens.")
		b.move(DTF, 14, "A printed film carries photographic art onto most cloth.")
		b.move(HeatTransfer, 6, "A printed transfer can carry photographic art.")
		b.move(Sublimation, 14, "Photographic art dyes in at full detail.")
		b.move(Plastisol, -14, "Photographic art on screens takes process separations.")
		b.move(WaterBased, -28, "Photographic art in water-based ink takes process separations and practice.")
		b.limit(Plastisol, Test, "Process separations: a strike-off must prove the colours.")
		b.limit(WaterBased, Test, "Process separations: a strike-off must prove the colours.")
		b.limit(Discharge, Expert, "Photographic art in discharge is for practised hands.")
		b.move(Discharge, -22, "")
	},
}
