package rules

import (
	"math"

	"strikeoff/rules/colour"
)

// migration is what the dye of one line's cloth would do to the ink of one print. Its figure is the colour change that the dye would
// make in the ink, in CIEDE2000 units, graded by the steps of the grey scale for staining.
//
//	change = show x polyester share x mobility of the dye x sqrt(dose) x what the base lets through
//
// show is the change in the ink that the dye of an all-polyester cloth makes at a cure of 160 C for 60 s, by Kubelka-Munk mixing; the
// dose is time by Arrhenius rate relative to that cure; uptake goes with the root of it, as diffusion from a film does in its early
// stage. The share of dye that moves (dyeMoved) is set so that white on navy polyester comes out at what the trade sees, plainly bad:
// a calibration from memory, not a measurement. Trust the grade, not the digit.
type migration struct {
	known   bool
	worst   bool    // the ground is unknown: the worst common one was taken
	plain   float64 // colour change with plain ink at the pick's usual heat
	advised float64 // colour change with the advised setup
}

// Anchors of the model.
const (
	gasConstant = 8.314 // J/(mol K)
	refTempC    = 160.0
	refSeconds  = 60.0
	// usualActivation is in kJ/mol: within the range of disperse dyes in polyester near cure heat, from memory with low confidence.
	usualActivation = 120.0
	dyeMoved        = 0.005
)

// Dose is time at a temperature as a multiple of 60 s at 160 C for dye that diffuses with the given activation energy in kJ/mol
// (Arrhenius). Below about 80 C, the softening point of polyester, it overstates what moves.
func Dose(tempC, seconds, activation float64) float64 {
	return seconds / refSeconds * math.Exp(activation*1000/gasConstant*(1/(refTempC+273.15)-1/(tempC+273.15)))
}

// mobility is how readily the dye of a ground leaves the fibre, against navy: the trade's list of bad colours, ordered from memory.
// It looks at hue and saturation at one depth alone, so that depth is counted once, in show.
func mobility(g ground) float64 {
	lab := atDepth(g.colour.Linear, 0.6).Lab()
	h, c := lab.Hue(), lab.Chroma()
	m := 0.5 // turquoise, teal
	switch {
	case h < 72 || h > 345: // reds, maroon, burgundy, orange, brown
		m = 1.3
	case h < 125: // yellows, gold, lime: bright but steady dyes
		m = 0.3
	case h < 185: // kelly and other greens
		m = 0.85
	case h >= 255 && h < 300: // royal, navy
		m = 0.85
	case h >= 300: // purple, magenta
		m = 0.8
	}
	neutral := math.Max(0, 1-c/12)
	return m*(1-neutral) + 0.95*neutral // black, charcoal, greys
}

// bleeding is the share of the cloth whose dye can bleed: polyester's disperse dye in full; the dyes of nylon and acrylic hold better.
func (c cloth) bleeding() float64 { return min(1, c.Polyester+0.15*c.Nylon+0.08*c.Acrylic) }

// through is the share of the moving dye that a base lets into the colours. From memory of how the trade ranks them.
func through(b Base) float64 {
	switch b {
	case WhiteBase, PretreatWhite:
		return 0.7
	case WaterBasedBlocker:
		return 0.35
	case LowBleedWhite:
		return 0.3
	case BlockOut:
		return 0.2
	case GreyBlocker:
		return 0.1
	}
	return 1
}

// show is the largest colour change that a ground's dye makes in the print's inks, CIEDE2000 units, all polyester at the reference cure:
// the stain of the ground's hue at one middling depth, times how deep the shade is. Hue and depth are kept apart because colour difference
// alone would let a near-black maroon pass for milder than a red. Patterned and sublimated cloth has loose dye and counts as worse than
// the worst plain ground.
func (b *bench) show(g ground) float64 {
	if g.pattern || g.sublimated {
		return 1.2 * b.show(worstGround)
	}
	most, hue := 0.0, atDepth(g.colour.Linear, 0.06)
	share := dyeMoved * mobility(g)
	seen := func(i colour.Linear) {
		most = max(most, colour.DeltaE(colour.Stained(i, hue, 0).Lab(), colour.Stained(i, hue, share).Lab()))
	}
	for _, i := range b.inks {
		if i.known {
			seen(i.colour.Linear)
		}
	}
	if b.print.FullColour || !b.inksKnown() {
		// The palest part of the art decides, and on a coloured ground that is white.
		if !g.light() || b.print.FullColour && !g.undyed() {
			seen(whiteInk.Linear)
		} else {
			seen(midInk.Linear)
		}
	}
	if b.needsCover() {
		// A white base lies under the colours: what it takes on shows at edges and through thin ink, a third of it.
		top := most
		most = 0
		seen(whiteInk.Linear)
		most = max(top, most*0.35)
	}
	return most * depth(g.colour.Linear)
}

// atDepth is a colour's hue with its lightest channel at top.
func atDepth(c colour.Linear, top float64) colour.Linear {
	most := max(c[0], c[1], c[2])
	for i := range c {
		c[i] = top * (c[i] + 1e-4) / (most + 1e-4)
	}
	return c
}

// depth is how deep a shade is, 0 for white to near 1 for black: its Kubelka-Munk absorption, levelled off, since past a certain depth
// more dye in the cloth is no more dye at its surface. The level is set from memory so that a charcoal stands at four fifths.
func depth(c colour.Linear) float64 {
	ks := 0.0
	for _, v := range c {
		ks += colour.KS(min(0.95, max(0.02, v))) / 3
	}
	return ks / (ks + 2)
}

var (
	whiteInk = must("white")
	midInk   = must("grey")
)

// must is a colour word that the lists hold for certain: a test looks them up.
func must(word string) colour.Named {
	n, _ := colour.Lookup(word)
	return n
}

// stain is the colour change for a ground without regard to heat or base.
func (b *bench) stain() (float64, bool) {
	if len(b.grounds) == 0 || !b.worst.known {
		return b.show(worstGround), false
	}
	most, all := 0.0, true
	for _, g := range b.grounds {
		if !g.known {
			all = false
			continue
		}
		most = max(most, b.show(g))
	}
	return most, all
}

// worstGround stands in for a colour that was not said.
var worstGround = groundOf("red")

// assess fills in the plain figure at a heat.
func (b *bench) assess() {
	if !b.cloth.known {
		b.migrates = migration{known: b.groundKnown() && b.worst.undyed()}
		return
	}
	s, sure := b.stain()
	b.migrates = migration{known: true, worst: !sure, plain: s * b.cloth.bleeding()}
}

// grade of a colour change, at midpoints of the grey scale for staining: better than 4-5 is none, 4-5 low, 4 and 3-4 medium, worse high.
func grade(change float64) Risk {
	switch {
	case change < noneEdge:
		return RiskNone
	case change < lowEdge:
		return RiskLow
	case change < mediumEdge:
		return RiskMedium
	}
	return RiskHigh
}

// The edges between the risks, as colour change: halfway between the steps 0, 2.2, 4.3, 6.0 and 8.5 of ISO 105-A03 at which the staining
// grade falls to 4-5, to 4 and to 3. The steps are in CIELAB units; CIEDE2000 reads a little smaller on strong colours.
const (
	noneEdge   = 1.1
	lowEdge    = 3.25
	mediumEdge = 7.25
)

// root keeps a dose of nothing at nothing.
func root(v float64) float64 { return math.Sqrt(math.Max(0, v)) }
