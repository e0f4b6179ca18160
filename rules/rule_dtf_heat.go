package rules

import "strikeoff/rules/source"

var dtfHeat = &rule{
	id: "film-heat", basis: source.CommonPractice,
	about: "Printed film is pressed at about 130 to 160 °C (266 to 320 °F) for 10 to 15 s, the cooler the less heat the cloth bears.",
	judge: func(b *bench) {
		c := b.cloth
		switch {
		case !c.known:
			b.heat(DTF, 130, 140, 10, 12, "Cool until the fabric is known.")
		case c.Acrylic > 0.15:
			b.heat(DTF, 125, 135, 8, 10, "Acrylic: cool and short.")
		case c.Nylon > 0.15:
			b.heat(DTF, 125, 138, 10, 12, "Nylon: cool, with an adhesive made for it.")
		case c.Wool > 0.15, c.soft():
			b.heat(DTF, 130, 140, 8, 12, "Cool and short on this cloth.")
			b.limit(DTF, Test, "This cloth marks under a press: test.")
		case c.Polyester >= 0.45, c.Elastane >= 0.03:
			b.heat(DTF, 130, 145, 10, 12, "Cool, so that the cloth does not shine and its dye stays put.")
		default:
			b.heat(DTF, 145, 160, 10, 15, "About 150 °C (302 °F) for 10 to 15 s.")
		}
	},
}
