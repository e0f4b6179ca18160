package rules

import "strikeoff/rules/source"

var waterBasedSoft = &rule{
	id: "water-based-on-soft-knits", basis: source.CommonPractice,
	about: "On light viscose blends water-based is very good, the more so the more the art covers.",
	judge: func(b *bench) {
		if b.cloth.known && b.cloth.soft() && b.worst.known && !b.needsCover() {
			b.move(WaterBased, 4+16*max(0, b.coverage()-0.4), "On this drapy cloth water-based keeps the feel, the more the art covers.")
		}
	},
}
