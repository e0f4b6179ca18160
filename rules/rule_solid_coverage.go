package rules

import "strikeoff/rules/source"

var solidCoverage = &rule{
	id: "large-solid", basis: source.CommonPractice,
	about: "A large solid print is stiff and hot to wear in a film; soft methods gain by it.",
	judge: func(b *bench) {
		a, sized := b.area()
		if !b.print.Coverage.Known || b.coverage() < 0.6 || sized && a < 0.03 || b.cloth.soft() {
			return
		}
		b.move(Plastisol, -5, "A large solid film is heavy to wear.")
		b.move(DTF, -6, "A large solid film is heavy to wear.")
		b.move(HeatTransfer, -6, "A large solid film is heavy to wear.")
		b.move(WaterBased, 3, "A large solid stays soft in water-based ink.")
		b.move(Discharge, 5, "A large solid stays soft in discharge.")
	},
}
