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
	if r.lettered(i) > i {
		return 20000 + int(r.at(i+1).num)
	}
	switch {
	case it.kind == iNum && it.digits > 0 && !it.frac && (r.punct(i+1, ')') || r.punct(i+1, '.') && !r.at(i+2).glued):
		return int(it.num)
	case it.kind <= iPhrase && it.end-it.start == 1 && (r.punct(i+1, ')') || r.punct(i+1, '.') && !r.at(i+2).glued):
		if c := r.text[it.start] | 0x20; c >= 'a' && c <= 'k' {
			return -int(c)
		}
	case rowWords[it.word]:
		i++
		for r.punct(i, '#') || r.punct(i, '.') && r.at(i).glued {
			i++
		}
		if n := r.at(i); n.kind == iNum && n.digits > 0 && n.digits < 4 && !n.frac {
			return int(n.num)
		}
	}
	return 0
}

// rowKeys are the numbers or letters of the rows that the sentence at item i speaks of at its start: "A and B: poppy on the front", "C: front".
func (s *scope) rowKeys(i int) {
	r := s.r
	s.rows = s.rows[:0]
	if k := r.rowKey(i); k != 0 {
		s.rows = append(s.rows, k)
		return
	}
	if len(s.keys) == 0 || !r.lineStart(i) {
		return
	}
	for r.at(i).kind == iPunct {
		i++
	}
	if rowWords[r.at(i).word] || r.at(i).is(cIDWord) {
		i++
	}
	for len(s.rows) < 12 {
		it := r.at(i)
		switch {
		case it.kind == iNum && it.digits > 0 && !it.frac:
			s.rows = append(s.rows, int(it.num))
		case it.kind <= iPhrase && it.end-it.start == 1 && (r.text[it.start]|0x20) >= 'a' && (r.text[it.start]|0x20) <= 'k':
			s.rows = append(s.rows, -int(r.text[it.start]|0x20))
		default:
			s.rows = s.rows[:0]
			return
		}
		i++
		if r.punct(i, ')') {
			i++
		}
		if r.punct(i, ':') {
			return
		}
		for n := i; i < n+2 && (r.at(i).word == wAnd || r.punct(i, '&') || r.punct(i, '+') || r.punct(i, ',') || r.punct(i, '/')); i++ {
		}
	}
}

// byKey makes the lines that rows of the same number or letter made before those spoken of: the prints of "GARMENTS a) hoodies … PRINTS a) front".
func (s *scope) byKey(st sentence) {
	if st.i0 == 0 || s.r.items[st.i0-1].kind >= iBreak {
		s.rowKeys(st.i0)
		s.again = false
	}
	if len(s.rows) == 0 || !s.again && s.ownGoods(st) {
		return
	}
	n := len(s.seg)
	for _, key := range s.rows {
		for _, k := range s.keys {
			if k.key == key && !s.lines[k.line].drop {
				s.seg, s.sl = append(s.seg, k.line), append(s.sl, k.line)
				break
			}
		}
	}
	if len(s.seg) > n {
		s.again = true
		s.cur = append(s.cur[:0], s.seg...)
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
	if len(s.rows) == 1 && !s.again && len(s.lines) > before && len(s.keys) < mostLines {
		s.keys = append(s.keys, keyed{s.rows[0], before})
	}
}
