package rules

import "strikeoff/rules/source"

var inkUnsaid = &rule{
	id: "ink-unsaid", basis: source.CommonPractice,
	about: "Where no ink colour is named the setup is made for the usual: light ink on dark cloth, dark ink on light.",
	judge: func(b *bench) {
		if b.print.FullColour || b.inksKnown() {
			return
		}
		if b.worst.known && !b.worst.light() {
			b.limit(WaterBased, Test, "Whether the ink shows hangs on its colour, which is not known.")
		}
		b.limit(Sublimation, Test, "White cannot be dyed in, and the print colours are not known.")
	},
	after: func(b *bench) {
		if b.print.FullColour || b.inksKnown() {
			return
		}
		switch {
		case len(b.inks) == 0 && b.inkN == 0:
			b.ask(80, "inks", "What will be printed: how many ink colours and which, or a photograph?")
			b.assume("inks", "", "No print colours were said: set up for light ink on dark cloth, dark ink on light.")
		case len(b.inks) < b.inkN:
			b.ask(50, "inks", "Which ink colours? A swatch reference, or a plain word such as white or navy.")
			b.assume("inks", "", "Not every print colour was said: set up for light ink on dark cloth, dark ink on light.")
		default:
			for _, i := range b.inks {
				if !i.known {
					b.assume("inks", i.name, "How light "+quoted(i.name)+" is cannot be told from its name: set up as for a light ink on dark cloth.")
				}
			}
		}
	},
}
