package intake

import (
	"slices"
	"strings"
	"testing"

	"strikeoff/rules"
)

// TestWordsMeanSomething: every value in the word files is a word of the order.
func TestWordsMeanSomething(t *testing.T) {
	n := 0
	for _, file := range []string{"garments", "places", "methods", "effects", "wishes", "uses", "sizes", "fibres", "fabrics"} {
		for value, phrases := range rows(file) {
			n += len(phrases)
			known := false
			switch file {
			case "garments":
				known = slices.Contains(rules.Garments, rules.Garment(value))
			case "places": // and places whose side or number is still to be told
				known = slices.Contains(rules.Places, rules.Place(value)) || slices.Contains([]string{"both-sleeves", "both-legs", "both-sides", "sleeve", "leg", "neck"}, value)
			case "methods":
				known = value == string(rules.Screen) || slices.Contains(rules.Methods, rules.Method(value))
			case "sizes":
				known = slices.Contains(rules.SizeOrder, rules.Size(value))
			case "effects":
				known = slices.Contains([]rules.Effect{rules.Puff, rules.Foil, rules.Metallic, rules.Glitter, rules.Glow, rules.Reflective, rules.HighDensity, rules.Gel, rules.Flock, rules.Shimmer}, rules.Effect(value))
			case "wishes":
				known = slices.Contains([]rules.Wish{rules.SoftHand, rules.Vintage, rules.Bright, rules.Durable, rules.Stretch, rules.Breathable, rules.LowCost, rules.Rush, rules.Eco}, rules.Wish(value))
			case "uses":
				known = slices.Contains([]rules.Use{rules.Athletic, rules.Children, rules.Infant, rules.Sleepwear, rules.HiVis, rules.FlameResistant, rules.Medical, rules.Food, rules.Swim, rules.Uniform, rules.AnEvent, rules.Retail}, rules.Use(value))
			default:
				known = true
			}
			if !known {
				t.Errorf("%s: %q is no word of the order", file, value)
			}
		}
	}
	if n == 0 {
		t.Fatal("no phrase was checked")
	}
}

// TestSteeringWordsSwallowNoFact: a phrase that only steers, or says a wish or a use, must not hide a fact inside it: "staff tees" would lose its tees.
func TestSteeringWordsSwallowNoFact(t *testing.T) {
	facts := map[string]bool{}
	for _, file := range []string{"garments", "colours", "places", "methods", "effects", "fibres", "fabrics"} {
		for _, phrases := range rows(file) {
			for _, p := range phrases {
				if !strings.HasPrefix(p, "~") {
					facts[strings.ReplaceAll(p, "-", " ")] = true
				}
			}
		}
	}
	meant := map[string]bool{"came back with": true, "rung back": true, "back then": true, "aqua fit": true, "team jersey": true, "green as possible": true, "as green as": true,
		"split fifty fifty": true, "split fifty/fifty": true, "fifty fifty split": true} // these mean no fact
	n := 0
	for _, file := range []string{"cues", "uses", "wishes"} {
		for value, phrases := range rows(file) {
			for _, p := range phrases {
				p = strings.ReplaceAll(strings.TrimPrefix(p, "~"), "-", " ")
				words := strings.Fields(p)
				if len(words) < 2 || facts[p] || meant[p] {
					continue
				}
				n++
				for a := range words {
					for b := a + 1; b <= len(words); b++ {
						if sub := strings.Join(words[a:b], " "); b-a < len(words) && facts[sub] {
							t.Errorf("%s, %s: %q hides %q", file, value, p, sub)
						}
					}
				}
			}
		}
	}
	if n == 0 {
		t.Fatal("no phrase was checked")
	}
}

// TestExplain: the text comes back with its spans marked, and nothing else of it is lost.
func TestExplain(t *testing.T) {
	text := "Tin Lantern Cycles - 48 blk tees, FF 1c white, and the dog ate the proof"
	out := Explain(text, Read(text, Options{Received: "2026-11-25"}))
	for _, want := range []string{"[Tin Lantern Cycles]1 - [48]2 [blk]3 [tees]4, [FF]5 [1c]6 [white]7", "lines[0].quantity", "lines[0].prints[0].inks", `not used: "and the dog ate the proof"`} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}
