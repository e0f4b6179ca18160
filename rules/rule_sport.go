package rules

import "strikeoff/rules/source"

var sportGoods = &rule{
	id: "sport-goods", basis: source.CommonPractice,
	about: "Sports wear stretches, sweats and must breathe.",
	judge: func(b *bench) {
		if b.use(Athletic) && b.cloth.known && b.cloth.Polyester >= 0.45 {
			b.move(Sublimation, 4, "Breathes and stretches with sports wear.")
			b.add(Plastisol, StretchAdditive, "Sports wear stretches: stretch additive.")
		}
	},
}
