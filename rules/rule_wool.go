package rules

import "strikeoff/rules/source"

var woolGentle = &rule{
	id: "wool-gentle-heat", basis: source.CommonPractice,
	about: "Wool scorches, shrinks and is hairy: low heat, and nothing without a test.",
	judge: func(b *bench) {
		if !b.cloth.known || b.cloth.Wool < 0.15 {
			return
		}
		b.add(Plastisol, LowCure, "Wool scorches: low-cure ink.")
		b.limit(Plastisol, Test, "Wool is hairy and heat-sensitive: test the cover and the feel.")
		b.limit(HeatTransfer, Test, "A cool, short press; look for scorch and press marks.")
		b.limit(DTF, Test, "A cool, short press; look for scorch and press marks.")
	},
	after: func(b *bench) {
		if b.cloth.known && b.cloth.Wool >= 0.15 {
			b.caution("wool", Care, "Wool scorches, shrinks and felts: keep the heat low, do not soak it, and wash test by the care label only.")
			b.check(adhesionCheck)
		}
	},
}
