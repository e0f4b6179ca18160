package rules

import "strikeoff/rules/source"

var dischargeDyeAnswers = &rule{
	id: "discharge-dye-answers", basis: source.DischargeDyes,
	about: "Every dye answers the discharge agent differently: every garment colour is tested, and bright blues, greens and purples are weak.",
	judge: func(b *bench) {
		b.limit(Discharge, Test, "Every dye answers the agent differently: test this very garment colour before the run.")
		for _, g := range b.grounds {
			if f := dischargeability(g); g.known && f < 0.6 {
				b.limit(Discharge, Expert, "Dyes of "+g.name+" are often hard to discharge: expect a tint to stay.")
				b.move(Discharge, -30*(0.8-f), "")
				return
			}
		}
	},
}

// dischargeability is the share of a ground's dye that a discharge agent usually takes out, 0 to 1: bright blues and turquoises stand on
// chemistry that resists, azo reds, navies and blacks go well. The figures are from memory.
func dischargeability(g ground) float64 {
	if !g.known {
		return 0.7
	}
	h, c := g.colour.Lab.Hue(), g.colour.Lab.Chroma()
	f := 0.85
	switch {
	case c < 20:
		f = 0.92
	case h >= 175 && h < 255: // turquoise, teal, aqua
		f = 0.3
	case h >= 255 && h < 300: // royal, bright blues
		f = 0.45
	case h >= 300 && h < 345: // purples, magenta
		f = 0.5
	case h >= 130 && h < 175: // kelly and bright greens
		f = 0.5
	case h < 50 || h >= 345: // reds
		f = 0.75
	}
	if g.overdyed {
		f *= 0.7
	}
	return f
}
