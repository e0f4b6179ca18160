package colour

import (
	"testing"

	"pgregory.net/rapid"
)

// TestEquations holds the three print and dye equations to values worked from their published forms (testdata/kubelka-munk.csv).
func TestEquations(t *testing.T) {
	kinds := map[string]int{}
	for _, r := range table(t, "testdata/kubelka-munk.csv") {
		want := f(t, r[4])
		var got float64
		switch r[0] {
		case "KS":
			got = KS(f(t, r[1]))
		case "KSinv":
			got = Reflectance(f(t, r[1]))
		case "MD":
			got = TintDensity(f(t, r[1]), f(t, r[2]))
			if back := TintArea(got, f(t, r[2]), 1); !near(back, f(t, r[1]), 1e-9) {
				t.Errorf("%v: back to an area of %v", r, back)
			}
		case "YN":
			got = TintArea(f(t, r[1]), f(t, r[2]), f(t, r[3]))
		default:
			t.Fatalf("unknown kind %q", r[0])
		}
		kinds[r[0]]++
		if !near(got, want, 1e-6) {
			t.Errorf("%v: %.7f", r, got)
		}
	}
	if len(kinds) != 4 {
		t.Errorf("kinds checked: %v, want four", kinds)
	}
}

// More stain never makes a channel lighter, and no stain leaves the ink as it was within what cloth shows.
func TestStainedDarkens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := func(name string) Linear {
			return Linear{rapid.Float64Range(0, 1).Draw(t, name), rapid.Float64Range(0, 1).Draw(t, name), rapid.Float64Range(0, 1).Draw(t, name)}
		}
		ink, ground := c("ink"), c("ground")
		q := rapid.Float64Range(0, 1).Draw(t, "q")
		less, more := Stained(ink, ground, q), Stained(ink, ground, q*1.5+0.001)
		for i := range less {
			if more[i] > less[i]+1e-12 {
				t.Fatalf("channel %d: %v after more stain, %v after less", i, more[i], less[i])
			}
		}
	})
}
