package intake

import "strikeoff/rules"

// oneSized reads the size of goods that were counted just before it: "20 shirts YS, 24 shirts YM".
func (r *reader) oneSized(i int) int {
	size, ok := r.sizeAt(i)
	n := r.at(i - 2)
	if g := r.at(i - 1).sense(sGarment); !ok || g == nil || n.kind != iNum || !r.countable(i-2) || n.num < 1 {
		return i
	}
	next := r.at(i + 1)
	if again := next.kind == iPunct && next.ch == ',' || next.word == wAnd && next.word != 0; next.kind == iNum || !r.clauseEnds(i+1) && next.word != wIn && !(again && r.at(i+2).kind == iNum && r.at(i+3).sense(sGarment) != nil) {
		return i
	}
	from := len(r.runs)
	r.runs = append(r.runs, sized{size, int(n.num)})
	r.emit(i, i+1, fact{kind: fSizes, n: from, m: 1})
	return i + 1
}

// joinSizes puts lines together that differ in nothing but their sizes: a line is a fabric and a colour. It returns which line each one went to.
func joinSizes(lines rules.List[rules.Line]) (rules.List[rules.Line], []int) {
	var out rules.List[rules.Line]
	to := make([]int, len(lines))
	for k, l := range lines {
		to[k] = len(out)
		for q := range out {
			if sameButSizes(&out[q], &l) {
				to[k] = q
				break
			}
		}
		if to[k] == len(out) {
			out = append(out, l)
			continue
		}
		into := &out[to[k]]
		sizes := make(rules.Sizes, len(into.Sizes)+len(l.Sizes))
		for _, m := range []rules.Sizes{into.Sizes, l.Sizes} {
			for z, n := range m {
				sizes[z] = n
			}
		}
		into.Sizes, into.Quantity = sizes, rules.Said(sizes.Total())
	}
	return out, to
}

// sameButSizes reports whether two lines have each one size, not the same, and are alike in all else.
func sameButSizes(a, b *rules.Line) bool {
	if len(b.Sizes) != 1 || len(a.Sizes) == 0 || a.Garment == "" || a.Quantity.Value != a.Sizes.Total() || b.Quantity.Value != b.Sizes.Total() {
		return false
	}
	for z := range b.Sizes {
		if _, both := a.Sizes[z]; both {
			return false
		}
	}
	x, y := *a, *b
	x.Sizes, y.Sizes, x.Quantity, y.Quantity = nil, nil, rules.Maybe[int]{}, rules.Maybe[int]{}
	return sameOrder(rules.Order{Lines: rules.List[rules.Line]{x}}, rules.Order{Lines: rules.List[rules.Line]{y}})
}
