package rules

import "strikeoff/rules/source"

var quantityUnsaid = &rule{
	id: "quantity-unsaid", basis: source.CommonPractice,
	about: "The number of pieces decides between screens and digital print: ask.",
	after: func(b *bench) {
		if b.pieces == 0 {
			b.ask(75, "quantity", "How many pieces? Screens pay on a run, digital print on a few.")
			b.assume("quantity", "48", "No quantity was said: weighed as for 48 pieces.")
		}
	},
}
