package rules

import "strikeoff/rules/source"

var fabricUnsaid = &rule{
	id: "fabric-unsaid", basis: source.CommonPractice,
	about: "Without the fabric no method is sure: ask, and be no surer than a test.",
	judge: func(b *bench) {
		if b.cloth.assumed {
			b.assume("fibres", fibreWords(b.cloth), "The percents were not said: taken as the usual "+className(b.cloth.class)+", "+fibreWords(b.cloth)+".")
		}
		if b.cloth.known {
			return
		}
		for _, m := range Methods {
			b.limit(m, Test, "The fabric is not known.")
		}
		b.limit(DTG, Expert, "Direct-to-garment hangs on the fabric.")
		b.limit(Discharge, Expert, "Discharge hangs on the fabric.")
		b.limit(Sublimation, Expert, "Sublimation hangs on the fabric: it needs polyester.")
		b.move(Sublimation, -20, "")
		if b.choice(Plastisol).Setup.Base != NoBase && !b.worst.undyed() {
			b.base(Plastisol, LowBleedWhite, "The fabric may be polyester: a low-bleed white, to be safe.")
		}
		b.move(DTF, 8, "A printed film works on most cloth.")
		b.held = true
	},
	after: func(b *bench) {
		if !b.cloth.known {
			b.ask(100, "fibres", fabricQuestion(b.line))
		}
	},
}
