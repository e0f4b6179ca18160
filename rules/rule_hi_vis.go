package rules

import "strikeoff/rules/source"

var hiVis = &rule{
	id: "hi-vis", basis: source.HiVis,
	about: "A print on high-visibility goods covers background or bands; what is left must still meet the class.",
	judge: func(b *bench) {
		if !b.use(HiVis) {
			return
		}
		b.stop("hi-vis", "High-visibility goods: a print covers fluorescent background or reflective tape, and may drop the garment out of its class. EN ISO 20471 and ANSI/ISEA 107 ask for background of 0.14 m² (217 in²) in class 1, 0.50 m² (775 in²) in class 2, 0.80 m² (1240 in²) in class 3. Ask the garment's maker how much can be covered, never print on the tape, and defer to local code.")
		if a, ok := b.area(); ok {
			covers := a * b.coverage()
			n := a
			b.caution("hi-vis-area", Care, "The "+placeWord(b.print.Place)+" print takes "+num(round(n, 3))+" m² of background, about "+num(round(covers, 3))+" m² of it under ink. Class 2 must keep 0.50 m² clear: the garment needs at least "+num(round(0.50+n, 3))+" m² before printing, class 3 "+num(round(0.80+n, 3))+" m².")
		}
	},
}
