package colour

import "math"

// Linear is linear-light sRGB: red, green and blue as reflected shares of light, 0 to 1.
type Linear [3]float64

// white is the D65 white point for the 2 degree observer, from x 0.3127, y 0.3290 (IEC 61966-2-1, CSS Color 4).
var white = [3]float64{0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290}

// toXYZ is linear sRGB to XYZ in the exact fractions of CSS Color Module Level 4.
var toXYZ = [3][3]float64{
	{506752.0 / 1228815, 87881.0 / 245763, 12673.0 / 70218},
	{87098.0 / 409605, 175762.0 / 245763, 12673.0 / 175545},
	{7918.0 / 409605, 87881.0 / 737289, 1001167.0 / 1053270},
}

// Lab converts to CIELAB. Agrees with published conversions to 1e-4.
func (c Linear) Lab() Lab {
	var f [3]float64
	for i, row := range toXYZ {
		f[i] = labF((row[0]*c[0] + row[1]*c[1] + row[2]*c[2]) / white[i])
	}
	return Lab{L: 116*f[1] - 16, A: 500 * (f[0] - f[1]), B: 200 * (f[1] - f[2])}
}

// Luminance is the share of light reflected as the eye weighs it (Y of XYZ), 0 to 1.
func (c Linear) Luminance() float64 {
	return toXYZ[1][0]*c[0] + toXYZ[1][1]*c[1] + toXYZ[1][2]*c[2]
}

// labF is the CIELAB compression with the CIE's exact constants, epsilon 216/24389 and kappa 24389/27.
func labF(t float64) float64 {
	if t > 216.0/24389 {
		return math.Cbrt(t)
	}
	return (24389.0/27*t + 16) / 116
}

// Hex reads "#rrggbb" or "rrggbb" as sRGB (IEC 61966-2-1) and reports whether it is one.
func Hex(s string) (Linear, bool) {
	if len(s) == 7 && s[0] == '#' {
		s = s[1:]
	}
	if len(s) != 6 {
		return Linear{}, false
	}
	var c Linear
	for i := range c {
		hi, lo := nibble(s[2*i]), nibble(s[2*i+1])
		if hi < 0 || lo < 0 {
			return Linear{}, false
		}
		c[i] = decode(float64(hi*16+lo) / 255)
	}
	return c, true
}

func nibble(b byte) int {
	switch {
	case b >= '0' && b <= '9':
		return int(b - '0')
	case b >= 'a' && b <= 'f':
		return int(b-'a') + 10
	case b >= 'A' && b <= 'F':
		return int(b-'A') + 10
	}
	return -1
}

// decode takes the sRGB curve off a channel of 0 to 1.
func decode(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}
