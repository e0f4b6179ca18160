package rules

import "math"

// vividness is how strong a method's colour is foreseen on this cloth against the same ink on its ideal fabric, 0 to 1. It is a first
// reckoning, from shares and reflectance alone:
//
//	sublimation    polyester share (to the power 0.7; viscose beside it hides little) x light that the ground gives back
//	discharge      share of cellulose that is stripped x how well the dye answers the agent
//	water-based    how much of the ink the fibre holds x the ground's lightness, or the blocker's cover where one is under it
//	direct print   how much of the ink the fibre holds x the ground's lightness, or the white base's cover
//	plastisol, films  near 1, less what the dye still moves
//
// Where the cloth or the colour is unknown the middle of what it could be is taken. Factors are from memory; trust the order.
func (b *bench) vividness(m Method) float64 {
	sh := b.cloth.Shares
	if !b.cloth.known {
		sh.Cotton, sh.Polyester = 0.5, 0.5
	}
	shine, lum := 0.5, 0.3
	if b.worst.known {
		shine = b.worst.colour.Lab.L / 100
		lum = b.worst.colour.Linear.Luminance()
	}
	hold := sh.Cotton + 0.92*sh.Regenerate + 0.9*sh.Bast + 0.45*sh.Polyester + 0.15*sh.Nylon + 0.15*sh.Acrylic + 0.35*sh.Wool + 0.3*sh.Elastane
	v := 0.0
	switch m {
	case Sublimation:
		p := math.Pow(sh.Polyester, 0.7)
		if sh.Regenerate > 0.1 && sh.Cotton < 0.05 {
			p = math.Pow(sh.Polyester, 0.35)
		}
		v = p * lum / 0.96
	case Discharge:
		stripped := sh.Cotton + 0.6*sh.Regenerate + 0.7*sh.Bast
		if sh.Cotton+sh.Bast == 0 {
			stripped = 0.25 * sh.Regenerate
		}
		v = 0.92 * stripped * dischargeability(b.worst)
	case WaterBased:
		v = hold * shine
		if b.choice(m).Setup.Base == WaterBasedBlocker {
			v = hold * max(shine, 0.6)
		}
	case DTG:
		v = 0.95 * hold * shine
		if b.choice(m).Setup.Base == PretreatWhite {
			v = 0.88 * hold
		}
	case Plastisol:
		v = 0.96 - 0.02*min(10, b.migrates.plain*through(b.choice(m).Setup.Base))
	case DTF:
		v = 0.94
	case HeatTransfer:
		v = 0.93
	}
	return round(min(1, max(0, v)), 3)
}

func round(v float64, digits int) float64 {
	f := math.Pow(10, float64(digits))
	return math.Round(v*f) / f
}
