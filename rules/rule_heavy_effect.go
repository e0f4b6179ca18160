package rules

import "strikeoff/rules/source"

var heavyEffectOnThin = &rule{
	id: "heavy-effect-thin-cloth", basis: source.CommonPractice,
	about: "Puff, high density and gel are heavy deposits: on thin, drapy, stretching or heat-shy cloth only after a test, if at all.",
	judge: func(b *bench) {
		if b.heavyEffect() == "" || !b.thin() {
			return
		}
		b.limit(Plastisol, Expert, "A heavy deposit on thin cloth: it puckers and cracks unless done with care.")
		b.limit(HeatTransfer, Test, "A heavy transfer on thin cloth: test the feel and the stretch.")
	},
	after: func(b *bench) {
		if e := b.heavyEffect(); e != "" && b.thin() {
			text := "This cloth is thin for " + string(e) + ": a heavy deposit makes it stiff and may pucker. Keep the shape small and open."
			if b.cloth.Polyester > 0.1 {
				text += " The extra heat that it takes also feeds dye migration."
			}
			b.caution("heavy-deposit", Care, text)
		}
	},
}

func (b *bench) heavyEffect() Effect {
	for _, e := range b.print.Effects {
		if e == Puff || e == HighDensity || e == Gel {
			return e
		}
	}
	return ""
}

// thin reports whether the cloth is drapy, stretching or heat-shy.
func (b *bench) thin() bool {
	return b.cloth.known && !b.cloth.fleece && (b.cloth.soft() || b.cloth.Polyester >= 0.9 || b.cloth.stretchy() || b.cloth.Nylon > 0.15)
}
