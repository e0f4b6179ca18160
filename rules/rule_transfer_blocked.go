package rules

import "strikeoff/rules/source"

var transferBlocked = &rule{
	id: "transfer-blocks-dye", basis: source.CommonPractice,
	about: "On dyed polyester a transfer must be of a kind that resists migration.",
	judge: func(b *bench) {
		if g := grade(b.migrates.plain); !b.migrates.known || g == RiskNone || g == RiskLow && b.cloth.Polyester < 0.45 {
			return
		}
		b.base(HeatTransfer, BlockOut, "Take a transfer with a barrier layer: the garment's dye would come through a plain one.")
		b.base(DTF, BlockOut, "Take a film with a blocking adhesive: the garment's dye would come through a plain one.")
		b.limit(HeatTransfer, Test, "Test for dye coming through.")
		b.limit(DTF, Test, "Test for dye coming through.")
	},
}
