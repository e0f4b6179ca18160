package rules

import "strikeoff/rules/source"

var overdyedGround = &rule{
	id: "overdyed-cloth", basis: source.CommonPractice,
	about: "Pigment-dyed and overdyed goods discharge unevenly or not at all: only after a test.",
	judge: func(b *bench) {
		for _, g := range b.grounds {
			if g.overdyed {
				b.limit(Discharge, Expert, "Pigment-dyed and overdyed cloth discharges unevenly or not at all.")
				b.move(Discharge, -12, "")
				b.limit(DTG, Test, "Dye left loose by garment dyeing can come up through the white: test.")
				return
			}
		}
	},
}
