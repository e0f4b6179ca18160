package rules

import "strikeoff/rules/source"

var shapedGarment = &rule{
	id: "shaped-garment", basis: source.CommonPractice,
	about: "Caps and beanies are curved and small: a transfer on a shaped press, or a special platen.",
	judge: func(b *bench) {
		switch b.line.Garment {
		case "cap":
			b.limit(DTG, Expert, "A made-up cap does not lie flat under a print head.")
			b.move(DTG, -10, "")
			b.limit(WaterBased, Test, "A cap needs its own platen.")
			b.limit(Discharge, Expert, "A made-up cap does not dry and wash like a shirt.")
			b.limit(Sublimation, Test, "A cap needs its own shaped press.")
			b.move(Plastisol, -6, "A cap needs its own platen.")
			b.move(HeatTransfer, 16, "A transfer goes on a made-up cap with a shaped press.")
			b.move(DTF, 10, "A transfer goes on a made-up cap with a shaped press.")
		case "beanie":
			b.add(Plastisol, StretchAdditive, "A knitted cap stretches when it is worn: so must the ink.")
			b.move(DTG, -15, "A coarse knit gives no smooth surface.")
			b.move(HeatTransfer, 4, "A small transfer on a cuff is the usual way.")
		}
	},
}
