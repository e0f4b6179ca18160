package rules

import "strikeoff/rules/source"

var otherCellulose = &rule{
	id: "other-cellulose", basis: source.CommonPractice,
	about: "Linen, hemp, viscose, modal, lyocell and bamboo print much as cotton does, but differ enough to be tested.",
	judge: func(b *bench) {
		c := b.cloth
		if !c.known || c.soft() || c.Bast+c.Regenerate < 0.3 {
			return
		}
		text := "Prints much as cotton does, but the yarn is uneven: test the cover."
		if c.Regenerate > c.Bast {
			text = "Prints much as cotton does, but is weak when wet and scorches sooner: test."
		}
		for _, m := range []Method{Plastisol, WaterBased, DTF, HeatTransfer} {
			b.limit(m, Test, text)
		}
		if c.Regenerate > c.Bast {
			b.add(Plastisol, Softener, "Keep the print as soft as the cloth.")
		}
	},
}
