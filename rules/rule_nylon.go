package rules

import "strikeoff/rules/source"

var nylonBonds = &rule{
	id: "nylon-needs-bonding", basis: source.CommonPractice,
	about: "Nylon needs a bonding agent or nylon ink, low heat, and a look at its water-repellent finish and lining.",
	judge: func(b *bench) {
		if !b.cloth.known || b.cloth.Nylon < 0.15 {
			return
		}
		b.add(Plastisol, Bonding, "Nylon: use nylon ink or a bonding agent, or the print peels.")
		b.add(Plastisol, LowCure, "")
		b.limit(Plastisol, Test, "Adhesion on nylon must be proven on this very garment.")
		b.limit(HeatTransfer, Test, "Take a transfer made for nylon and test that it holds.")
		b.limit(DTF, Test, "Take an adhesive made for nylon and test that it holds.")
	},
	after: func(b *bench) {
		if !b.cloth.known || b.cloth.Nylon < 0.15 {
			return
		}
		b.caution("nylon", Care, "Nylon: ink needs a bonding agent or nylon ink, and low heat. A water-repellent coating stops adhesion and a lining can pucker or shift: look at both before printing.")
		b.check(adhesionCheck)
	},
}
