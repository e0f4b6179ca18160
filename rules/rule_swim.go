package rules

import "strikeoff/rules/source"

var swimGoods = &rule{
	id: "swim-goods", basis: source.CommonPractice,
	about: "Swimwear stretches wet, in chlorine and salt.",
	judge: func(b *bench) {
		if b.use(Swim) {
			b.move(DTG, -15, "Not for water, chlorine and salt.")
			b.move(WaterBased, -8, "Not for water, chlorine and salt.")
		}
	},
	after: func(b *bench) {
		if b.use(Swim) {
			b.caution("swim", Care, "Swimwear: chlorine, salt and stretch are hard on a print. Test it wet and stretched, soaked in pool water.")
		}
	},
}
