package colour

import "testing"

// TestDeltaE holds the formula to the 34 pairs of Sharma, Wu & Dalal (2005), table 1, in both orders, to 0.0001. Pairs 9 to 16 sit on the
// step of the hue difference at 180 degrees.
func TestDeltaE(t *testing.T) {
	rows := table(t, "testdata/ciede2000.csv")
	if len(rows) != 34 {
		t.Fatalf("%d pairs, want 34", len(rows))
	}
	for _, r := range rows {
		p, q := Lab{f(t, r[1]), f(t, r[2]), f(t, r[3])}, Lab{f(t, r[4]), f(t, r[5]), f(t, r[6])}
		want := f(t, r[7])
		if got := DeltaE(p, q); !near(got, want, 1e-4) {
			t.Errorf("pair %s: %.4f, want %.4f", r[0], got, want)
		}
		if got := DeltaE(q, p); !near(got, want, 1e-4) {
			t.Errorf("pair %s turned round: %.4f, want %.4f", r[0], got, want)
		}
	}
	if got := DeltaE(Lab{50, 2.5, 0}, Lab{73, 25, -18}); near(got, 0, 1) {
		t.Error("the comparison would let nothing at all pass for a difference")
	}
}

func BenchmarkDeltaE(b *testing.B) {
	p, q := Lab{60.2574, -34.0099, 36.2677}, Lab{60.4626, -34.1751, 39.4387}
	for b.Loop() {
		DeltaE(p, q)
	}
}
