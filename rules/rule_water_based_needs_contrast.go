package rules

import "strikeoff/rules/source"

var waterBasedNeedsContrast = &rule{
	id: "water-based-needs-contrast", basis: source.CommonPractice,
	about: "Water-based ink is transparent: light cloth, or an ink darker than the cloth; else a water-based blocker under it.",
	judge: func(b *bench) {
		if !b.worst.known || !b.needsCover() {
			return
		}
		b.base(WaterBased, WaterBasedBlocker, "")
		if b.cloth.known && b.cloth.soft() {
			b.limit(WaterBased, Test, "A light ink does not show on "+b.worst.name+" by itself: print it on a water-based blocker base, the soft answer on this cloth.")
			b.move(WaterBased, -8, "")
			return
		}
		b.limit(WaterBased, Expert, "A water-based ink lets "+b.worst.name+" show through: it is not opaque. It needs a water-based base under it, or discharge instead.")
		b.move(WaterBased, -14, "")
	},
}
