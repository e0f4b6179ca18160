package rules

import "strikeoff/rules/source"

var dtgHeat = &rule{
	id: "dtg-heat", basis: source.CommonPractice,
	about: "Direct-to-garment ink cures at about 160 °C (320 °F) under a press or in a dryer; blends take it cooler and longer.",
	judge: func(b *bench) {
		if b.choice(DTG).Verdict == No {
			return
		}
		if b.cloth.Polyester > 0.08 || b.cloth.Elastane >= 0.03 {
			b.heat(DTG, 140, 150, 90, 180, "Cooler and longer for the polyester's sake.")
			return
		}
		b.heat(DTG, 155, 165, 90, 180, "About 160 °C (320 °F); the ink's data sheet gives the time.")
	},
}
