package bot

import (
	"testing"

	"strikeoff/rules"
)

// A note's grade is read where it is one, and held against what the step asks for.
func TestGraded(t *testing.T) {
	four := rules.Check{Code: "wash", Scale: rules.ForStaining, Least: "4"}
	for _, c := range []struct {
		note     string
		pass, ok bool
	}{
		{"4", true, true}, {"4-5", true, true}, {"5", true, true}, {"3-4", false, true}, {"3", false, true}, {"3/4", false, true}, {"4/5", true, true},
		{"3.5", false, true}, {"4.5", true, true}, {"3½", false, true}, {"grade 3", false, true}, {"Grade 4 by eye", true, true}, {"3, a little pink", false, true},
		{"3 cycles", false, false}, {"5 times at 40", false, false}, {"30 wash", false, false}, {"", false, false}, {"fine", false, false}, {"6", false, false},
		{"0", false, false}, {"grade", false, false}, {"95 0 0 / 94.5 0.4 0.2", true, true}, {"95 0 0 / 88 9 2", false, true},
	} {
		if words, pass, ok := graded(four, c.note); pass != c.pass || ok != c.ok {
			t.Errorf("graded(%q) = %q, %v, %v; want %v, %v", c.note, words, pass, ok, c.pass, c.ok)
		}
	}
	if _, _, ok := graded(rules.Check{Code: "cure"}, "3"); ok {
		t.Error("a step without a grade was graded")
	}
}
