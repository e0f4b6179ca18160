package intake

import "strikeoff/rules"

// successorGarment reports whether another garment of the sentence takes the place of the one in fact f.
func (s *scope) successorGarment(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		if y := &s.r.facts[k]; y.kind == fGarment && y.fix && !y.neg && !y.dead && y.s != s.r.facts[f].s && s.find(rules.Garment(y.s)) < 0 {
			return true
		}
	}
	return false
}

// ownCounts reports whether a sentence counts anything.
func (s *scope) ownCounts(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fNumber && x.sure >= 1 && !x.dead || x.kind == fSizes {
			return true
		}
	}
	return false
}

// takesOver makes the lines of a garment that the sentence gives up those of the one in fact f: "replace the 24 caps with 24 beanies".
func (s *scope) takesOver(st sentence, f int, g rules.Garment) bool {
	x := &s.r.facts[f]
	if !x.fix || x.weak || s.find(g) >= 0 && s.npLine < 0 {
		return false
	}
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if k == f || y.kind != fGarment || !y.neg && !y.dead || y.s == x.s || s.find(rules.Garment(y.s)) < 0 {
			continue
		}
		if k > f && !y.neg {
			continue
		}
		n := s.npLine
		s.npLine = -1
		for q := range s.lines {
			l := &s.lines[q]
			if l.drop || q == n || string(l.Garment) != y.s {
				continue
			}
			l.Garment = g
			if n >= 0 && s.lines[n].made == s.cl && s.lines[n].Garment == "" {
				s.setQuantity(q, &fact{n: s.lines[n].Quantity.Value, id: s.lines[n].counted - 1})
				s.lines[n].drop = true
			}
			s.seg = s.seg[:0]
			s.speakOf(q)
		}
		s.named = true
		return true
	}
	return false
}
