package rules

import "strikeoff/rules/source"

var sleepwearBurns = &rule{
	id: "sleepwear-burns", basis: source.Sleepwear,
	about: "Children's sleepwear must pass a burning test, prints included: a person must settle it.",
	judge: func(b *bench) {
		if !b.use(Sleepwear) {
			return
		}
		text := "Sleepwear and flammability: "
		if b.use(Children) || b.use(Infant) {
			b.stop("sleepwear", text+"US rules for children's sleepwear (sizes to 14) allow a mean char of 17.8 cm (7.0 in) and no specimen of 25.4 cm (10 in), print included; tight-fitting and infant sizes have rules of their own. A print can change how it burns. Settle it with the garment's maker and an accredited laboratory before printing. Defer to local code.")
			return
		}
		b.caution("sleepwear", Care, text+"a print can change how nightwear burns. Check the rule where it is sold, and defer to local code.")
	},
}
