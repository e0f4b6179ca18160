package rules

import "strikeoff/rules/source"

var ecoWish = &rule{
	id: "eco", basis: source.CommonPractice,
	about: "For customers who mind the chemistry: water-based and digital inks before plastisol and discharge.",
	judge: func(b *bench) {
		if !b.wish(Eco) {
			return
		}
		b.move(WaterBased, 12, "Water-based, as a customer who minds the chemistry would want.")
		b.move(DTG, 5, "Water-based ink, and no screens to wash.")
		b.move(Sublimation, 4, "No rinse water, no film.")
		b.move(Discharge, -10, "The agent releases formaldehyde.")
		b.move(Plastisol, -4, "A vinyl ink unless the shop has one without.")
	},
}
