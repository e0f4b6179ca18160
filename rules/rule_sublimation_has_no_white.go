package rules

import "strikeoff/rules/source"

var sublimationHasNoWhite = &rule{
	id: "sublimation-has-no-white", basis: source.CommonPractice,
	about: "There is no white sublimation dye, and none paler than the cloth.",
	judge: func(b *bench) {
		if !b.worst.known {
			return
		}
		for _, i := range b.inks {
			if i.known && i.colour.Lab.L > b.worst.colour.Lab.L+3 && b.worst.colour.Lab.L < 93 {
				b.veto(Sublimation, "There is no "+i.name+" in sublimation: nothing paler than the cloth can be dyed in.")
				return
			}
		}
	},
}
