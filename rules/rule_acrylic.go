package rules

import "strikeoff/rules/source"

var acrylicGentle = &rule{
	id: "acrylic-gentle-heat", basis: source.CommonPractice,
	about: "Acrylic goes shiny and shrinks with heat: low-cure ink and a short, cool press, tested.",
	judge: func(b *bench) {
		if !b.cloth.known || b.cloth.Acrylic < 0.15 {
			return
		}
		b.add(Plastisol, LowCure, "Acrylic is heat-sensitive: low-cure ink only.")
		v := Test
		if b.cloth.Acrylic > 0.5 {
			v = Expert
		}
		b.limit(Plastisol, v, "Acrylic scorches and shrinks in a dryer: try it on a spare first.")
		b.move(HeatTransfer, 8, "A cool transfer is the gentlest way to print acrylic.")
		b.limit(HeatTransfer, Test, "A cool transfer and a short press; look for shine.")
		b.limit(DTF, Test, "A cool film and a short press; look for shine.")
	},
	after: func(b *bench) {
		if b.cloth.known && b.cloth.Acrylic >= 0.15 {
			b.caution("acrylic", Care, "Acrylic is heat-sensitive: it scorches, shines and shrinks. Keep press and dryer low and test on a spare piece.")
			b.check(adhesionCheck)
		}
	},
}
