package intake

import "strings"

// swatch is the reference in items i to j as it was said, in lower case and single spaces: "pms 186".
func (r *reader) swatch(i, j int) string {
	var b strings.Builder
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind == iPunct {
			continue
		}
		if k > i && !(it.glued && r.at(k-1).kind == iNum) {
			b.WriteByte(' ')
		}
		b.WriteString(strings.ToLower(r.text[it.start:it.end]))
	}
	return b.String()
}

// parseSwatch reads "PMS 186", "pantone 186 C": an ink kept as it was said.
func (r *reader) parseSwatch(i int) int {
	j := i + 1
	for r.punct(j, '#') || r.punct(j, ':') || r.punct(j, '-') {
		j++
	}
	n := r.at(j)
	if n.kind != iNum && !(n.kind == iWord || n.sense(sColour) != nil) || n.kind == iBreak {
		return i + 1
	}
	j++
	if c := r.at(j); n.kind == iNum && c.end-c.start == 1 && c.kind <= iPhrase && !r.punct(j+1, '\'') {
		switch r.text[c.start] {
		case 'C', 'U', 'c', 'u':
			j++
		}
	}
	r.emit(i, j, fact{kind: fColour, s: r.swatch(i, j), swatch: true})
	k := j // "PMS 186 and 300", "PMS 186/300": the next is one as well
	for {
		q := k
		for r.punct(q, ',') || r.punct(q, '/') || r.punct(q, '&') || r.punct(q, '+') || r.at(q).word == wAnd {
			q++
		}
		m := r.at(q)
		if q == k || m.kind != iNum || m.digits < 3 || m.digits > 4 || m.frac || r.measured(q+1) || r.beforeGoods(q) || n.kind != iNum {
			return k
		}
		r.emit(q, q+1, fact{kind: fColour, s: "pms " + r.text[m.start:m.end], swatch: true})
		k = q + 1
	}
}
