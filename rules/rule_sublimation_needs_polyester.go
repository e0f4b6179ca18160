package rules

import "strikeoff/rules/source"

var sublimationNeedsPolyester = &rule{
	id: "sublimation-needs-polyester", basis: source.CommonPractice,
	about: "Sublimation dyes polyester alone; the print is as strong as the cloth's polyester share.",
	judge: func(b *bench) {
		if !b.cloth.known {
			return
		}
		switch p := b.cloth.Polyester; {
		case p < 0.35, p < 0.45 && !b.wish(Vintage):
			b.veto(Sublimation, "Sublimation dyes polyester; this cloth has too little of it to hold a print.")
		case p < 0.45:
			b.limit(Sublimation, Expert, "Well under half polyester: the print comes out very faded.")
			b.move(Sublimation, -30, "")
		case b.cloth.Regenerate > 0.1 && b.cloth.Cotton < 0.05 && p >= 0.6:
			b.limit(Sublimation, Test, "Nearly as bright as on polyester; test it on this cloth.")
			b.move(Sublimation, -4, "")
		case p < 0.62:
			b.limit(Sublimation, Test, "About half polyester: a faded, vintage look.")
			b.move(Sublimation, -28, "")
		case p < 0.9:
			b.limit(Sublimation, Test, "Slightly muted: only the polyester takes the dye.")
			b.move(Sublimation, -14, "")
		default:
			b.move(Sublimation, 10, "Polyester: full colour strength, nothing to feel.")
		}
		if b.cloth.Nylon > 0.2 || b.cloth.Acrylic > 0.1 || b.cloth.Wool > 0.1 {
			b.veto(Sublimation, "The press heat that sublimation needs is too much for this cloth.")
		} else if b.cloth.Elastane > 0.12 {
			b.limit(Sublimation, Test, "Elastane suffers at sublimation heat; test for stretch and yellowing.")
		}
	},
}
