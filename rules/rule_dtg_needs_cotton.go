package rules

import "strikeoff/rules/source"

var dtgNeedsCotton = &rule{
	id: "dtg-needs-cotton", basis: source.CommonPractice,
	about: "Direct-to-garment is at its best on smooth combed ring-spun cotton; its ink comes off synthetic yarn.",
	judge: func(b *bench) {
		if !b.cloth.known {
			return
		}
		c := b.cloth
		switch {
		case c.Nylon > 0.15, c.Acrylic > 0.15:
			b.veto(DTG, "Direct-to-garment ink does not hold on this synthetic cloth.")
		case c.Polyester >= 0.9:
			b.veto(DTG, "Direct-to-garment is not recommended on polyester: the ink comes off in the wash.")
		case c.Wool > 0.15:
			b.veto(DTG, "Direct-to-garment ink does not bond to wool, and the cure is too hot for it.")
		case c.soft() || c.Polyester > 0.55:
			b.limit(DTG, Expert, "Direct-to-garment here is for experts: the ink comes off synthetic yarn. Wash and scratch test.")
			b.move(DTG, -10, "")
		case c.Polyester > 0.08:
			b.limit(DTG, Test, "Possible after trials of pretreatment and ink: ink comes off synthetic yarn. Wash and scratch test.")
			b.move(DTG, -12*c.Polyester, "")
		case c.Bast > 0.2, c.Regenerate > 0.3:
			b.limit(DTG, Test, "Not the smooth cotton that direct-to-garment likes best: test it.")
		case c.fleece || c.pile:
		default:
			b.move(DTG, 5, "Smooth cotton takes direct-to-garment ink best.")
		}
	},
}
