package intake

// rowWords head a row of an order together with a number: "Ln 10", "Item 2".
var rowWords = internAll("ln", "line", "item", "row", "style", "job", "ref", "garment", "product", "pos")

// keyed is a row's number or letter, and the line that the row made.
type keyed struct {
	key  int
	line int
}

// rowKey is the number or letter that the row at item i is headed by, 0 for none: "a) sweatpants", "2. polo", "Ln 10".
func (r *reader) rowKey(i int) int {
	if !r.lineStart(i) {
		return 0
	}
	for r.at(i).kind == iPunct {
		i++
	}
	it := r.at(i)
	switch {
	case it.kind == iNum && it.digits > 0 && !it.frac && (r.punct(i+1, ')') || r.punct(i+1, '.') && !r.at(i+2).glued):
		return int(it.num)
	case it.kind <= iPhrase && it.end-it.start == 1 && (r.punct(i+1, ')') || r.punct(i+1, '.') && !r.at(i+2).glued):
		if c := r.text[it.start] | 0x20; c >= 'a' && c <= 'k' {
			return -int(c)
		}
	case rowWords[it.word]:
		i++
		for r.punct(i, '#') {
			i++
		}
		if n := r.at(i); n.kind == iNum && n.digits > 0 && n.digits < 4 && !n.frac {
			return int(n.num)
		}
	}
	return 0
}

// byKey makes the line that a row of the same number or letter made before the one spoken of: the prints of "GARMENTS a) hoodies … PRINTS a) front".
func (s *scope) byKey(st sentence) {
	if st.i0 == 0 || s.r.items[st.i0-1].kind >= iBreak {
		s.key, s.again = s.r.rowKey(st.i0), false
	}
	if s.key == 0 {
		return
	}
	for _, k := range s.keys {
		if k.key == s.key && !s.lines[k.line].drop && (s.again || !s.ownGoods(st)) {
			s.again = true
			s.seg, s.sl, s.cur = append(s.seg[:0], k.line), append(s.sl[:0], k.line), append(s.cur[:0], k.line)
			return
		}
	}
}

// ownGoods reports whether a sentence counts goods or names a garment of its own.
func (s *scope) ownGoods(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fGarment && !x.weak || x.kind == fNumber && x.sure >= 2 {
			return true
		}
	}
	return false
}

// keepKey remembers the first line that the row made.
func (s *scope) keepKey(before int) {
	if s.key != 0 && !s.again && len(s.lines) > before && len(s.keys) < mostLines {
		s.keys = append(s.keys, keyed{s.key, before})
	}
}
