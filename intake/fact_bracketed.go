package intake

import "strikeoff/rules"

// bracketed takes a garment in brackets for the sort of the one before them: "sweats (bottoms)", "hats (beanies)".
func (s *scope) bracketed(st sentence, f int) bool {
	x := &s.r.facts[f]
	if f == st.f0 || len(s.lines) == 0 || x.neg || x.dead {
		return false
	}
	y := &s.r.facts[f-1]
	if y.kind == fUse && f-1 > st.f0 { // "night shirts", which says what they are for as well
		y = &s.r.facts[f-2]
	}
	if y.kind != fGarment || y.neg || y.dead || !s.r.inBrackets(int(y.i1), int(x.i0)) {
		return false
	}
	l := &s.lines[s.newest()]
	switch w := s.r.wordAt(int(x.i0)); {
	case l.Garment != rules.Garment(y.s) && !(y.weak && l.Garment == ""):
		return false
	case w == "pants" || w == "bottoms" || w == "trousers":
		l.Garment = "sweatpants"
	case w != "tops" && w != "top" && w != "shirts" && w != "shirt":
		l.Garment = rules.Garment(x.s)
	}
	return true
}

// hedges are words of a remark on what sort of garment something is: "(just long-sleeve tees)", "(they're polos)".
var hedges = internAll("just", "really", "actually", "basically", "plain", "simple", "oversized", "oversize", "normal", "regular", "standard", "theyre", "they", "are", "its", "so", "meaning",
	"called", "i", "e", "ie", "long", "short", "big", "baggy", "simply", "all", "only")

// inBrackets reports whether nothing but "printed" and the opening of a bracket with some hedges stands in items i to j.
func (r *reader) inBrackets(i, j int) bool {
	if r.at(i).is(cPrintWord) {
		i++
	}
	if !r.punct(i, '(') {
		return false
	}
	for i++; i < j; i++ {
		if it := r.at(i); it.kind > iPhrase || !hedges[it.word] && !hedges[r.lastWord(i)] {
			return false
		}
	}
	for k := j; k < j+14; k++ { // no other goods in the same brackets
		it := r.at(k)
		if r.punct(k, ')') {
			return true
		}
		if it.kind == iNum || it.kind >= iBreak || k > j && it.sense(sGarment) != nil && !it.sense(sGarment).weak || it.is(cGone) || it.is(cNo) {
			return false
		}
	}
	return false
}
