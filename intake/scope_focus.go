package intake

import "slices"

// touch notes that the sentence speaks of prints.
func (s *scope) touch(x *fact) {
	s.inPrint = true
	s.attrAt = int(x.i1)
}

// focus are the prints that a fact about a print belongs to; nil where they are still to come.
func (s *scope) focus(st sentence, f int) []ref {
	x := &s.r.facts[f]
	if len(s.all) > 1 && s.wideHere(st, f) {
		return s.all
	}
	if s.placeAhead(st, f) {
		return nil
	}
	if len(s.sp) > 0 {
		return s.sp
	}
	if s.laterPlace(st, f) || len(s.seg) > 0 && s.lines[s.seg[len(s.seg)-1]].made == s.cl || s.same || s.samePl {
		return nil
	}
	if s.wideHere(st, f) && len(s.spoke) > 1 && len(s.seg) == 0 && !s.allHere(st, f) {
		return s.spoke
	}
	if len(s.seg) == 0 && s.allHere(st, f) {
		if h := s.everyPrint(); len(h) > 0 {
			return h
		}
	}
	if s.wide {
		if h := s.everyPrint(); len(h) > 0 {
			return h
		}
	}
	if len(s.seg) > 0 { // the sentence speaks of lines that stand
		var out []ref
		for _, k := range s.seg {
			for q := range s.lines[k].Prints {
				out = append(out, ref{k, q})
			}
		}
		if len(out) > 0 && s.onePrintEach(out) {
			return out
		}
		if len(out) > 0 && s.pickPrints(out, x) != nil {
			return s.pickPrints(out, x)
		}
		return nil
	}
	if s.fresherLine(st) || s.newPrint {
		return nil
	}
	if len(s.last) > 0 {
		return s.last
	}
	return nil
}

// fresherLine reports whether a line without print was named since the last print, and the sentence speaks of a print by itself.
func (s *scope) fresherLine(st sentence) bool {
	k := len(s.lines) - 1
	for k >= 0 && s.lines[k].drop {
		k--
	}
	if k < 0 || s.lines[k].printed || s.lines[k].blank || s.amend {
		return false
	}
	for q := st.f0; q < st.f1; q++ {
		if x := &s.r.facts[q]; x.kind == fDim || x.kind == fInks || (x.kind == fEffect || x.kind == fFull || x.kind == fCover || x.kind == fColour) && s.saysPrint(st) {
			return true
		}
	}
	return false
}

// saysPrint reports whether the sentence speaks of a print in so many words.
func (s *scope) saysPrint(st sentence) bool {
	for i := st.i0; i < st.i1; i++ {
		if w := s.r.at(i).word; w != 0 && w == wordPrint {
			return true
		}
	}
	return false
}

func (s *scope) onePrintEach(h []ref) bool {
	for k := 1; k < len(h); k++ {
		if h[k].line == h[k-1].line {
			return false
		}
	}
	return true
}

// pickPrints chooses among several prints of a line the one at the place that was spoken of last; nil where it cannot be told.
func (s *scope) pickPrints(h []ref, x *fact) []ref {
	var out []ref
	for _, a := range h {
		for _, b := range s.last {
			if s.at(a).Place == s.at(b).Place && !slices.Contains(out, a) {
				out = append(out, a)
			}
		}
	}
	if len(out) > 0 && s.onePrintEach(out) {
		return out
	}
	return nil
}

// everyPrint is every print of the order.
func (s *scope) everyPrint() []ref {
	var out []ref
	for k := range s.lines {
		if s.lines[k].drop {
			continue
		}
		for q := range s.lines[k].Prints {
			out = append(out, ref{k, q})
		}
	}
	return out
}

