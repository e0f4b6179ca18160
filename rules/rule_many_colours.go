package rules

import "strikeoff/rules/source"

var manyColours = &rule{
	id: "few-pieces-many-colours", basis: source.CommonPractice,
	about: "Few pieces in many colours favour digital print; many pieces in few colours favour screens.",
	judge: func(b *bench) {
		if b.pieces == 0 {
			return
		}
		if b.pieces < 12 && !b.wide {
			for _, m := range []Method{Plastisol, WaterBased, Discharge} {
				b.move(m, -12, "Screens for a handful of pieces hardly pay.")
			}
			if b.cloth.known && b.cloth.Cotton > 0.9 {
				b.move(DTG, 4, "A handful of cotton pieces: no screens to make.")
			}
		}
		if b.inkN < 5 && !b.print.FullColour {
			return
		}
		if b.inkN > b.shop.heads() && !b.print.FullColour {
			b.move(Plastisol, -8, "More colours than the press has heads.")
			b.move(WaterBased, -8, "More colours than the press has heads.")
			b.move(Discharge, -8, "More colours than the press has heads.")
		}
		if b.pieces < 48 {
			b.move(DTG, 8, "Few pieces in many colours: no screens to make.")
			b.move(DTF, 8, "Few pieces in many colours: no screens to make.")
			b.move(Plastisol, -6, "Many screens for few pieces.")
			b.move(WaterBased, -6, "Many screens for few pieces.")
		}
		if b.pieces >= 200 && b.print.FullColour {
			b.move(Plastisol, 12, "The run pays for process separations.")
			b.move(DTG, -4, "Slow on a run of this length.")
			b.move(DTF, -4, "Slow on a run of this length.")
		}
	},
}
