package rules

import (
	"math"
	"testing"
)

// TestMeshGeometry checks the table's own rows by the wire-cloth identity, so that what the deposits below are held to is sound: opening
// is pitch less thread, open area its square share, ink volume open area times fabric thickness. Spec sheets stray by 2 um.
func TestMeshGeometry(t *testing.T) {
	n := 0
	for _, r := range table(t, "mesh.csv") {
		if r[0] != "geom" {
			continue
		}
		n++
		count, d := figure(t, r[1]), figure(t, r[3])
		pitch := 10000 / count
		open := math.Pow((pitch-d)/pitch, 2)
		if w := figure(t, r[4]); !near(w, pitch-d, 0.1) {
			t.Errorf("%v: opening %.1f", r, pitch-d)
		}
		if !near(100*open, figure(t, r[5]), 0.1) {
			t.Errorf("%v: open area %.1f %%", r, 100*open)
		}
		if vth := open * figure(t, r[6]); !near(vth, figure(t, r[7]), 0.6) {
			t.Errorf("%v: ink volume %.1f", r, vth)
		}
	}
	if n < 10 {
		t.Errorf("%d rows checked", n)
	}
}

// TestWetDeposit holds the deposit to the table's estimates within a quarter, over the meshes that are used on garments.
func TestWetDeposit(t *testing.T) {
	n := 0
	for _, r := range table(t, "mesh.csv") {
		if r[0] != "geom" || r[8] == "" {
			continue
		}
		count, want := int(figure(t, r[1])), figure(t, r[8])
		if count < 32 || count > 120 {
			continue
		}
		n++
		if got := wetMicron(count); got < want*0.75 || got > want*1.25 {
			t.Errorf("%d per cm: %v um, the table has %v", count, got, want)
		}
	}
	if n < 10 {
		t.Errorf("%d rows checked", n)
	}
	last := math.Inf(1)
	for c := 5; c < 200; c++ {
		if w := wetMicron(c); w > last {
			t.Errorf("a finer mesh of %d per cm lays more ink", c)
		} else {
			last = w
		}
	}
}

// Ink in grams: 28 um wet over 0.1 m2 half covered is 1.4 cm3 (1 um over 1 m2 is 1 cm3).
func TestInkGrams(t *testing.T) {
	o := tee("cotton 100", "white", "black", sized(250, 400), covering(50))
	s := choiceOf(Decide(o, Shop{}, Record{}), Plastisol).Setup.Screen
	if want := wetMicron((43+68)/2) * 0.1 * 0.5 * 1.25; s == nil || !near(s.InkGrams, want, 0.01) {
		t.Errorf("set-up %+v, want %v g of ink", s, want)
	}
}
