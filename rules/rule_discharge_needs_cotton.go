package rules

import "strikeoff/rules/source"

var dischargeNeedsCotton = &rule{
	id: "discharge-needs-cotton", basis: source.CommonPractice,
	about: "Discharge strips the dye of cotton; what is not cotton keeps its colour.",
	judge: func(b *bench) {
		if !b.cloth.known {
			return
		}
		c := b.cloth
		switch {
		case c.Polyester >= 0.9:
			b.veto(Discharge, "Discharge does not touch polyester dye.")
		case c.Regenerate > 0.1 && c.Cotton+c.Bast < 0.15 && c.Polyester > 0.2:
			b.veto(Discharge, "No discharge on polyester and viscose: the polyester keeps its dye and the print stays dull.")
		case c.Nylon > 0.1, c.Acrylic > 0.1, c.Wool > 0.1:
			b.veto(Discharge, "Discharge is for cotton; this fibre keeps its dye, or suffers.")
		case c.Cellulose() < 0.45:
			b.veto(Discharge, "Too little cotton: discharge would leave most of the colour in the cloth.")
		case c.soft():
			b.limit(Discharge, Test, "Discharge comes out muted: the polyester in the blend keeps its dye.")
			b.move(Discharge, -16, "")
		case c.Polyester >= 0.45:
			b.limit(Discharge, Expert, "Discharge strips only the cotton half: lighter but muted.")
			b.move(Discharge, -6, "")
		case c.Polyester > 0.05:
			b.limit(Discharge, Test, "Discharge strips only the cotton: lighter but less bright.")
			b.move(Discharge, -4, "")
		}
	},
}
