package rules

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The words that orders are drawn from.
var (
	someCloths = []string{"", "cotton 100", "cotton 90 polyester 10", "cotton 60 polyester 40", "cotton 50 polyester 50", "polyester 65 cotton 35",
		"polyester 50 cotton 25 viscose 25", "polyester 65 viscose 35", "polyester 100", "polyester 85 elastane 15", "nylon 100", "nylon 80 elastane 20",
		"acrylic 100", "wool 100", "linen 100", "hemp 55 cotton 45", "bamboo-viscose 95 elastane 5", "cotton 92 elastane 8", "polyester 50 nylon 50"}
	someColours = []string{"", "white", "black", "navy", "red", "maroon", "royal", "kelly", "light grey", "yellow", "pink", "charcoal", "camo", "zorble",
		"turquoise", "white,black", "sublimated red", "pigment-dyed olive"}
	someInks    = []string{"", "white", "black", "red", "white,gold", "navy,teal", "pms 186", "full", "silver", "white,red,blue,green,gold,black,pink"}
	someEffects = []Effect{Puff, Foil, Metallic, Glitter, Glow, Reflective, HighDensity, Gel, Flock, Shimmer}
	someUses    = []Use{Athletic, Children, Infant, Sleepwear, HiVis, FlameResistant, Medical, Food, Swim, Uniform, AnEvent, Retail}
	someWishes  = []Wish{SoftHand, Vintage, Bright, Durable, Stretch, Breathable, LowCost, Rush, Eco}
)

// anOrder draws an order of one line with one print from the whole space.
func anOrder(t *rapid.T) Order {
	o := tee(rapid.SampledFrom(someCloths).Draw(t, "cloth"), rapid.SampledFrom(someColours).Draw(t, "colours"), rapid.SampledFrom(someInks).Draw(t, "inks"),
		garment(rapid.SampledFrom(Garments).Draw(t, "garment")), place(rapid.SampledFrom(append([]Place{""}, Places...)).Draw(t, "place")),
		asking(rapid.SampledFrom(append([]Method{"", "", "", "", Screen}, Methods...)).Draw(t, "asked")))
	if n := rapid.SampledFrom([]int{0, 1, 6, 12, 48, 144, 1000}).Draw(t, "pieces"); n > 0 {
		pieces(n)(&o)
	} else {
		uncounted(&o)
	}
	if rapid.IntRange(0, 3).Draw(t, "effect") == 0 {
		finish(rapid.SampledFrom(someEffects).Draw(t, "which"))(&o)
	}
	if rapid.IntRange(0, 2).Draw(t, "wish") == 0 {
		wishing(rapid.SampledFrom(someWishes).Draw(t, "which"))(&o)
	}
	if rapid.IntRange(0, 3).Draw(t, "use") == 0 {
		for_(rapid.SampledFrom(someUses).Draw(t, "which"))(&o)
	}
	if rapid.Bool().Draw(t, "coverage") {
		covering(rapid.Float64Range(0, 100).Draw(t, "percent"))(&o)
	}
	return o
}

// TestMorePolyester: more polyester never lowers the migration risk of a plain plastisol print.
func TestMorePolyester(t *testing.T) {
	order := []Risk{RiskNone, RiskLow, RiskMedium, RiskHigh}
	rapid.Check(t, func(t *rapid.T) {
		colour := rapid.SampledFrom([]string{"white", "black", "navy", "red", "royal", "kelly", "light grey", "camo", ""}).Draw(t, "colour")
		ink := rapid.SampledFrom([]string{"white", "black", "gold", "full"}).Draw(t, "ink")
		p, q := rapid.IntRange(0, 100).Draw(t, "p"), rapid.IntRange(0, 100).Draw(t, "q")
		risk := func(share int) Migration {
			return Decide(tee(fmt.Sprintf("polyester %d cotton %d", share, 100-share), colour, ink), Shop{Methods: List[Method]{Plastisol}}, Record{}).Migration[0]
		}
		lo, hi := risk(min(p, q)), risk(max(p, q))
		if slices.Index(order, lo.Risk) > slices.Index(order, hi.Risk) || lo.Change > hi.Change {
			t.Fatalf("%d %% polyester: %+v; %d %%: %+v", min(p, q), lo, max(p, q), hi)
		}
	})
}

