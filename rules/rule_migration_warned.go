package rules

import "strikeoff/rules/source"

var migrationWarned = &rule{
	id: "migration-warned", basis: source.DisperseDyes,
	about: "Where the dye can move, say so, and how it shows.",
	after: func(b *bench) {
		if !b.migrates.known || b.pick == Discharge && b.cloth.Polyester < 0.3 {
			return
		}
		r := grade(b.migrates.plain)
		if r != RiskMedium && r != RiskHigh {
			return
		}
		name := lineWord(b.line, b.cloth)
		if b.migrates.worst {
			b.caution("migration", Care, "Dye migration on the "+name+": it can bleed badly if the colour is a red, maroon, royal or navy. Tell us the colour.")
			return
		}
		b.caution("migration", Care, "Dye migration: the dye of the "+name+" can bleed into light inks, "+string(r)+" risk with plain ink. It shows after 24 to 72 hours and in hot storage. Keep heat and dwell low and let the goods cool before they are stacked.")
	},
}
