package rules

import "strikeoff/rules/source"

var onPress = &rule{
	id: "on-press", basis: source.Mesh,
	about: "Mesh, strokes, flashes, screens, press heads and ink for a screen print.",
	judge: func(b *bench) {
		for _, m := range []Method{Plastisol, WaterBased, Discharge} {
			if c := b.choice(m); c.Verdict != No {
				b.fire()
				s := b.screenSetup(m)
				c.Setup.Screen = &s
			}
		}
	},
	after: func(b *bench) {
		s := b.choice(b.pick).Setup.Screen
		if b.pick == "" || s == nil || s.Heads <= b.shop.heads() {
			return
		}
		b.caution("press-heads", Care, "The "+placeWord(b.print.Place)+" print takes "+itoa(s.Heads)+" press heads, flashes included, and the press has "+itoa(b.shop.heads())+": fewer colours, a second pass, or another method.")
	},
}
