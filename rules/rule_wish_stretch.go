package rules

import "strikeoff/rules/source"

var stretchWish = &rule{
	id: "stretch-wished", basis: source.CommonPractice,
	about: "Where the print must stretch the ink gets a stretch additive.",
	judge: func(b *bench) {
		if !b.wish(Stretch) && !(b.line.Garment == "leggings") {
			return
		}
		b.add(Plastisol, StretchAdditive, "The print must stretch: stretch additive.")
		b.move(Sublimation, 4, "Stretches with the cloth: there is no film.")
		b.move(DTG, -4, "Cracks sooner when it is stretched.")
	},
}
