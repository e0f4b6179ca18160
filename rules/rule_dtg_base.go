package rules

import "strikeoff/rules/source"

var dtgBase = &rule{
	id: "dtg-base", basis: source.CommonPractice,
	about: "Direct-to-garment on darks needs pretreatment and a white base; lights need no base.",
	judge: func(b *bench) {
		switch {
		case !b.worst.known:
			b.base(DTG, PretreatWhite, "Set up for a dark garment: pretreatment and a white base.")
		case !b.worst.light() || b.needsCover():
			b.base(DTG, PretreatWhite, "A "+b.worst.name+" garment needs pretreatment and a white base.")
			b.move(DTG, -2, "")
		case b.cloth.Polyester > 0.08:
			b.base(DTG, Pretreat, "Light cloth needs no white base, but a pretreatment helps the ink hold.")
		}
	},
}
