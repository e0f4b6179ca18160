package rules

import "strikeoff/rules/source"

var dischargeNeedsDye = &rule{
	id: "discharge-needs-dye", basis: source.CommonPractice,
	about: "There must be a dark or mid dye to take out: pointless on light goods.",
	judge: func(b *bench) {
		if !b.palest.known {
			return
		}
		lab := b.palest.colour.Lab
		switch {
		case lab.L >= 85, lab.L >= 70 && lab.Chroma() < 30:
			b.veto(Discharge, "On "+b.palest.name+" there is no dye worth taking out; plain water-based gives the same soft print.")
		case lab.L >= 62:
			b.limit(Discharge, Test, "The cloth is fairly light: plain water-based may serve as well.")
			b.move(Discharge, -10, "")
		}
	},
}
