package rules

import "strikeoff/rules/source"

var europeanLimits = &rule{
	id: "european-limits", basis: source.Reach,
	about: "The EU limits formaldehyde and some dyes in what people wear; it matters most for children and for discharge.",
	after: func(b *bench) {
		if b.use(Children) || b.use(Infant) || b.pick == Discharge {
			b.caution("europe", Info, "In the EU (REACH) consumer clothing may hold at most 75 mg/kg of formaldehyde and 30 mg/kg of listed amines from azo dyes.")
		}
	},
}