// strength orders what lies under plastisol.
func strength(b Base) int {
	return slices.Index([]Base{NoBase, WhiteBase, LowBleedWhite, GreyBlocker}, b)
}

// TestLighterGarment: a lighter garment of the same hue never needs a stronger base under a white print.
func TestLighterGarment(t *testing.T) {
	ladders := [][]string{{"black", "charcoal", "grey", "light grey", "white"}, {"navy", "royal", "light blue", "white"}, {"maroon", "pink", "light pink", "white"},
		{"forest", "kelly", "mint", "white"}, {"#200008", "#500018", "#902030", "#c06070", "#e0a0a8"}}
	for _, cloth := range []string{"cotton 100", "cotton 60 polyester 40", "polyester 65 cotton 35", "polyester 50 cotton 25 viscose 25", "polyester 100", "nylon 100"} {
		for _, l := range ladders {
			last := 3
			for _, colour := range l {
				b := choiceOf(Decide(tee(cloth, colour, "white"), Shop{}, Record{}), Plastisol).Setup.Base
				if strength(b) > last {
					t.Errorf("%s: %s needs %s, more than a darker one", cloth, colour, b)
				}
				last = strength(b)
			}
		}
	}
}

// TestDoubling: twice the pieces never turn a screen method worse against direct-to-garment.
func TestDoubling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := anOrder(t)
		n := rapid.IntRange(1, 5000).Draw(t, "n")
		gap := func(n int, m Method) float64 {
			pieces(n)(&o)
			p := Decide(o, Shop{}, Record{})
			a, d := choiceOf(p, m), choiceOf(p, DTG)
			if a.Verdict == No || d.Verdict == No || a.Score <= 1 || d.Score <= 1 {
				return -1e9 // a score at its floor says nothing
			}
			return a.Score - d.Score
		}
		for _, m := range []Method{Plastisol, WaterBased, Discharge} {
			if once, twice := gap(n, m), gap(2*n, m); once > -1e8 && twice > -1e8 && twice < once-0.15 {
				t.Fatalf("%s against direct print: %.1f at %d pieces, %.1f at %d", m, once, n, twice, 2*n)
			}
		}
	})
}

// TestForgetting: taking a fact about the goods or the art away never turns a no into a yes.
func TestForgetting(t *testing.T) {
	forget := map[string]func(*Line){
		"fibres":   func(l *Line) { l.Fibres, l.Fabric = nil, "" },
		"colours":  func(l *Line) { l.Colours = nil },
		"quantity": func(l *Line) { l.Quantity, l.Sizes = Maybe[int]{}, nil },
		"inks":     func(l *Line) { l.Prints[0].Inks, l.Prints[0].InkCount = nil, Maybe[int]{} },
		"coverage": func(l *Line) { l.Prints[0].Coverage = Maybe[float64]{} },
		"size":     func(l *Line) { l.Prints[0].WidthMM, l.Prints[0].HeightMM = Maybe[float64]{}, Maybe[float64]{} },
	}
	names := make([]string, 0, len(forget))
	for n := range forget {
		names = append(names, n)
	}
	slices.Sort(names)
	rapid.Check(t, func(t *rapid.T) {
		o := anOrder(t)
		before := Decide(o, Shop{}, Record{})
		less := o.Clone()
		what := rapid.SampledFrom(names).Draw(t, "forget")
		forget[what](&less.Lines[0])
		after := Decide(less, Shop{}, Record{})
		for _, m := range Methods {
			if choiceOf(before, m).Verdict == No && choiceOf(after, m).Verdict == Yes {
				t.Fatalf("without %s %s turns from no to yes", what, m)
			}
		}
	})
}

