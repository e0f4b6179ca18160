package rules

import "strikeoff/rules/source"

var awkwardPlace = &rule{
	id: "awkward-place", basis: source.CommonPractice,
	about: "Prints on hoods, pockets, hems and sides meet seams, fronts meet zips, jackets have linings; a neck label touches the skin.",
	after: func(b *bench) {
		switch b.line.Garment {
		case "jacket", "vest":
			b.caution("jacket", Info, "A made-up "+garmentWord(b.line)+": look for lining, zip, pockets and a water-repellent finish before printing; a lining must be held flat or it puckers.")
		case "zip-hoodie":
			if b.print.Place == "front" {
				b.caution("zip", Care, "A front print on a zip hoodie meets the zip: split the art on either side of it, or move it to chest or back.")
			}
		}
		switch b.print.Place {
		case "hood", "pocket", "hem", "side":
			b.caution("seams", Info, "The "+string(b.print.Place)+" print meets seams or edges: check that it lies flat on a platen or press.")
		case "inside-neck":
			b.caution("neck-label", Info, "A label inside the neck touches the skin: thin deposit, full cure, and look that it does not show through.")
		}
	},
}
