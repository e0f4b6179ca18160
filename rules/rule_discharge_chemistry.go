package rules

import "strikeoff/rules/source"

var dischargeChemistry = &rule{
	id: "discharge-chemistry", basis: source.FormaldehydeAir,
	about: "Discharge agents release formaldehyde: ventilate, glove, wash before wear; mixed ink lasts hours.",
	after: func(b *bench) {
		if b.pick != Discharge {
			return
		}
		b.caution("discharge-fumes", Care, "Discharge ink releases formaldehyde and sulphur fumes as it cures. Ventilate, wear gloves, and measure the air: US limits (OSHA) are 0.75 ppm over 8 hours and 2 ppm over 15 minutes. Defer to local code.")
		b.caution("discharge-wash", Care, "Wash discharge goods once before they are worn. Mix only what is used within a few hours: the agent dies in the bucket.")
	},
}
