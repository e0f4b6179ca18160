package webhook

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// The words of the order contract that rules does not list itself.
var (
	wishes  = []rules.Wish{rules.SoftHand, rules.Vintage, rules.Bright, rules.Durable, rules.Stretch, rules.Breathable, rules.LowCost, rules.Rush, rules.Eco}
	uses    = []rules.Use{rules.Athletic, rules.Children, rules.Infant, rules.Sleepwear, rules.HiVis, rules.FlameResistant, rules.Medical, rules.Food, rules.Swim, rules.Uniform, rules.AnEvent, rules.Retail}
	effects = []rules.Effect{rules.Puff, rules.Foil, rules.Metallic, rules.Glitter, rules.Glow, rules.Reflective, rules.HighDensity, rules.Gel, rules.Flock, rules.Shimmer}
	fabrics = []rules.Fabric{fibre.AllCotton, fibre.CVC, fibre.FiftyFifty, fibre.PolyCotton, fibre.TriBlend, fibre.PolyViscose, fibre.AllPolyester, fibre.AllNylon,
		fibre.AllAcrylic, fibre.AllWool, fibre.AllLinen, fibre.Other}
	asked = append(slices.Clone(rules.Methods), rules.Screen)
)

// What an order may hold at most. A shop's largest order is far below each; they keep a plan's cost bounded.
const (
	maxLines    = 40
	maxPrints   = 16        // one line's
	maxWords    = 32        // names in one list
	maxPieces   = 1_000_000 // pieces in one line
	maxMM       = 5_000     // one side of a print, millimetres
	maxInkCount = 64
	maxWord     = 120 // bytes of one word or name
	maxFaults   = 20
)

// faults collects what is wrong with an order.
type faults []fault

func (f *faults) add(pointer, format string, args ...any) {
	if len(*f) < maxFaults {
		*f = append(*f, fault{pointer, fmt.Sprintf(format, args...)})
	}
}

// known holds a word to its list; the empty word is unsaid.
func known[T ~string](f *faults, pointer string, v T, list []T) {
	if v != "" && !slices.Contains(list, v) {
		f.add(pointer, "%q is none of %v", printable(string(v), 40), list)
	}
}

// knownAll holds every word of a set to its list.
func knownAll[T ~string](f *faults, pointer string, set []T, list []T) {
	many(f, pointer, len(set), maxWords)
	for i, v := range set {
		if v == "" {
			f.add(fmt.Sprintf("%s/%d", pointer, i), "an empty word says nothing")
		}
		known(f, fmt.Sprintf("%s/%d", pointer, i), v, list)
	}
}

func many(f *faults, pointer string, n, most int) {
	if n > most {
		f.add(pointer, "there are %d, at most %d are taken", n, most)
	}
}

// free holds free words to their length.
func free(f *faults, pointer string, words []string) {
	many(f, pointer, len(words), maxWords)
	for i, w := range words {
		if len(w) > maxWord {
			f.add(fmt.Sprintf("%s/%d", pointer, i), "it is longer than %d bytes", maxWord)
		}
	}
}

func between(f *faults, pointer string, v rules.Maybe[float64], lo, hi float64) {
	if v.Known && (math.IsNaN(v.Value) || v.Value < lo || v.Value > hi) {
		f.add(pointer, "%g is not between %g and %g", v.Value, lo, hi)
	}
}

func count(f *faults, pointer string, v rules.Maybe[int], hi int) {
	if v.Known && (v.Value < 0 || v.Value > hi) {
		f.add(pointer, "%d is not between 0 and %d", v.Value, hi)
	}
}

// checkOrder says what in an order is beyond the order contract.
func checkOrder(o rules.Order) faults {
	var f faults
	const at = "/order"
	if len(o.Customer) > maxWord {
		f.add(at+"/customer", "it is longer than %d bytes", maxWord)
	}
	if o.Due != "" {
		if _, ok := o.Due.Time(); !ok {
			f.add(at+"/due", "it is no day written YYYY-MM-DD")
		}
	}
	knownAll(&f, at+"/wishes", o.Wishes, wishes)
	knownAll(&f, at+"/uses", o.Uses, uses)
	many(&f, at+"/unread", len(o.Unread), maxWords)
	many(&f, at+"/lines", len(o.Lines), maxLines)
	for i, l := range o.Lines[:min(len(o.Lines), maxLines)] {
		checkLine(&f, fmt.Sprintf("%s/lines/%d", at, i), l)
	}
	return f
}

func checkLine(f *faults, at string, l rules.Line) {
	count(f, at+"/quantity", l.Quantity, maxPieces)
	known(f, at+"/garment", l.Garment, rules.Garments)
	known(f, at+"/fabric", l.Fabric, fabrics)
	knownAll(f, at+"/sizes", slices.Sorted(maps.Keys(l.Sizes)), rules.SizeOrder)
	for _, n := range l.Sizes {
		count(f, at+"/sizes", rules.Said(n), maxPieces)
	}
	knownAll(f, at+"/fibres", slices.Sorted(maps.Keys(l.Fibres)), fibre.All)
	for _, percent := range l.Fibres {
		between(f, at+"/fibres", rules.Said(percent), 0, 100)
	}
	free(f, at+"/colours", l.Colours)
	many(f, at+"/prints", len(l.Prints), maxPrints)
	for i, p := range l.Prints[:min(len(l.Prints), maxPrints)] {
		checkPrint(f, fmt.Sprintf("%s/prints/%d", at, i), p)
	}
}

func checkPrint(f *faults, at string, p rules.Print) {
	known(f, at+"/place", p.Place, rules.Places)
	known(f, at+"/method", p.Method, asked)
	knownAll(f, at+"/effects", p.Effects, effects)
	free(f, at+"/inks", p.Inks)
	count(f, at+"/ink_count", p.InkCount, maxInkCount)
	between(f, at+"/width_mm", p.WidthMM, 0, maxMM)
	between(f, at+"/height_mm", p.HeightMM, 0, maxMM)
	between(f, at+"/coverage_percent", p.Coverage, 0, 100)
}
