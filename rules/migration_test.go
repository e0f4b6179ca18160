package rules

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"strikeoff/rules/fibre"
)

// TestDoseTable holds the rate law to the worked table of testdata/disperse-dyes.md: the rate relative to 160 C by temperature and
// activation energy, to the three figures printed.
func TestDoseTable(t *testing.T) {
	b, err := os.ReadFile("testdata/disperse-dyes.md")
	if err != nil {
		t.Fatal(err)
	}
	var energies []float64
	n := 0
	for line := range strings.Lines(string(b)) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 6 {
			continue
		}
		if strings.TrimSpace(cells[0]) == "C" {
			for _, c := range cells[1:] {
				v, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(c), "Ea "), 64)
				if err != nil {
					t.Fatal(err)
				}
				energies = append(energies, v)
			}
			continue
		}
		temp, err := strconv.ParseFloat(strings.TrimSpace(cells[0]), 64)
		if err != nil || len(energies) != 5 {
			continue
		}
		for i, c := range cells[1:] {
			want, err := strconv.ParseFloat(strings.TrimSpace(c), 64)
			if err != nil {
				t.Fatal(err)
			}
			n++
			if got := Dose(temp, refSeconds, energies[i]); !near(got/want, 1, 0.006) {
				t.Errorf("%v C at %v kJ/mol: %.4g, want %v", temp, energies[i], got, want)
			}
		}
	}
	if n != 55 {
		t.Errorf("%d cells checked, want 55", n)
	}
}

// The equal doses that the same text works out: at 120 kJ/mol, 160 C for 60 s equals 301 s at 140, 132 s at 150 and 14 s at 180.
func TestDoseEquals(t *testing.T) {
	for temp, seconds := range map[float64]float64{140: 301, 150: 132, 180: 13.8} {
		if got := Dose(temp, seconds, 120); !near(got, 1, 0.01) {
			t.Errorf("%v s at %v C: %.3f, want 1", seconds, temp, got)
		}
	}
	// One law through bath dyeing (130 C, 45 min) and the thermosol process (200 C, 1.5 min) gives about 77 kJ/mol.
	if bath, dry := Dose(130, 45*60, 77), Dose(200, 90, 77); !near(bath/dry, 1, 0.03) {
		t.Errorf("bath %.3f against thermosol %.3f", bath, dry)
	}
}

// stainOf is the plain migration figure of an ink on a ground in a share of polyester.
func stainOf(polyester float64, g ground, i ink) float64 {
	b := &bench{print: &Print{Inks: List[string]{i.name}}, inks: []ink{i}, shop: &Shop{}, sheet: &sheet{}}
	b.cloth = cloth{known: true, Shares: fibre.Shares{Polyester: polyester, Cotton: 1 - polyester}}
	b.setGrounds([]ground{g})
	b.assess()
	return b.migrates.plain
}

// The order of colours that the trade holds (common practice): reds and maroon before royal and navy, those before black, and light
// grounds least.
func TestMigrationOrder(t *testing.T) {
	white := inkOf("white")
	last := math.Inf(1)
	for _, colours := range [][]string{{"camo"}, {"red", "maroon", "burgundy"}, {"navy", "royal"}, {"charcoal"}, {"light grey"}, {"white"}} {
		lo, hi := math.Inf(1), 0.0
		for _, c := range colours {
			v := stainOf(1, groundOf(c), white)
			lo, hi = min(lo, v), max(hi, v)
		}
		if hi >= last {
			t.Errorf("%v reach %.1f, the worse ones before them start at %.1f", colours, hi, last)
		}
		last = lo
	}
	if v := stainOf(1, groundOf("red"), inkOf("black")); grade(v) != RiskNone {
		t.Errorf("red dye shows %.1f in black ink", v)
	}
	if v := stainOf(0, groundOf("red"), white); v != 0 {
		t.Errorf("cotton bleeds %.1f", v)
	}
}

// Monotone in every argument: more polyester, a deeper shade of the same hue, a hotter or longer cure, a weaker base never bleed less.
func TestMigrationMonotone(t *testing.T) {
	words := []string{"red", "maroon", "navy", "royal", "black", "kelly", "orange", "purple", "brown", "grey", "light blue", "yellow", "pink"}
	inks := []string{"white", "yellow", "cream", "silver", "light blue", "black", "red"}
	rapid.Check(t, func(t *rapid.T) {
		g, i := groundOf(rapid.SampledFrom(words).Draw(t, "ground")), inkOf(rapid.SampledFrom(inks).Draw(t, "ink"))
		p, q := rapid.Float64Range(0, 1).Draw(t, "p"), rapid.Float64Range(0, 1).Draw(t, "q")
		if lo, hi := stainOf(min(p, q), g, i), stainOf(max(p, q), g, i); lo > hi {
			t.Fatalf("more polyester: %v then %v", lo, hi)
		}
		temp, s := rapid.Float64Range(80, 210).Draw(t, "C"), rapid.Float64Range(1, 300).Draw(t, "s")
		ea := rapid.Float64Range(60, 250).Draw(t, "Ea")
		if Dose(temp, s, ea) > Dose(temp+1, s, ea) || Dose(temp, s, ea) > Dose(temp, s+1, ea) {
			t.Fatal("more heat or time gave a smaller dose")
		}
		// Deeper: the same hue, absorbing more.
		deep := g
		f := rapid.Float64Range(0.3, 1).Draw(t, "deeper")
		for k := range deep.colour.Linear {
			deep.colour.Linear[k] *= f
		}
		if white := inkOf("white"); stainOf(1, g, white) > stainOf(1, deep, white)+0.6 {
			t.Fatalf("a deeper %s bleeds %v, less than %v", g.name, stainOf(1, deep, white), stainOf(1, g, white))
		}
	})
	last := math.Inf(1)
	for _, b := range []Base{NoBase, WhiteBase, LowBleedWhite, GreyBlocker} {
		if v := through(b); v >= last {
			t.Errorf("%s lets through %v, no less than the weaker one", b, v)
		} else {
			last = v
		}
	}
}
