package intake

import (
	"fmt"
	"math"
	"strings"

	"strikeoff/rules"
)

// facts of an order, flattened: the scoring rule of the order cases. Lines and prints of two orders are paired so that most facts agree; sizes
// in millimetres agree within 2; names are compared in lower case without marks.
type bag map[string]int

func (b bag) put(key string, v any) { b[key+" = "+fmt.Sprint(v)]++ }

// squeeze is a name as it is compared.
func squeeze(s string) string {
	s = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '&' || r == '+' {
			return r
		}
		return ' '
	}, strings.ToLower(s))
	return strings.TrimPrefix(strings.Join(strings.Fields(s), " "), "the ")
}

func orderFacts(o rules.Order) bag {
	b := bag{}
	if o.Customer != "" {
		b.put("customer", squeeze(string(o.Customer)))
	}
	if o.Due != "" {
		b.put("due", o.Due)
	}
	for _, w := range o.Wishes {
		b.put("wish", w)
	}
	for _, u := range o.Uses {
		b.put("use", u)
	}
	return b
}

func lineFacts(l rules.Line) bag {
	b := bag{"line": 1}
	if l.Quantity.Known {
		b.put("quantity", l.Quantity.Value)
	}
	for s, n := range l.Sizes {
		if n != 0 {
			b.put("size", fmt.Sprint(s, " ", n))
		}
	}
	if l.Garment != "" {
		b.put("garment", l.Garment)
	}
	if l.Fabric != "" {
		b.put("fabric", l.Fabric)
	}
	for f, p := range l.Fibres {
		b.put("fibre", fmt.Sprint(f, " ", math.Round(p)))
	}
	for _, c := range l.Colours {
		b.put("colour", squeeze(c))
	}
	if l.Heather {
		b.put("heather", true)
	}
	return b
}

func printFacts(p rules.Print) bag {
	b := bag{"print": 1}
	if p.Place != "" {
		b.put("place", p.Place)
	}
	if p.Method != "" {
		b.put("method", p.Method)
	}
	if p.WidthMM.Known {
		b.put("width_mm", math.Round(p.WidthMM.Value))
	}
	if p.HeightMM.Known {
		b.put("height_mm", math.Round(p.HeightMM.Value))
	}
	for _, i := range p.Inks {
		b.put("ink", squeeze(i))
	}
	if p.InkCount.Known {
		b.put("ink_count", p.InkCount.Value)
	}
	if p.FullColour {
		b.put("full_colour", true)
	}
	if p.Coverage.Known {
		b.put("coverage", math.Round(p.Coverage.Value))
	}
	for _, e := range p.Effects {
		b.put("effect", e)
	}
	return b
}

// both counts the facts that two bags share.
func both(a, b bag) int {
	n := 0
	for k, v := range a {
		n += min(v, b[k])
	}
	for _, axis := range []string{"width_mm = ", "height_mm = "} {
		x, okx := axisOf(a, axis)
		y, oky := axisOf(b, axis)
		if okx && oky && x != y && math.Abs(x-y) <= 2 {
			n++
		}
	}
	return n
}

func axisOf(b bag, axis string) (v float64, ok bool) {
	for k := range b {
		if s, found := strings.CutPrefix(k, axis); found {
			_, err := fmt.Sscan(s, &v)
			return v, err == nil
		}
	}
	return 0, false
}

func size(b bag) int {
	n := 0
	for _, v := range b {
		n += v
	}
	return n
}

// tally counts facts found, invented and missed, and notes which.
type tally struct {
	hit, extra, missed int
	notes              []string
}

func (t *tally) add(gold, got bag, where string) {
	n := both(gold, got)
	t.hit += n
	t.missed += size(gold) - n
	t.extra += size(got) - n
	if size(gold) == n && size(got) == n {
		return
	}
	for k, v := range gold {
		if got[k] < v {
			t.notes = append(t.notes, "missed "+where+": "+k)
		}
	}
	for k, v := range got {
		if gold[k] < v {
			t.notes = append(t.notes, "extra "+where+": "+k)
		}
	}
}

// pairs matches n things with m so that the worth of the pairs is greatest; out[i] is the partner of i, or -1.
func pairs(n, m int, worth func(i, j int) int) []int {
	best, out := -1, make([]int, n)
	cur := make([]int, n)
	used := make([]bool, m)
	var try func(i, sum int)
	try = func(i, sum int) {
		if i == n {
			if sum > best {
				best = sum
				copy(out, cur)
			}
			return
		}
		for j := range m {
			if !used[j] {
				used[j], cur[i] = true, j
				try(i+1, sum+worth(i, j))
				used[j] = false
			}
		}
		if n > m {
			cur[i] = -1
			try(i+1, sum)
		}
	}
	if n > 7 || m > 7 { // too many to try: in order
		for i := range out {
			out[i] = -1
			if i < m {
				out[i] = i
			}
		}
		return out
	}
	try(0, 0)
	return out
}

// compare scores one order against the label.
func compare(gold, got rules.Order) *tally {
	t := &tally{}
	t.add(orderFacts(gold), orderFacts(got), "order")
	prints := func(a, b rules.Line) []int {
		return pairs(len(a.Prints), len(b.Prints), func(i, j int) int { return both(printFacts(a.Prints[i]), printFacts(b.Prints[j])) })
	}
	worth := func(a, b rules.Line) int {
		n := both(lineFacts(a), lineFacts(b))
		for i, j := range prints(a, b) {
			if j >= 0 {
				n += both(printFacts(a.Prints[i]), printFacts(b.Prints[j]))
			}
		}
		return n
	}
	table := make([][]int, len(gold.Lines))
	for i := range table {
		for j := range got.Lines {
			table[i] = append(table[i], worth(gold.Lines[i], got.Lines[j]))
		}
	}
	usedLine := map[int]bool{}
	for i, j := range pairs(len(gold.Lines), len(got.Lines), func(i, j int) int { return table[i][j] }) {
		where := fmt.Sprint("line ", i)
		var other rules.Line
		gotFacts := bag{}
		if j >= 0 {
			usedLine[j] = true
			other = got.Lines[j]
			gotFacts = lineFacts(other)
		}
		t.add(lineFacts(gold.Lines[i]), gotFacts, where)
		usedPrint := map[int]bool{}
		for a, b := range prints(gold.Lines[i], other) {
			pf := bag{}
			if b >= 0 {
				usedPrint[b] = true
				pf = printFacts(other.Prints[b])
			}
			t.add(printFacts(gold.Lines[i].Prints[a]), pf, fmt.Sprint(where, " print ", a))
		}
		for b := range other.Prints {
			if !usedPrint[b] {
				t.add(bag{}, printFacts(other.Prints[b]), where+" extra print")
			}
		}
	}
	for j, l := range got.Lines {
		if usedLine[j] {
			continue
		}
		t.add(bag{}, lineFacts(l), "extra line")
		for _, p := range l.Prints {
			t.add(bag{}, printFacts(p), "extra line")
		}
	}
	return t
}

// f1 is the harmonic mean of precision and recall over all facts.
func (t *tally) f1() float64 {
	if t.hit == 0 {
		if t.extra+t.missed == 0 {
			return 1
		}
		return 0
	}
	return 2 * float64(t.hit) / float64(2*t.hit+t.extra+t.missed)
}