// TestLineOrder: the plan is the same whatever the order of lines.
func TestLineOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := anOrder(t)
		for range rapid.IntRange(1, 3).Draw(t, "more") {
			o.Lines = append(o.Lines, anOrder(t).Lines...)
		}
		turned := o.Clone()
		slices.Reverse(turned.Lines)
		p, q := Decide(o, Shop{}, Record{Today: "2026-11-25"}), Decide(turned, Shop{}, Record{Today: "2026-11-25"})
		slices.Reverse(q.Lines)
		slices.Reverse(q.Migration)
		slices.Reverse(q.Inspection)
		for i := range q.Inspection {
			q.Inspection[i].Line = len(o.Lines) - 1 - q.Inspection[i].Line
		}
		if a, b := asJSON(t, p), asJSON(t, q); a != b {
			t.Fatalf("the plan hangs on the order of lines:\n%s", firstDifference(a, b))
		}
	})
}

// TestSound: what must hold of every plan whatever the order.
func TestSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := anOrder(t)
		if wrong := unsound(o, Decide(o, Shop{}, Record{})); wrong != "" {
			t.Fatal(wrong)
		}
	})
}

// unsound says what no plan may be.
func unsound(o Order, p Plan) string {
	if len(p.Lines) != len(o.Lines) || len(p.Migration) != len(o.Lines) || p.Summary == "" {
		return fmt.Sprintf("lines %d, migration %d for %d lines; summary %q", len(p.Lines), len(p.Migration), len(o.Lines), p.Summary)
	}
	test := false
	for i, l := range p.Lines {
		if len(l.Prints) != len(o.Lines[i].Prints) {
			return "a print was lost"
		}
		for _, pr := range l.Prints {
			if len(pr.Choices) != len(Methods) {
				return "a method was not weighed"
			}
			last := 101.0
			for _, c := range pr.Choices {
				if c.Score < 0 || c.Score > 100 || c.Score > last || c.Expect.Vividness < 0 || c.Expect.Vividness > 1 {
					return fmt.Sprintf("%s: score %v after %v, vividness %v", c.Method, c.Score, last, c.Expect.Vividness)
				}
				last = c.Score
				if rank(c.Verdict) == 3 && c.Verdict != No {
					return fmt.Sprintf("%s has no verdict: %q", c.Method, c.Verdict)
				}
				if c.Verdict == No && !slices.ContainsFunc(c.Why, func(r Reason) bool { return r.Veto }) {
					return fmt.Sprintf("%s is out and nothing says why", c.Method)
				}
				if c.Verdict != No && c.Setup.Heat == nil {
					return fmt.Sprintf("%s has no heat", c.Method)
				}
				if h := c.Setup.Heat; h != nil && (h.TempC[0] > h.TempC[1] || h.TempC[1] > 210 || h.TempC[0] < 100) {
					return fmt.Sprintf("%s heat %v", c.Method, h)
				}
			}
			if c, ok := pr.Picked(); ok {
				if c.Verdict == No {
					return "the pick does not work"
				}
				test = test || c.Verdict != Yes
			} else if len(p.Questions) == 0 && !slices.ContainsFunc(p.Cautions, func(c Caution) bool { return c.Severity == Stop }) &&
				!strings.Contains(p.Summary, "No method works") {
				return "there is no pick, and neither a question nor a stop says why"
			}
		}
	}
	if p.TestPrint != test || p.WashTest && !p.TestPrint {
		return fmt.Sprintf("test print %v, wash test %v, a pick that wants one: %v", p.TestPrint, p.WashTest, test)
	}
	if _, wash := p.Step("wash"); wash != p.WashTest {
		return "the checklist and the wash test disagree"
	}
	for _, c := range p.Checklist {
		if c.Code == "" || strings.ContainsAny(c.Code, " _/") || c.Title == "" || c.How == "" || c.Pass == "" {
			return fmt.Sprintf("a step is not whole: %+v", c)
		}
	}
	return ""
}

func asJSON(t interface{ Fatal(...any) }, v any) string {
	b, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range x {
		if i >= len(y) || x[i] != y[i] {
			return strings.Join(x[max(0, i-6):min(len(x), i+3)], "\n") + "\n---\n" + strings.Join(y[max(0, i-6):min(len(y), i+3)], "\n")
		}
	}
	return "one is longer"
}
