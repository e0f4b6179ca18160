package intake

import "strikeoff/rules"

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
