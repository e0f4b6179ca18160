package colour

import "math"

// DeltaE is the CIEDE2000 colour difference with kL = kC = kH = 1 (ISO/CIE 11664-6; Sharma, Wu & Dalal 2005): 1 is about the least that
// a trained eye sees side by side, 5 is plain to anybody.
func DeltaE(p, q Lab) float64 {
	const deg = math.Pi / 180
	mean7 := math.Pow((p.Chroma()+q.Chroma())/2, 7)
	g := 0.5 * (1 - math.Sqrt(mean7/(mean7+pow25)))
	a1, a2 := p.A*(1+g), q.A*(1+g)
	c1, c2 := math.Hypot(a1, p.B), math.Hypot(a2, q.B)
	h1, h2 := Lab{A: a1, B: p.B}.Hue(), Lab{A: a2, B: q.B}.Hue()

	dL, dC := q.L-p.L, c2-c1
	// Hues that are 180 degrees apart but for rounding count as exactly that: else which side they fall on hangs on the order of the sums.
	const slack = 1e-9
	dh, hm := 0.0, h1+h2
	if c1*c2 != 0 {
		dh = h2 - h1
		switch {
		case dh > 180+slack:
			dh -= 360
		case dh < -180-slack:
			dh += 360
		}
		switch {
		case math.Abs(h1-h2) <= 180+slack:
			hm = (h1 + h2) / 2
		case h1+h2 < 360:
			hm = (h1 + h2 + 360) / 2
		default:
			hm = (h1 + h2 - 360) / 2
		}
	}
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*deg)

	lm, cm := (p.L+q.L)/2, (c1+c2)/2
	t := 1 - 0.17*math.Cos((hm-30)*deg) + 0.24*math.Cos(2*hm*deg) + 0.32*math.Cos((3*hm+6)*deg) - 0.20*math.Cos((4*hm-63)*deg)
	l50 := (lm - 50) * (lm - 50)
	sL := 1 + 0.015*l50/math.Sqrt(20+l50)
	sC := 1 + 0.045*cm
	sH := 1 + 0.015*cm*t
	cm7 := math.Pow(cm, 7)
	turn := (hm - 275) / 25
	rT := -math.Sin(60*math.Exp(-turn*turn)*deg) * 2 * math.Sqrt(cm7/(cm7+pow25))
	l, c, h := dL/sL, dC/sC, dH/sH
	return math.Sqrt(l*l + c*c + h*h + rT*c*h)
}

const pow25 = 25.0 * 25 * 25 * 25 * 25 * 25 * 25
