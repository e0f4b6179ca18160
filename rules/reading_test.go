package rules

import "testing"

func TestJudge(t *testing.T) {
	wash := Check{Code: "wash", Scale: ForChange, Least: "4"}
	for _, c := range []struct {
		note     string
		grade    GreyGrade
		pass, ok bool
	}{
		{"40 0 0 / 41.7 0 0", "4", true, true}, // the step for grade 4 of ISO 105-A02
		{"L40 a0 b0, L42.5 a0 b0", "3-4", false, true},
		{"(42, 60, 30) to (44, 52, 27)", "3", false, true}, // a worked pair: a red that fades
		{"fine after five washes", "", false, false},
		{"40 0 0", "", false, false},
		{"140 0 0 / 41 0 0", "", false, false},
		{"", "", false, false},
		{"NaN 0 0 1 1 1", "", false, false},
	} {
		g, pass, ok := wash.Judge(c.note)
		if g.Grade != c.grade || pass != c.pass || ok != c.ok {
			t.Errorf("Judge(%q) = %+v, %v, %v; want %q, %v, %v", c.note, g, pass, ok, c.grade, c.pass, c.ok)
		}
	}
	if _, _, ok := firstPieceCheck.Judge("40 0 0 / 41.7 0 0"); ok {
		t.Error("a step without a grade judged readings")
	}
}
