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
