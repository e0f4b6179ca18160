package intake

import "strikeoff/rules"

// asideWords stand before clothes that are worn with the goods, or that somebody has: "over a hoodie", "the kids wear shorts", "enough shirts".
var asideWords = internAll("over", "under", "underneath", "beneath", "wear", "wears", "wore", "worn", "wearing", "enough", "plenty", "own", "owns", "have", "has", "had", "llevan", "usan")

// aside reports whether the garment in fact f, uncounted, is only told of while the message names another by itself: it makes no line.
func (s *scope) aside(st sentence, f int, g rules.Garment) bool {
	x := &s.r.facts[f]
	if x.fix || s.npLine >= 0 || s.fresh || s.find(g) >= 0 || !s.r.toldOnly(st, f) {
		return false
	}
	for k := range s.r.facts {
		if y := &s.r.facts[k]; y.kind == fGarment && y.s != x.s && !y.weak && !y.dead && !y.neg && (int(y.i0) < st.i0 || int(y.i0) >= st.i1 || s.r.at(int(y.i0)-1).kind == iNum) {
			return true
		}
	}
	return false
}

// toldOnly reports whether the garment in fact f follows a word of wearing or having, articles, colours and other garments of the list between.
func (r *reader) toldOnly(st sentence, f int) bool {
	x := &r.facts[f]
	for k := f + 1; k < st.f1; k++ { // what is said to be printed or counted is ordered
		switch r.facts[k].kind {
		case fPlace, fNumber, fSizes, fInks, fDim, fBlend:
			return false
		}
	}
	for i := int(x.i0) - 1; i >= st.i0; i-- {
		it := r.at(i)
		switch {
		case asideWords[it.word] && it.word != 0:
			return r.at(i-1).kind != iNum
		case it.word == wOf && it.word != 0, it.word == wA, it.word == wAnd, it.word == wThe, r.definite(i + 1), it.sense(sColour) != nil, it.sense(sGarment) != nil, it.kind == iPunct && (it.ch == '/' || it.ch == ','):
		default:
			return false
		}
	}
	return false
}

// mostKinds is how many kinds of goods a message may announce: "3 items please".
const mostKinds = 9

// kindsOf reports whether the number in fact f, which names no goods, says how many kinds of goods the message lists after it: "two garments for
// the brewery: 60 tees and 25 hoodies".
func (s *scope) kindsOf(f int) bool {
	x := &s.r.facts[f]
	if x.n > mostKinds || s.alive() > 0 || s.amend || x.cell != colNone {
		return false
	}
	n := 0
	for k := f + 1; k < len(s.r.facts); k++ {
		if y := &s.r.facts[k]; y.kind == fNumber && y.sure >= 2 && !y.dead && !y.neg || y.kind == fRow || y.kind == fSizes && y.m > 1 {
			n++
		}
	}
	return n > 1
}
