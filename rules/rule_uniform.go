package rules

import "strikeoff/rules/source"

var uniformWash = &rule{
	id: "uniform-wash", basis: source.CommonPractice,
	about: "Uniforms are washed often and hot: hard-wearing methods, and ask how.",
	judge: func(b *bench) {
		if b.use(Uniform) {
			b.move(Plastisol, 3, "Stands the many washes of a uniform.")
			b.move(Sublimation, 3, "Stands the many washes of a uniform.")
			b.move(DTG, -4, "Fades with the many washes of a uniform.")
		}
	},
	after: func(b *bench) {
		if b.use(Uniform) {
			b.caution("uniform", Info, "Uniforms are washed often, some by an industrial laundry at 60 °C (140 °F) and up: ask how, and wash test the same way.")
		}
	},
}
