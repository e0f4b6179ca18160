package rules

import "strikeoff/rules/source"

var colourUnsaid = &rule{
	id: "colour-unsaid", basis: source.CommonPractice,
	about: "Without the garment's colour no method that hangs on it is sure: ask; pick only what serves on light and on dark.",
	judge: func(b *bench) {
		if b.groundKnown() {
			return
		}
		for _, m := range []Method{Sublimation, WaterBased, Discharge, DTG} {
			b.limit(m, Test, "It hangs on the garment's colour, which is not known.")
		}
		if b.cloth.known && b.cloth.Polyester > 0.3 {
			b.limit(Plastisol, Test, "Whether the dye bleeds hangs on the garment's colour.")
			b.limit(DTF, Test, "Whether the dye bleeds hangs on the garment's colour.")
			b.limit(HeatTransfer, Test, "Whether the dye bleeds hangs on the garment's colour.")
		}
	},
	after: func(b *bench) {
		switch {
		case len(b.grounds) == 0:
			b.ask(90, "colours", colourQuestion(b.line))
		case !b.groundKnown():
			for _, g := range b.grounds {
				if !g.known {
					b.ask(70, "colours", "How light or dark is the garment colour "+quoted(g.name)+"? It is not a colour known here.")
				}
			}
		}
	},
}
