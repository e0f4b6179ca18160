package colour

import "math"

// Lab is a colour in CIELAB under D65 and the 2 degree observer: L from 0 (black) to 100 (white), A green to red, B blue to yellow.
type Lab struct {
	L float64 `json:"l"`
	A float64 `json:"a"`
	B float64 `json:"b"`
}

// Chroma is the distance from the grey axis, 0 and up; a strong textile red is near 60.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue is the hue angle in degrees, 0 to 360: 0 red-purple, 90 yellow, 180 green, 270 blue. A grey has hue 0.
func (c Lab) Hue() float64 {
	if c.A == 0 && c.B == 0 {
		return 0
	}
	h := math.Atan2(c.B, c.A) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}

// DeltaE76 is the plain distance in CIELAB (CIE 1976), the measure of the textile grey scales.
func DeltaE76(p, q Lab) float64 {
	dl, da, db := p.L-q.L, p.A-q.A, p.B-q.B
	return math.Sqrt(dl*dl + da*da + db*db)
}
