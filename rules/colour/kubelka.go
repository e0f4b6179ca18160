package colour

import "math"

// KS is the Kubelka-Munk ratio of absorption to scattering of an opaque layer that reflects r, a share of 0 to 1 (Kubelka & Munk 1931).
// It has no surface term: below r of about 0.05 on cloth it reads too strong.
func KS(r float64) float64 {
	r = math.Min(1, math.Max(1e-4, r))
	return (1 - r) * (1 - r) / (2 * r)
}

// Reflectance is the share of light that an opaque layer of ratio ks reflects: the inverse of KS.
func Reflectance(ks float64) float64 {
	if ks <= 0 {
		return 1
	}
	return 1 + ks - math.Sqrt(ks*ks+2*ks)
}

// TintDensity is the density of a halftone that covers the share a of the ground in an ink of solid density ds (Murray 1936). Densities
// count from the unprinted ground.
func TintDensity(a, ds float64) float64 { return -math.Log10(1 - a*(1-math.Pow(10, -ds))) }

// TintArea is the share covered that a tint of density dt shows, in an ink of solid density ds, on a ground that scatters light sideways
// by n (Yule & Nielsen 1951): 1 none, which is Murray-Davies, 2 full.
func TintArea(dt, ds, n float64) float64 {
	return (1 - math.Pow(10, -dt/n)) / (1 - math.Pow(10, -ds/n))
}

// Stained is the colour of a film of ink that took up the share q of the ground's absorption: dye that moved from cloth into ink.
func Stained(ink, ground Linear, q float64) Linear {
	var out Linear
	for i := range out {
		out[i] = Reflectance(KS(bounded(ink[i])) + q*KS(bounded(ground[i])))
	}
	return out
}

// bounded keeps a reflectance within what cloth and ink show: black cloth still reflects about 2 %, white about 95 %.
func bounded(r float64) float64 { return math.Min(0.95, math.Max(0.02, r)) }
