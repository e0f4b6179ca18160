package intake

import "strikeoff/rules"

// sameAs reports whether a phrase of sameness ends in "as", so that what it points at follows.
func (r *reader) sameAs(it *item) bool {
	return it.ntok > 1 && r.toks[it.tok+it.ntok-1].word == vocabAs
}

var vocabAs = vocab.intern("as")

// garmentSoon reports whether a garment stands at item i, after an article perhaps.
func (s *scope) garmentSoon(i int) bool {
	if s.r.at(i).word == wThe {
		i++
	}
	return s.r.at(i).sense(sGarment) != nil
}

// linesOf are the lines of a garment, by a loose name of it where it has no line by that name: "the tees" are long-sleeved ones.
func (s *scope) linesOf(g rules.Garment) []int {
	var out, near []int
	for k := range s.lines {
		switch l := &s.lines[k]; {
		case l.drop:
		case l.Garment == g:
			out = append(out, k)
		case akin(l.Garment, g) && l.made != s.cl:
			near = append(near, k)
		}
	}
	if len(out) == 0 && len(near) == 1 {
		return near
	}
	return out
}

// goodsAfter are the lines that the words after a fact say it is of: "M 80 L 80 XL 40 on the tees", "plastisol on the polos". None where they say nothing.
func (s *scope) goodsAfter(st sentence, x *fact) []int {
	i := int(x.i1)
	if o := s.r.at(i); s.alive() < 2 || !o.is(cOn) && o.word != wFor && !(s.r.punct(i, '(') && s.r.punct(i+2, ')')) || !s.garmentSoon(i+1) {
		return nil
	}
	var hit []int
	for k := int(x.id) + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		if y.kind != fGarment || int(y.i0) > i+2 {
			break
		}
		hit = append(hit, s.linesOf(rules.Garment(y.s))...)
		i = int(y.i1)
		if w := s.r.at(i).word; w != wAnd && !s.r.punct(i, '&') && !s.r.punct(i, '+') { // "on the tees and the aprons"
			break
		}
	}
	return hit
}
