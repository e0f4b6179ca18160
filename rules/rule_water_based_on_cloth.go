package rules

import "strikeoff/rules/source"

var waterBasedOnCloth = &rule{
	id: "water-based-holds-on-cellulose", basis: source.CommonPractice,
	about: "Water-based ink soaks into cotton, viscose and their blends; it holds poorly on synthetics and wool.",
	judge: func(b *bench) {
		if !b.cloth.known {
			return
		}
		c := b.cloth.Cellulose()
		switch {
		case b.cloth.Nylon > 0.3, b.cloth.Acrylic > 0.3:
			b.veto(WaterBased, "Water-based ink does not hold on this synthetic cloth.")
		case b.cloth.Wool > 0.3:
			b.limit(WaterBased, Expert, "On wool a water-based print must be tried: the fibre repels water.")
			b.move(WaterBased, -12, "")
		case c < 0.2:
			b.veto(WaterBased, "Water-based ink holds poorly on polyester: it washes out.")
		case c < 0.3:
			b.limit(WaterBased, Expert, "Little for a water-based ink to soak into.")
			b.move(WaterBased, -15, "")
		case c < 0.48 && b.cloth.Regenerate < 0.1:
			b.limit(WaterBased, Test, "Only the cotton takes the ink: duller, and it must be wash tested.")
			b.move(WaterBased, -10, "")
		case b.cloth.Polyester > 0.1 && !b.cloth.soft():
			b.move(WaterBased, -3, "The polyester takes less ink: a shade lighter than on cotton.")
		}
	},
}
