package rules

import "strikeoff/rules/source"

var awkwardPlace = &rule{
	id: "awkward-place", basis: source.CommonPractice,
	about: "Prints on hoods, pockets, hems and sides meet seams; a neck label touches the skin.",
	after: func(b *bench) {
		switch b.print.Place {
		case "hood", "pocket", "hem", "side":
			b.caution("seams", Info, "The "+string(b.print.Place)+" print meets seams or edges: check that it lies flat on a platen or press.")
		case "inside-neck":
			b.caution("neck-label", Info, "A label inside the neck touches the skin: thin deposit, full cure, and look that it does not show through.")
		}
	},
}
