package rules

import "strikeoff/rules/source"

var sublimationNeedsLight = &rule{
	id: "sublimation-needs-light-cloth", basis: source.CommonPractice,
	about: "Sublimation dye is transparent: it shows on light cloth only.",
	judge: func(b *bench) {
		if !b.worst.known {
			return
		}
		switch l := b.worst.colour.Lab.L; {
		case l < 60 || b.worst.pattern:
			b.veto(Sublimation, "The dye is transparent and there is no white: it cannot show on "+b.worst.name+". Light cloth only.")
		case l < 70:
			b.limit(Sublimation, Expert, "The dye is transparent: on "+b.worst.name+" only much darker colours show.")
			b.move(Sublimation, -25, "")
		case l < 90 || b.worst.colour.Lab.Chroma() > 14:
			if b.print.FullColour || b.worst.colour.Lab.Chroma() > 25 {
				b.limit(Sublimation, Test, "The cloth's own "+b.worst.name+" shows through every colour.")
				b.move(Sublimation, -10, "")
			} else {
				b.move(Sublimation, -8, "The cloth's own "+b.worst.name+" dulls the print a little.")
			}
		}
	},
}
