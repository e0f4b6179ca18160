package rules

import "strikeoff/rules/source"

var plastisolCover = &rule{
	id: "plastisol-cover", basis: source.CommonPractice,
	about: "On dark cloth colours need a white base under them; dark inks on light cloth need none.",
	judge: func(b *bench) {
		if !b.worst.known {
			if len(b.grounds) == 0 {
				b.base(Plastisol, WhiteBase, "Set up for a dark garment until the colour is known.")
			}
			return
		}
		if b.needsCover() {
			b.base(Plastisol, WhiteBase, "The colours need a white base to stand on "+b.worst.name+".")
		} else {
			b.base(Plastisol, NoBase, "The ink covers "+b.worst.name+" by itself: no base.")
		}
	},
}
