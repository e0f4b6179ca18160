package intake

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
