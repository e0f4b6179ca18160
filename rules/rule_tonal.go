package rules

import "strikeoff/rules/source"

var tonalPrint = &rule{
	id: "ink-is-the-cloths-colour", basis: source.CIEDE2000,
	about: "An ink of the cloth's own colour cannot be seen, save as a tonal print: ask.",
	after: func(b *bench) {
		if i, g, ok := b.invisible(); ok && !b.effects() {
			b.caution("tonal", Care, "The "+i.name+" ink is the garment's own colour: on "+g.name+" it will hardly show, for want of contrast.")
			b.ask(60, "inks", "Is "+i.name+" on "+g.name+" meant, as a tonal print, or should the ink be another colour?")
		}
	},
}
