package rules

import (
	"math"

	"strikeoff/rules/colour"
)

// Scale is which grey scale a grade stands on.
type Scale string

// The scales.
const (
	ForChange   Scale = "change"   // change in colour of the print or cloth: ISO 105-A02, by instrument A05
	ForStaining Scale = "staining" // colour that a white cloth or a light ink took on: ISO 105-A03, by instrument A04
)

// GreyGrade is a grade of a grey scale from "5", no difference, by half steps "4-5", "4" down to "1".
type GreyGrade string

// greyGrades lists the grades from best to worst.
var greyGrades = []GreyGrade{"5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1"}

// AtLeast reports whether a grade is as good as another. An unknown grade is as good as none.
func (g GreyGrade) AtLeast(least GreyGrade) bool {
	at := func(x GreyGrade) int {
		for i, k := range greyGrades {
			if k == x {
				return i
			}
		}
		return len(greyGrades)
	}
	return at(g) <= at(least) && at(g) < len(greyGrades)
}

// Graded is two colour readings put on a grey scale.
type Graded struct {
	Grade      GreyGrade `json:"grade"`
	Rating     float64   `json:"rating"`     // 1 to 5, for a finer look; the grade is what counts
	Difference float64   `json:"difference"` // the scale's own measure of difference: dE_F for change, dE_GS for staining
}

// changeEdges are the upper edges of ISO 105-A05's bands of dE_F, from grade 5 down.
var changeEdges = []float64{0.40, 1.25, 2.10, 2.95, 4.10, 5.80, 8.20, 11.60}

// stainEdges are the lower edges of ISO 105-A04's bands of its rating, from grade 5 down.
var stainEdges = []float64{4.75, 4.25, 3.75, 3.25, 2.75, 2.25, 1.75, 1.25}

// Grade puts two colour readings, as CIELAB under D65, on a grey scale: before and after the test for a change in colour, the clean and the
// stained cloth for staining. A reading that is no number grades 1.
func Grade(s Scale, before, after colour.Lab) Graded {
	if s == ForStaining {
		return gradeStaining(before, after)
	}
	return gradeChange(before, after)
}

// gradeChange follows ISO 105-A05:1996 (formula as carried by public implementations; the standard was not opened).
func gradeChange(ref, test colour.Lab) Graded {
	cr, ct := ref.Chroma(), test.Chroma()
	hr, ht := ref.Hue(), test.Hue()
	cm := (cr + ct) / 2
	hm := (hr + ht) / 2
	if math.Abs(hr-ht) > 180 {
		hm += 180
		if hm >= 360 {
			hm -= 360
		}
	}
	off := math.Abs(hm - 280)
	if off > 180 {
		off = 360 - off
	}
	x := (off / 30) * (off / 30)
	dl, dc := test.L-ref.L, ct-cr
	da, db := test.A-ref.A, test.B-ref.B
	dh := math.Sqrt(math.Max(0, da*da+db*db-dc*dc))
	if turn := ht - hr; turn < 0 && turn >= -180 || turn > 180 {
		dh = -dh
	}
	d := dc * cm * math.Exp(-x) / 100
	dcf := (dc - d) / (1 + sq(20*cm/1000))
	dhf := (dh - d) / (1 + sq(10*cm/1000))
	de := math.Sqrt(dl*dl + dcf*dcf + dhf*dhf)
	rating := 5 - de/1.7
	if de > 3.4 {
		rating = 5 - math.Log2(de/0.85)
	}
	g := greyGrades[len(greyGrades)-1]
	for i, edge := range changeEdges {
		if de < edge {
			g = greyGrades[i]
			break
		}
	}
	if math.IsNaN(de) {
		rating = 1
	}
	return Graded{Grade: g, Rating: math.Min(5, math.Max(1, rating)), Difference: de}
}

// gradeStaining follows ISO 105-A04:1989 (formula as carried by public implementations; the standard was not opened).
func gradeStaining(white, stained colour.Lab) Graded {
	de := colour.DeltaE76(white, stained)
	dl := stained.L - white.L
	gs := de - 0.4*math.Sqrt(math.Max(0, de*de-dl*dl))
	rating := 5.0
	if gs > 0 {
		rating = 6.1 - 1.45*math.Log(gs)
		if rating > 4 {
			rating = 5 - 0.23*gs
		}
	}
	if math.IsNaN(gs) {
		rating = 1
	}
	rating = math.Min(5, math.Max(1, rating))
	g := greyGrades[len(greyGrades)-1]
	for i, edge := range stainEdges {
		if math.Round(rating*100)/100 >= edge {
			g = greyGrades[i]
			break
		}
	}
	return Graded{Grade: g, Rating: rating, Difference: gs}
}

func sq(v float64) float64 { return v * v }
