package colour

import "testing"

// Ensure each list is there whole. The counts are those of the lists' own headers: 148 CSS names; the survey's 954 less 50 flagged.
func TestListsAreWhole(t *testing.T) {
	count := func(s string) (n int) {
		for _, r := range table(t, s) {
			if _, ok := Hex(r[1]); !ok {
				t.Errorf("%s: %v is no colour", s, r)
			}
			n++
		}
		return n
	}
	if n := count("names/css.csv"); n != 148 {
		t.Errorf("%d CSS names", n)
	}
	if n := count("names/survey.csv"); n != 904 {
		t.Errorf("%d survey names", n)
	}
	if n := count("names/trade.csv"); n < 140 {
		t.Errorf("%d trade names", n)
	}
}

// TestLookup pins how words are understood: what list knows them, and about how light they are.
func TestLookup(t *testing.T) {
	for _, c := range []struct {
		word   string
		list   string
		lo, hi float64 // of L
	}{
		{"white", "trade", 95, 100}, {"black", "trade", 3, 15}, {"navy", "trade", 5, 20}, {"royal", "trade", 25, 45}, {"red", "trade", 35, 50},
		{"maroon", "trade", 12, 30}, {"kelly green", "trade", 40, 60}, {"athletic", "trade", 70, 82}, {"Light Gray", "trade", 75, 85},
		{"hi-vis yellow", "trade", 85, 97}, {"thistle", "css", 75, 90}, {"cornflower blue", "survey", 45, 70}, {"medium sea green", "css", 55, 75}, {"burnt sienna", "survey", 35, 55},
		{"deep teal", "survey", 25, 45}, {"pale coral", "derived", 70, 90}, {"navy marl", "derived", 5, 20}, {"#1b2338", "derived", 5, 20},
	} {
		n, ok := Lookup(c.word)
		if !ok || n.List != c.list || n.Lab.L < c.lo || n.Lab.L > c.hi {
			t.Errorf("Lookup(%q) = %+v, %v; want list %s and L of %v to %v", c.word, n, ok, c.list, c.lo, c.hi)
		}
	}
	for _, w := range []string{"", "zorble", "pms 186", "   ", "-", "the same as last time"} {
		if n, ok := Lookup(w); ok {
			t.Errorf("Lookup(%q) = %+v", w, n)
		}
	}
}

func FuzzLookup(f *testing.F) {
	for _, s := range []string{"navy", "light  blue", "\x00", "pms 186", "grey grey grey grey", "é", "#12345g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if n, ok := Lookup(s); ok && (n.Lab.L < -0.01 || n.Lab.L > 100.01) {
			t.Errorf("Lookup(%q) = %+v", s, n)
		}
	})
}
