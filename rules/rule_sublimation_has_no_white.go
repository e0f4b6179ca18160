package rules

import "strikeoff/rules/source"

var sublimationHasNoWhite = &rule{
	id: "sublimation-has-no-white", basis: source.CommonPractice,
	about: "There is no white sublimation dye, and none paler than the cloth.",
	judge: func(b *bench) {
		if !b.worst.known {
			return
		}
		pale := 0
		for _, i := range b.inks {
			if i.known && i.colour.Lab.L > b.worst.colour.Lab.L-4 {
				pale++
			}
		}
		if pale > 0 && pale == len(b.inks) && !b.print.FullColour {
			b.veto(Sublimation, "There is no "+b.inks[0].name+" in sublimation that shows on "+b.worst.name+".")
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
