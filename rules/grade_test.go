package rules

import (
	"testing"

	"strikeoff/rules/colour"
)

// TestGradeWorkedPairs holds both grades to worked pairs (testdata/grey-scale.csv, tables W05 and W04): every step of ISO 105-A02 fed to
// A05 and of A03 fed to A04, and coloured pairs worked by a second program. Rating to 0.002, difference to 0.0005.
func TestGradeWorkedPairs(t *testing.T) {
	n := map[string]int{}
	for _, r := range table(t, "grey-scale.csv") {
		scale := ForChange
		switch r[0] {
		case "W05":
		case "W04":
			scale = ForStaining
		default:
			continue
		}
		n[r[0]]++
		p := colour.Lab{L: figure(t, r[6]), A: figure(t, r[7]), B: figure(t, r[8])}
		q := colour.Lab{L: figure(t, r[9]), A: figure(t, r[10]), B: figure(t, r[11])}
		got := Grade(scale, p, q)
		if string(got.Grade) != r[1] || !near(got.Rating, figure(t, r[2]), 0.002) || !near(got.Difference, figure(t, r[13]), 0.0005) {
			t.Errorf("%s (%s): %+v, want grade %s, rating %s, difference %s", r[0], r[14], got, r[1], r[2], r[13])
		}
		if de := colour.DeltaE76(p, q); !near(de, figure(t, r[12]), 0.0005) {
			t.Errorf("%s (%s): plain difference %.4f, want %s", r[0], r[14], de, r[12])
		}
	}
	if n["W05"] < 15 || n["W04"] < 10 {
		t.Errorf("pairs checked: %v", n)
	}
}

// TestGradeBands holds the band edges in the code to the printed tables.
func TestGradeBands(t *testing.T) {
	n := 0
	for _, r := range table(t, "grey-scale.csv") {
		at := -1
		for i, g := range greyGrades {
			if string(g) == r[1] {
				at = i
			}
		}
		switch {
		case r[0] == "A05" && r[5] != "":
			n++
			if !near(changeEdges[at], figure(t, r[5]), 1e-9) {
				t.Errorf("A05 grade %s: edge %v, want %s", r[1], changeEdges[at], r[5])
			}
		case r[0] == "A04" && r[4] != "":
			n++
			if !near(stainEdges[at], figure(t, r[4]), 1e-9) {
				t.Errorf("A04 grade %s: edge %v, want %s", r[1], stainEdges[at], r[4])
			}
		}
	}
	if n != 16 {
		t.Errorf("%d edges checked, want 16", n)
	}
}

// TestRiskEdges holds the edges between migration risks to midpoints of the steps of ISO 105-A03.
func TestRiskEdges(t *testing.T) {
	step := map[string]float64{}
	for _, r := range table(t, "grey-scale.csv") {
		if r[0] == "A03" {
			step[r[1]] = figure(t, r[2])
		}
	}
	for _, c := range []struct {
		name     string
		got      float64
		from, to string
	}{{"none", noneEdge, "5", "4-5"}, {"low", lowEdge, "4-5", "4"}, {"medium", mediumEdge, "3-4", "3"}} {
		if want := (step[c.from] + step[c.to]) / 2; step[c.to] == 0 || !near(c.got, want, 1e-9) {
			t.Errorf("%s ends at %v, want %v", c.name, c.got, want)
		}
	}
}

func TestGreyGradeAtLeast(t *testing.T) {
	for _, c := range []struct {
		got, least GreyGrade
		want       bool
	}{{"5", "4", true}, {"4", "4", true}, {"3-4", "4", false}, {"4-5", "4", true}, {"1", "1-2", false}, {"", "4", false}, {"6", "4", false}} {
		if got := c.got.AtLeast(c.least); got != c.want {
			t.Errorf("%q at least %q: %v", c.got, c.least, got)
		}
	}
}
