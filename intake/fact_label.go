package intake

import "slices"

// labelAt is the label of the list item that begins at item i: "a)", "2.", "Ln 10", "Item 3". 0 where there is none. Letters come after numbers.
func (s *scope) labelAt(i int) int {
	r := s.r
	for r.punct(i, '*') || r.punct(i, '-') || r.punct(i, '(') {
		i++
	}
	it := r.at(i)
	if it.kind == iPunct && it.ch == '#' && r.lineStart(i) && r.at(i+1).kind == iNum && r.at(i+1).glued && r.at(i+1).digits <= 2 {
		return int(r.at(i + 1).num)
	}
	if !r.lineStart(i) {
		return 0
	}
	n := r.at(i + 1)
	if r.lettered(i) > i {
		return 20000 + int(n.num)
	}
	if r.punct(i+1, '.') && n.glued && rowWords[it.word] {
		n = r.at(i + 2)
	}
	switch {
	case it.kind == iNum && it.digits > 0 && it.num < 1000 && (r.punct(i+1, ')') || r.punct(i+1, '.') && !r.at(i+2).glued):
		return int(it.num)
	case it.kind <= iPhrase && it.end-it.start == 1 && r.punct(i+1, ')') && n.glued:
		if c := r.text[it.start] | 0x20; c >= 'a' && c <= 'z' {
			return 10000 + int(c)
		}
	case it.word != 0 && it.kind <= iPhrase && n.kind == iNum && n.digits > 0 && !n.frac && n.num < 10000:
		switch vocab.names[it.word] {
		case "ln", "line", "item", "pos":
			return int(n.num)
		}
	}
	return 0
}

// relabel makes the line that bears the label of the sentence the one spoken of, so that a second list can say more of the goods of the first. It
// keeps the label for the lines that the sentence makes.
func (s *scope) relabel(st sentence) {
	s.label = s.labelAt(st.i0)
	if s.label == 0 {
		return
	}
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fGarment && !x.weak && !x.neg && !x.dead || x.kind == fRow || x.kind == fNumber && x.sure >= 2 {
			return
		}
	}
	k := slices.IndexFunc(s.lines, func(l line) bool { return l.label == s.label && !l.drop })
	if k >= 0 && s.alive() > 1 {
		s.seg = s.seg[:0]
		s.speakOf(k)
		s.fresh = false
	}
}

// lettered is the item after the label of a row such as "L1 -" or "P2:" at item i, and i where there is none: a size and its count is followed by
// another, a label by goods.
func (r *reader) lettered(i int) int {
	it, n := r.at(i), r.at(i+1)
	if it.kind > iPhrase || it.end-it.start != 1 || !it.upper || n.kind != iNum || !n.glued || n.digits != 1 || !r.lineStart(i) {
		return i
	}
	m := r.at(i + 2)
	if m.kind != iPunct || m.ch != '-' && m.ch != ':' && m.ch != ')' && m.ch != '.' && m.ch != '=' {
		return i
	}
	if _, size := r.sizeAt(i + 3); size || r.at(i+3).kind >= iPunct {
		return i
	}
	if g := r.at(i + 3); g.kind == iNum && (r.measured(i+4) || !r.beforeGoods(i+3) && !r.at(i+4).is(cPcs) && !r.at(i+4).is(cEach)) {
		return i
	}
	return i + 3
}
