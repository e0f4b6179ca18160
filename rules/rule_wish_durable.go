package rules

import "strikeoff/rules/source"

var durableWish = &rule{
	id: "durable", basis: source.CommonPractice,
	about: "For hard wear and many washes: plastisol, sublimation, a good transfer.",
	judge: func(b *bench) {
		if !b.wish(Durable) {
			return
		}
		b.move(Plastisol, 6, "Stands many washes.")
		b.move(Sublimation, 6, "Cannot crack or peel.")
		b.move(DTG, -8, "Fades sooner than a screen print.")
		b.move(WaterBased, -2, "Fades a little with washing.")
	},
}