// wideHere reports whether "both", "all", "each" stands in the clause of fact f.
func (s *scope) wideHere(st sentence, f int) bool {
	x := &s.r.facts[f]
	placed := false // in a clause with a place, "on all" is said of garments
	for k := f - 1; k >= st.f0 && !s.cutBetween(int(s.r.facts[k].i1), int(s.r.facts[k+1].i0)); k-- {
		placed = placed || s.r.facts[k].kind == fPlace
	}
	for i := int(x.i1); i < st.i1 && i < int(x.i1)+3; i++ {
		it := s.r.at(i)
		if placed && s.r.at(i-1).is(cOn) {
			break
		}
		if it.is(cBoth) || it.is(cEach) || it.is(cAll) && it.kind == iPhrase {
			return true
		}
		if it.kind == iPunct {
			break
		}
	}
	for i := int(x.i0) - 1; i >= st.i0 && i > int(x.i0)-5; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch != ':' {
			break
		}
		if it.is(cEach) && it.ntok == 1 && s.r.punct(i-1, ',') { // "fern on the back, snail on the sleeve, each one color, rust"
			return true
		}
		if it.is(cAll) && (!it.is(cPure) || x.kind == fMethod && i == int(x.i0)-1) || it.is(cBoth) {
			return true
		}
	}
	return false
}

// allHere reports whether "on everything", "on all" or the like follows fact f at once.
func (s *scope) allHere(st sentence, f int) bool {
	i := int(s.r.facts[f].i1)
	if s.r.at(i).is(cOn) && s.r.at(i).kind == iPhrase {
		i++
	}
	it := s.r.at(i)
	return i < st.i1 && it.is(cAll) && it.kind == iPhrase && !it.is(cBoth) && !it.is(cEach)
}

// placeAhead reports whether fact f stands in a clause that names its place only after it: "1c white on the back".
func (s *scope) placeAhead(st sentence, f int) bool {
	r := s.r
	i, after := r.bracket(int(r.facts[f].i0), int(r.facts[f].i1))
	// a place earlier in the clause takes the fact, unless another place follows and only it is free
	for k := f - 1; k >= st.f0; k-- {
		x := &r.facts[k]
		if int(x.i0) >= i {
			continue // in the same brackets
		}
		if cut := s.cutBetween(int(x.i1), i); cut {
			break
		}
		if x.kind == fPlace && !x.neg && (!x.weak || s.placed) {
			// "front 2c red back 1c": a fact after a place is that place's
			return false
		}
		i = int(x.i0)
	}
	i = after
	for k := f + 1; k < st.f1; k++ {
		x := &r.facts[k]
		if int(x.i1) <= i {
			continue
		}
		if cut := s.cutBetween(i, int(x.i0)); cut {
			return false
		}
		if x.kind == fPlace && !x.neg {
			return !x.weak || s.weakPlace(st, k)
		}
		if x.kind == fGarment && !x.weak || x.kind == fNumber && x.sure >= 2 {
			return false
		}
		i = int(x.i1)
	}
	return false
}

// bracket is the stretch of the brackets around items i to j, where they hold nothing but a list of colours: "1c (royal) FB". It is i and j themselves
// elsewhere.
func (r *reader) bracket(i, j int) (int, int) {
	a, b := i-1, j
	for listed := r.at(a); listed.sense(sColour) != nil || listed.kind == iPunct && (listed.ch == ',' || listed.ch == '/' || listed.ch == '&' || listed.ch == '+') || listed.word == wAnd; listed = r.at(a) {
		a--
	}
	for listed := r.at(b); listed.sense(sColour) != nil || listed.kind == iPunct && (listed.ch == ',' || listed.ch == '/' || listed.ch == '&' || listed.ch == '+') || listed.word == wAnd; listed = r.at(b) {
		b++
	}
	if r.punct(a, '(') && r.punct(b, ')') {
		return a, b + 1
	}
	return i, j
}

