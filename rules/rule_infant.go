package rules

import "strikeoff/rules/source"

var infantGoods = &rule{
	id: "infant-goods", basis: source.JapanInfant,
	about: "Under three: nothing that can be bitten or picked off, and the lowest formaldehyde.",
	judge: func(b *bench) {
		if b.use(Infant) {
			b.limit(Discharge, Expert, "Discharge leaves formaldehyde: not for infants' wear without a laboratory's word.")
			b.move(Discharge, -25, "")
		}
	},
	after: func(b *bench) {
		if !b.use(Infant) {
			return
		}
		b.caution("infant", Care, "Infants' wear (under 3): no puff, glitter, foil or other loose parts that can be bitten off, no print against the skin that is rough, and the lowest formaldehyde: Japan allows about 16 ppm up to 24 months. A print that peels is a choking hazard. Defer to local code.")
		if b.effects() {
			b.caution("infant-effect", Care, "A special finish on infants' wear can come loose in the mouth: offer a flat print.")
		}
	},
}
