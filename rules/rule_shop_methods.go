package rules

import "strikeoff/rules/source"

var shopMethods = &rule{
	id: "shop-methods", basis: source.CommonPractice,
	about: "What the shop does not print cannot be picked.",
	judge: func(b *bench) {
		if len(b.shop.Methods) == 0 {
			return
		}
		for _, m := range Methods {
			if !has(b.shop.Methods, m) {
				b.veto(m, "This shop does not print it.")
			}
		}
	},
}
