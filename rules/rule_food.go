package rules

import "strikeoff/rules/source"

var foodGoods = &rule{
	id: "food-goods", basis: source.CommonPractice,
	about: "Kitchen and food wear: nothing that flakes into food, hot washes, heat near stoves.",
	after: func(b *bench) {
		if b.use(Food) {
			b.caution("food", Care, "Food and kitchen wear: the print must not flake or shed into food, stands hot washes (60 °C, 140 °F) and grease, and must not melt near a stove. No glitter or foil. Follow the kitchen's hygiene rules and local food safety code.")
		}
	},
}
