package rules

import (
	"strconv"
	"strings"

	"strikeoff/rules/colour"
)

// Readings finds two colour readings in what a lead wrote: six numbers, L a b before and L a b after, as in "40 0 0 / 41.7 0.2 -0.1". It
// reports false where there are not just six, or an L is outside 0 to 100.
func Readings(note string) (before, after colour.Lab, ok bool) {
	fields := strings.FieldsFunc(note, func(r rune) bool { return strings.ContainsRune(" \t\n/,;:|=()", r) })
	var v []float64
	for _, f := range fields {
		f = strings.TrimLeft(f, "LlAaBb*")
		if f == "" || strings.EqualFold(f, "to") || f == "->" {
			continue
		}
		x, err := strconv.ParseFloat(f, 64)
		if err != nil || !(x >= -200 && x <= 200) {
			return before, after, false
		}
		v = append(v, x)
	}
	if len(v) != 6 || v[0] < 0 || v[0] > 100 || v[3] < 0 || v[3] > 100 {
		return before, after, false
	}
	return colour.Lab{L: v[0], A: v[1], B: v[2]}, colour.Lab{L: v[3], A: v[4], B: v[5]}, true
}

// Judge grades the two colour readings of a note against what the check asks for. It reports false where the check asks for no grade or the
// note holds no readings: then a lead's own word stands.
func (c Check) Judge(note string) (g Graded, pass, ok bool) {
	if c.Least == "" {
		return g, false, false
	}
	before, after, ok := Readings(note)
	if !ok {
		return g, false, false
	}
	g = Grade(c.Scale, before, after)
	return g, g.Grade.AtLeast(c.Least), true
}
