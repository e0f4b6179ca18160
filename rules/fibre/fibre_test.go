package fibre

import (
	"testing"

	"pgregory.net/rapid"
)

// TestClassOf walks the limits of the classes in the order contract.
func TestClassOf(t *testing.T) {
	for _, c := range []struct {
		b    Blend
		want Class
	}{
		{nil, ""}, {Blend{}, ""}, {Blend{Cotton: 0}, ""},
		{Blend{Cotton: 100}, AllCotton}, {Blend{Cotton: 95, Elastane: 5}, AllCotton}, {Blend{Cotton: 92, Elastane: 8}, Other},
		{Blend{Cotton: 90, Polyester: 10}, CVC}, {Blend{Cotton: 51, Polyester: 49}, CVC}, {Blend{Cotton: 50, Polyester: 50}, FiftyFifty},
		{Blend{Polyester: 51, Cotton: 49}, PolyCotton}, {Blend{Polyester: 94, Cotton: 6}, PolyCotton}, {Blend{Polyester: 95, Cotton: 5}, AllPolyester},
		{Blend{Polyester: 80, Elastane: 20}, AllPolyester}, {Blend{Polyester: 50, Cotton: 25, Viscose: 25}, TriBlend},
		{Blend{Polyester: 65, Viscose: 35}, PolyViscose}, {Blend{Nylon: 100}, AllNylon}, {Blend{Nylon: 80, Elastane: 20}, Other},
		{Blend{Acrylic: 100}, AllAcrylic}, {Blend{Wool: 95, Nylon: 5}, AllWool}, {Blend{Linen: 100}, AllLinen}, {Blend{Hemp: 55, Cotton: 45}, Other},
		{Blend{Cotton: 60, Polyester: 60}, FiftyFifty}, // percents that do not total 100 are taken as shares
	} {
		if got := ClassOf(c.b); got != c.want {
			t.Errorf("ClassOf(%v) = %q, want %q", c.b, got, c.want)
		}
	}
}

// The blend that is meant by a class is of that class.
func TestTypical(t *testing.T) {
	n := 0
	for _, c := range []Class{AllCotton, CVC, FiftyFifty, PolyCotton, TriBlend, PolyViscose, AllPolyester, AllNylon, AllAcrylic, AllWool, AllLinen} {
		if b := Typical(c); ClassOf(b) != c || b.Total() != 100 {
			t.Errorf("Typical(%s) = %v, of class %q", c, b, ClassOf(b))
		}
		n++
	}
	if Typical(Other) != nil || Typical("") != nil || n == 0 {
		t.Error("a class that says too little has a typical blend")
	}
}

func TestSharesOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Blend{}
		for _, f := range All {
			if rapid.Bool().Draw(t, string(f)) {
				b[f] = rapid.Float64Range(0, 200).Draw(t, "percent")
			}
		}
		s := SharesOf(b)
		sum := s.Cellulose() + s.Polyester + s.Nylon + s.Acrylic + s.Wool + s.Elastane
		if s.Known() && (sum < 0.999999 || sum > 1.000001) {
			t.Fatalf("shares of %v add up to %v", b, sum)
		}
		if s.Known() != (b.Total() > 0) {
			t.Fatalf("known %v for %v", s.Known(), b)
		}
	})
	if s := SharesOf(Blend{Cotton: -5, Polyester: 50}); s.Cotton != 0 || s.Polyester != 1 {
		t.Errorf("a percent below nothing counts: %+v", s)
	}
}
