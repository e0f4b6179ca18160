package rules

import "strikeoff/rules/source"

// usualChoice is what a shop reaches for where nothing speaks against it.
var usualChoice = &rule{
	id: "usual-choice", basis: source.CommonPractice,
	about: "Screen printing is the workhorse; the other methods earn their place by the job.",
	judge: func(b *bench) {
		b.move(Plastisol, 14, "The workhorse: opaque, hard-wearing, quick at the press.")
		b.move(WaterBased, 8, "Screen printed, with no hand.")
		b.move(Discharge, -8, "Takes the dye out of the cloth: soft, but it takes trials and strong fumes.")
		b.move(Sublimation, 12, "The dye becomes part of the polyester: brightest, no hand.")
		b.move(DTG, -2, "No screens; slow on each piece.")
		b.move(DTF, -4, "No screens and works on most cloth; it lies on top as a film.")
		b.move(HeatTransfer, -5, "Pressed on piece by piece; works on most cloth.")
	},
}
