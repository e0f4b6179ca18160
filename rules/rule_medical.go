package rules

import "strikeoff/rules/source"

var medicalGoods = &rule{
	id: "medical-goods", basis: source.CommonPractice,
	about: "Clinic wear is laundered hot and disinfected: the print must stand it and must not shed.",
	judge: func(b *bench) {
		if b.use(Medical) {
			b.move(DTG, -6, "Fades in hot hospital laundry.")
		}
	},
	after: func(b *bench) {
		if b.use(Medical) {
			b.caution("medical", Care, "Medical wear: it is laundered hot (60 °C, 140 °F and up) with disinfectant or bleach, often by industrial laundry, or sterilised by steam. Ask how it is washed, wash test at that heat, and follow the clinic's hygiene and infection rules.")
			b.ask(30, "uses", "How are the garments laundered: at what temperature, with bleach, by an industrial laundry?")
		}
	},
}