// cutBetween reports whether a mark or "and" that parts clauses stands in items i to j. Within a list of colours it parts nothing.
func (s *scope) cutBetween(i, j int) bool {
	for ; i < j; i++ {
		it := s.r.at(i)
		switch {
		case it.kind == iPunct && (it.ch == ',' || it.ch == '(' || it.ch == ')' || it.ch == '|' || it.ch == '*' || it.ch == '+' || it.ch == ':' || it.ch == '-' && !it.glued):
			return true
		case it.kind == iPunct && it.ch == '/' && !it.glued:
			return true
		case it.word == wAnd || it.is(cAdd) && it.kind == iPhrase || it.word == wY:
			a, b := s.r.at(i-1), s.r.at(i+1)
			if a.sense(sColour) != nil && b.sense(sColour) != nil {
				continue
			}
			return true
		}
	}
	return false
}

// laterPlace reports whether the sentence names a place after fact f.
func (s *scope) laterPlace(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		x := &s.r.facts[k]
		if x.kind == fPlace && !x.neg && (!x.weak || s.weakPlace(st, k)) {
			return true
		}
		if x.kind == fGarment && !x.weak && !x.neg && x.sure == 0 && s.r.facts[k].kind == fGarment && k > f+1 && s.r.facts[k-1].kind == fNumber {
			return false
		}
	}
	return false
}

var wordHeart = vocab.intern("heart")

// weakPlace reports whether a word such as "pocket" or "side" in fact k is where something is printed.
func (s *scope) weakPlace(st sentence, k int) bool {
	r := s.r
	x := &r.facts[k]
	p, n := r.at(int(x.i0)-1), r.at(int(x.i1))
	if p.word == wA && r.at(int(x.i0)).word == wordHeart {
		return false // a heart is what is printed
	}
	if int(x.i0) == st.i0 && n.is(cAdd) && n.ntok == 1 && n.kind == iPhrase && n.word != wAnd { // "Hood too please"
		return true
	}
	if at := r.at(int(x.i0)); at.ntok > 1 && r.toks[at.tok].word == wThe && n.is(cWant) && n.kind == iPhrase && !n.is(cPrintWord) {
		return true // "the pocket gets a leaf"
	}
	if p.word == wThe || p.word == wEl || p.word == wA || p.word != 0 && vocab.names[p.word] == "la" {
		q := r.at(int(x.i0) - 2)
		if q.is(cOn) || q.is(cNo) || n.is(cWant) && n.kind == iPhrase && !n.is(cPrintWord) { // "the pocket gets a leaf"
			return true
		}
	}
	if p.word == wIn && (x.s == "neck" || x.s == "nape") || p.kind > iNum && x.s == "back" && !n.is(cOn) { // "in the neck", "behind the number"
		return true
	}
	if p.is(cTo) && k > st.f0 && r.facts[k-1].kind == fPlace { // "move it from the front to the pocket"
		return true
	}
	if w := r.at(int(x.i1) + 1).word; n.kind == iPunct && n.ch == '(' && w != 0 && (w == wordLeft || w == wordRight || r.at(int(x.i1)+1).is(cBoth)) { // "sleeve (left)"
		return true
	}
	if p.is(cOn) || p.is(cPrintWord) || n.is(cPrintWord) || n.word == wIs && k == st.f0 || n.kind == iPunct && (n.ch == ':' || n.ch == '-' && !n.glued || n.ch == '=') || p.sense(sColour) != nil || x.neg || p.is(cSame) {
		return true
	}
	if k > st.f0 && int(r.facts[k-1].i1) == int(x.i0) && (r.facts[k-1].kind == fInks || r.facts[k-1].kind == fColour || r.facts[k-1].kind == fDim || r.facts[k-1].kind == fEffect || r.facts[k-1].kind == fMethod) {
		return true
	}
	if k+1 < st.f1 && int(r.facts[k+1].i0) <= int(x.i1)+1 && (r.facts[k+1].kind == fInks || r.facts[k+1].kind == fDim || r.facts[k+1].kind == fMethod || r.facts[k+1].kind == fColour) {
		return true
	}
	return n.kind == iPunct && n.ch == ',' && (int(x.i0) == st.i0 || r.punct(int(x.i0)-1, ',')) && s.printFacts(st)
}
