package rules

import "strikeoff/rules/source"

var flameResistant = &rule{
	id: "flame-resistant", basis: source.FlameResistant,
	about: "Printing on flame-resistant or arc-rated goods can void their protection: stop, and ask the maker and the safety officer.",
	judge: func(b *bench) {
		if !b.use(FlameResistant) {
			return
		}
		b.stop("flame-resistant", "Flame-resistant goods: any ink, film or dye can melt, burn or void the garment's certificate. Do not print before the garment's maker and the wearer's safety officer agree in writing. NFPA 2112 and ASTM F1506 advise at most five emblems that are not flame-resistant, each up to 103 cm² (16 in²), 258 cm² (40 in²) together.")
		if a, ok := b.area(); ok {
			verb := " is within"
			if a*1e4 > 103 {
				verb = " is over"
			}
			b.caution("flame-resistant-area", Care, "The "+placeWord(b.print.Place)+" print of "+num(round(a*1e4, 0))+" cm²"+verb+" the 103 cm² advised for one emblem on flame-resistant goods.")
		}
	},
}
