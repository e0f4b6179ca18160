package rules

import "strikeoff/rules/source"

var hotPress = &rule{
	id: "hot-press", basis: source.CommonPractice,
	about: "A hot press burns, and marks cloth that it is too hot for.",
	after: func(b *bench) {
		switch b.pick {
		case HeatTransfer, DTF, Sublimation:
			b.caution("hot-press", Info, "Hot press: keep hands clear. A garment whose care label allows only a cool iron (110 °C, 230 °F) needs a trial first.")
		}
	},
}
