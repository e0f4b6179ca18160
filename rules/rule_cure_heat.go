package rules

import "strikeoff/rules/source"

var cureHeat = &rule{
	id: "cure-heat", basis: source.CommonPractice,
	about: "Plastisol cures at about 160 °C (320 °F) through the film, low-cure at 130 to 138; water-based and discharge want about 160 °C (320 °F) held in moving air.",
	judge: func(b *bench) {
		p := b.choice(Plastisol)
		top := b.cloth.ceiling()
		switch {
		case has(p.Setup.Additives, LowCure) || top < 150:
			b.heat(Plastisol, 130, 138, 60, 90, "Low-cure ink: 130 to 138 °C (266 to 280 °F) through the film.")
			if b.cloth.known && top < 150 {
				b.add(Plastisol, LowCure, "")
			}
		case top < 160:
			b.heat(Plastisol, 150, 155, 60, 90, "Keep to the low end of a full cure on this cloth.")
		default:
			b.heat(Plastisol, 155, 163, 60, 90, "A full cure: about 160 °C (320 °F) through the film.")
		}
		if top < 150 && b.cloth.known {
			b.heat(WaterBased, 135, 145, 120, 180, "Cooler and longer on this cloth, or with a fixing agent.")
			b.heat(Discharge, 145, 155, 90, 120, "As hot as this cloth bears: the agent needs heat and moving air.")
			return
		}
		b.heat(WaterBased, 155, 163, 60, 120, "About 160 °C (320 °F) held in moving air, so that the water leaves first.")
		b.heat(Discharge, 155, 163, 60, 120, "About 160 °C (320 °F) held in moving air: the agent works as it dries.")
	},
}
