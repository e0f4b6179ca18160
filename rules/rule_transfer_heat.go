package rules

import "strikeoff/rules/source"

var transferHeat = &rule{
	id: "transfer-heat", basis: source.CommonPractice,
	about: "Transfers: cotton about 160 °C (320 °F) for 15 s; tri-blend and poly-viscose about 138 °C (280 °F) for 8 to 10 s; synthetics cool.",
	judge: func(b *bench) {
		c := b.cloth
		switch {
		case !c.known:
			b.heat(HeatTransfer, 130, 140, 8, 12, "Cool and short until the fabric is known.")
		case c.Acrylic > 0.15:
			b.heat(HeatTransfer, 120, 132, 8, 10, "Acrylic: cool and short.")
		case c.Nylon > 0.15:
			b.heat(HeatTransfer, 120, 138, 8, 12, "Nylon: cool and short, with a transfer made for it.")
		case c.Wool > 0.15:
			b.heat(HeatTransfer, 125, 138, 8, 12, "Wool: cool and short.")
		case c.soft():
			b.heat(HeatTransfer, 135, 140, 8, 10, "About 138 °C (280 °F) for 8 to 10 s: this knit scorches and marks.")
			b.limit(HeatTransfer, Test, "This knit marks under a press: test.")
		case c.Polyester >= 0.9 || c.Elastane >= 0.03:
			b.heat(HeatTransfer, 130, 145, 8, 12, "Cool and short, so that the cloth does not shine and its dye stays put.")
		case c.Polyester >= 0.45:
			b.heat(HeatTransfer, 138, 149, 10, 12, "Cooler than cotton for the polyester's sake.")
		case c.Polyester >= 0.08:
			b.heat(HeatTransfer, 145, 155, 10, 15, "A little cooler than plain cotton.")
		default:
			b.heat(HeatTransfer, 155, 165, 12, 15, "Cotton: about 160 °C (320 °F) for 15 s.")
		}
	},
}
