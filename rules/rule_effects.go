package rules

import "strikeoff/rules/source"

var effectsNeedScreens = &rule{
	id: "effects-need-screens", basis: source.CommonPractice,
	about: "Puff, foil, glitter and the other special finishes are screen printed or pressed on; digital and dye methods cannot lay them.",
	judge: func(b *bench) {
		if !b.effects() {
			return
		}
		name := string(b.print.Effects[0])
		b.veto(DTG, "Direct-to-garment lays colour only: it cannot do "+name+".")
		b.veto(DTF, "A printed film lays colour only: it cannot do "+name+".")
		b.veto(Sublimation, "Sublimation only dyes: it cannot do "+name+".")
		b.veto(Discharge, "Discharge only takes dye out: it cannot do "+name+".")
		water := Expert
		for _, e := range b.print.Effects {
			switch e {
			case HighDensity, Gel, Flock, Reflective, Glow, Glitter:
				water = No
			}
		}
		if water == No {
			b.veto(WaterBased, "Water-based ink is too thin a film for "+name+".")
		} else {
			b.limit(WaterBased, water, "A water-based "+name+" exists but takes practice.")
			b.move(WaterBased, -15, "")
		}
		switch {
		case b.effect(Flock):
			b.limit(Plastisol, Expert, "Flock by screen needs adhesive and flocking gear.")
			b.move(HeatTransfer, 25, "A transfer is the usual way to do flock.")
		case b.effect(Reflective), b.effect(Foil):
			b.limit(Plastisol, Test, "A special ink or adhesive: test that it holds.")
			b.move(HeatTransfer, 10, "A transfer does "+name+" well.")
		default:
			b.limit(Plastisol, Test, "A special ink: test height, cover and cure.")
			b.move(HeatTransfer, 6, "A transfer can carry "+name+".")
		}
		if b.effect(Glitter) || b.effect(Shimmer) || b.effect(Metallic) || b.effect(Glow) {
			b.move(Plastisol, 2, "")
		}
		b.limit(HeatTransfer, Test, "A special transfer: test that it holds.")
	},
	after: func(b *bench) {
		if b.effects() {
			b.check(effectCheck)
		}
	},
}
