package colour

import "testing"

// TestLab holds sRGB to CIELAB to values that two public colour libraries agree on to 1e-13 (testdata/srgb-lab.csv), to 1e-4.
func TestLab(t *testing.T) {
	for _, r := range table(t, "testdata/srgb-lab.csv") {
		c, ok := Hex(r[0])
		if !ok {
			t.Fatalf("%s is no hex", r[0])
		}
		got := c.Lab()
		if !near(got.L, f(t, r[1]), 1e-4) || !near(got.A, f(t, r[2]), 1e-4) || !near(got.B, f(t, r[3]), 1e-4) {
			t.Errorf("%s: %+v, want %v", r[0], got, r[1:])
		}
	}
}

func TestHexRefuses(t *testing.T) {
	for _, s := range []string{"", "#", "fff", "#fff", "gggggg", "#12345", "1234567", "##12345"} {
		if c, ok := Hex(s); ok {
			t.Errorf("Hex(%q) = %v", s, c)
		}
	}
}
