package rules

import "strikeoff/rules/source"

var severalColours = &rule{
	id: "several-garment-colours", basis: source.CommonPractice,
	about: "A line in several garment colours is set up for the hardest one.",
	after: func(b *bench) {
		if len(b.grounds) < 2 || !b.worst.known {
			return
		}
		b.assume("colours", b.worst.name, "Set up for "+b.worst.name+", the hardest of the garment colours; the others may do with less under the ink.")
		if b.worst.colour.Lab.L < 45 && b.palest.light() {
			b.caution("light-and-dark", Care, "Light and dark garments in one run: the dark ones need a base under the colours and the light ones do not, so print them as two set-ups, or accept the base on all.")
			b.ask(40, "colours", "How many pieces in each garment colour?")
		}
	},
}
