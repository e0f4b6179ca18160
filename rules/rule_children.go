package rules

import "strikeoff/rules/source"

var childrensGoods = &rule{
	id: "childrens-goods", basis: source.ChildrenLead,
	about: "Goods for children of 12 and under have limits on lead and phthalates in ink, and need testing and a certificate in the US.",
	after: func(b *bench) {
		if !b.use(Children) && !b.use(Infant) {
			return
		}
		b.caution("children", Care, "Children's goods (12 and under): use inks certified for them. US limits (CPSIA): lead 90 ppm in a coating, 100 ppm in the material; phthalates 0.1 % each in sleepwear and child care articles; third-party testing and a certificate. Defer to local code and an accredited laboratory.")
	},
}
