package rules

import (
	"os"
	"strings"
	"testing"
)

// TestSafetyFigures holds the figures that cautions print to the text they come from (testdata/safety-limits.md): each stands in both.
func TestSafetyFigures(t *testing.T) {
	b, err := os.ReadFile("testdata/safety-limits.md")
	if err != nil {
		t.Fatal(err)
	}
	reference := strings.Join(strings.Fields(string(b)), " ")
	safe := func(o Order) string {
		var out []string
		for _, c := range Decide(o, Shop{}, Record{}).Cautions {
			out = append(out, c.Text, c.Basis)
		}
		return strings.Join(out, "\n")
	}
	for _, c := range []struct {
		name    string
		o       Order
		figures [][2]string // as the reference writes it, as the caution writes it
	}{
		{"discharge", tee("cotton 100", "black", "white", asking(Discharge)), [][2]string{{"0.75 ppm 8 h", "0.75 ppm over 8 hours"}, {"2 ppm 15 min", "2 ppm over 15 minutes"}, {"29 CFR 1910.1048", "29 CFR 1910.1048"}}},
		{"children", tee("cotton 100", "white", "red", for_(Children)), [][2]string{{"= 90 ppm", "lead 90 ppm in a coating"}, {"100 ppm in each accessible part", "100 ppm in the material"},
			{"12 years or younger", "12 and under"}, {"Phthalates: over 0.1 %", "phthalates 0.1 %"}, {"16 CFR 1303", "16 CFR 1303"}, {"Formaldehyde 75 mg/kg", "75 mg/kg of formaldehyde"}, {"listed amines: 30 mg/kg", "30 mg/kg of listed amines"}}},
		{"infants", tee("cotton 100", "white", "red", for_(Infant)), [][2]string{{"quoted as 16 ppm in trade", "about 16 ppm"}, {"infants up to 24 months", "up to 24 months"}}},
		{"sleepwear", tee("cotton 100", "white", "red", for_(Children, Sleepwear)), [][2]string{{"17.8 cm (7.0 in)", "17.8 cm (7.0 in)"}, {"25.4 cm (10 in)", "25.4 cm (10 in)"}, {"16 CFR", "16 CFR 1615 and 1616"}}},
		{"high visibility", tee("polyester 100", "hi-vis yellow", "black", for_(HiVis), sized(300, 300)), [][2]string{{"class 1 0.14", "0.14 m² (217 in²) in class 1"}, {"class 2 0.50", "0.50 m² (775 in²) in class 2"},
			{"class 3 0.80", "0.80 m² (1240 in²) in class 3"}, {"775 in2 = 0.500 m2, 1240 in2 = 0.800 m2, 217 in2 = 0.140 m2", "775 in²"}, {"EN ISO 20471", "EN ISO 20471"}}},
		{"flame resistant", tee("cotton 100", "navy", "white", for_(FlameResistant)), [][2]string{{"16 in2 (103 cm2)", "103 cm² (16 in²)"}, {"40 in2 (258 cm2)", "258 cm² (40 in²)"}, {"at most five non-FR emblems", "at most five emblems"}}},
	} {
		text := safe(c.o)
		if text == "" {
			t.Errorf("%s: no caution at all", c.name)
		}
		for _, f := range c.figures {
			if !strings.Contains(reference, f[0]) {
				t.Errorf("%s: the reference does not say %q", c.name, f[0])
			}
			if !strings.Contains(text, f[1]) {
				t.Errorf("%s: no caution says %q", c.name, f[1])
			}
		}
	}
	if strings.Contains(safe(tee("cotton 100", "white", "red")), "ppm") {
		t.Error("a plain job is warned of limits that do not touch it")
	}
}

// Every caution about people's safety hands over to code and licensed practice.
func TestSafetyDefers(t *testing.T) {
	for _, u := range []Use{Children, Infant, HiVis, FlameResistant, Sleepwear} {
		deferred := false
		for _, c := range Decide(tee("cotton 100", "white", "red", for_(u, Children)), Shop{}, Record{}).Cautions {
			deferred = deferred || strings.Contains(strings.ToLower(c.Text), "defer to local code")
		}
		if !deferred {
			t.Errorf("%s: nothing defers to local code", u)
		}
	}
}
