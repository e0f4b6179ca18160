package rules

import "strikeoff/rules/source"

var sublimationHeat = &rule{
	id: "sublimation-heat", basis: source.CommonPractice,
	about: "Sublimation presses at 193 to 204 °C (379 to 399 °F) for 45 to 60 s.",
	judge: func(b *bench) {
		if b.choice(Sublimation).Verdict == No {
			return
		}
		if b.cloth.Elastane >= 0.05 || b.cloth.Cellulose() > 0.3 {
			b.heat(Sublimation, 190, 197, 40, 50, "The low end of sublimation heat, for what is not polyester.")
			return
		}
		b.heat(Sublimation, 193, 204, 45, 60, "193 to 204 °C (379 to 399 °F) for 45 to 60 s.")
	},
}
