package intake

// closedOff denies the goods of a row that ends in a word of cancelling: "24 quarter zips, navy - CANCELLED".
func (r *reader) closedOff(s sentence) {
	i := s.i1 - 1
	for i > s.i0 && r.at(i).kind == iPunct {
		i--
	}
	if it := r.at(i); !it.is(cGone) || it.kind != iPhrase {
		return
	}
	if p := r.at(i - 1); p.kind != iPunct || p.ch == ',' || p.ch == '\'' {
		return
	}
	for k := s.f0; k < s.f1; k++ {
		if x := &r.facts[k]; x.kind == fGarment && !x.weak {
			for q := s.f0; q < s.f1; q++ {
				r.facts[q].dead, r.facts[q].neg = true, false
			}
			return
		}
	}
}

// nothing reports whether the word of denial at item i closes what stands before it: "nape = nothing", "back: none".
func (r *reader) nothing(i int) bool {
	p, n := r.at(i-1), r.at(i+1)
	if p.sense(sPlace) != nil && !p.sense(sPlace).weak && r.at(i).word != wordNo && r.at(i).word != wordNot && r.at(i).ntok == 1 && r.at(i).is(cNothing) {
		return true
	}
	if (r.at(i).is(cNothing) || r.at(i).ntok > 1 && anyWords[r.toks[r.at(i).tok+r.at(i).ntok-1].word]) && n.kind > iNum && r.placeInClause(i) { // "on the pocket we don't want anything" // "on the front there should be nothing"
		return true
	}
	return (p.kind == iPunct && (p.ch == '=' || p.ch == ':' || p.ch == '-' || p.ch == '?') || p.word == wIs) && (n.kind == iBreak || n.kind == iPart || n.kind == iPunct && (n.ch == '.' || n.ch == ',' || n.ch == ';' || n.ch == ')' || n.ch == '/'))
}

// moreDenied reports whether a denial goes on at item i: "no front, back or sleeve".
func (r *reader) moreDenied(i int) bool {
	it := r.at(i)
	return it.sense(sPlace) != nil && (r.at(i+1).word == wOr || r.at(i+1).is(cPrintWord))
}

// punctDead reports whether the comma at item i ends a remark on the past: what follows is said of now.
func (r *reader) punctDead(i int) bool {
	for k := i + 1; k < i+4; k++ {
		if r.at(k).is(cFix) || r.at(k).is(cBut) || r.at(k).is(cWant) && !r.at(k).is(cPrintWord) {
			return true
		}
	}
	return false
}

// lastOf is the fact of the same sort as x that stands before it in the sentence, -1 for none.
func (r *reader) lastOf(s sentence, f int, x *fact) int {
	for k := f - 1; k >= s.f0; k-- {
		p := &r.facts[k]
		if p.kind == x.kind && !p.dead && !p.neg {
			return k
		}
		if x.kind == fNumber && p.kind == fSizes && p.m == 1 { // "10 XL not 8"
			return k
		}
	}
	return -1
}

// goneBefore denies what the words before item i name: "the back print is cancelled", "LC dropped".
func (r *reader) goneBefore(s sentence, f, i int) {
	for k := f - 1; k >= s.f0 && int(r.facts[k].i1) > i-12; k-- {
		x := &r.facts[k]
		for q := int(x.i1); q < i; q++ {
			if it := r.at(q); it.kind == iPunct && (it.ch == ',' || it.ch == '-' && !it.glued && q < i-1) && !r.pointsBack(q+1, i) && !(bareWords[r.at(i).word] && r.leftSo(i)) {
				return
			}
		}
		if x.kind == fGarment && k > s.f0 && r.facts[k-1].kind == fEffect && r.at(int(r.facts[k-1].i1)).is(cOn) && int(x.i0) <= int(r.facts[k-1].i1)+2 { // "they asked about gel on the towels, then dropped it"
			continue
		}
		if x.kind == fGarment && k+1 < f && r.facts[k+1].dead && int(r.facts[k+1].i0) < i { // "the tees were going to be grey, ignore that"
			return
		}
		if x.kind == fGarment && k > s.f0 && r.facts[k-1].kind == fPlace && r.facts[k-1].i1 >= x.i0-2 && r.at(int(r.facts[k-1].i1)).word == wOf { // "back of the cap stays empty"
			continue
		}
		switch x.kind {
		case fWish: // "soft doesn't matter after all"
			if x.i1 == int32(i) {
				x.neg = true
			}
		case fPlace, fGarment, fEffect, fMethod, fFull, fDate:
			if x.kind == fGarment && r.pastSince(int(x.i1), i) {
				return // "the tees were going to be grey, ignore that"
			}
			if x.kind == fGarment && k > s.f0 && r.facts[k-1].kind != fNumber && r.facts[k-1].kind != fColour && r.at(int(x.i0)-1).word == wThe && r.at(int(x.i0)-2).is(cOn) {
				continue // "they asked about gel on the towels, then dropped it"
			}
			x.neg = true
			if x.kind == fPlace {
				r.with(s, k)
			}
			if x.kind != fMethod {
				return
			}
		}
	}
}

// givenUp reports whether the colour in fact f was spoken of before in the sentence as one that was only thought of: "we thought about grey but on
// grey you see everything".
func (r *reader) givenUp(s sentence, f int, x *fact) bool {
	for k := s.f0; k < f; k++ {
		if y := &r.facts[k]; y.kind == fColour && y.s == x.s && y.dead && !y.neg {
			return r.at(int(x.i0)-1).is(cOn) || r.at(int(x.i0)-1).is(cBut)
		}
	}
	return r.whyNot(s, f, x)
}

// whyNot reports whether the colour in fact f only says why another came in its place: "navy... no, natural, the photo disappears on navy".
func (r *reader) whyNot(s sentence, f int, x *fact) bool {
	if p := r.at(int(x.i0) - 2); !r.at(int(x.i0)-1).is(cOn) || p.kind > iPhrase || p.sense(sColour) != nil {
		return false
	}
	said, replaced := false, false
	for k := max(s.f0-1, 0); k < f; k++ { // three points part sentences
		switch y := &r.facts[k]; {
		case y.kind == fColour && y.s == x.s && !y.neg:
			said, replaced = true, false
		case y.kind == fColour && said && y.fix && !y.dead:
			replaced = true
		case y.kind == fPlace || y.kind == fGarment || y.kind == fNumber:
			said = said && !replaced
		}
	}
	return said && replaced
}

// thought reports whether the colour in fact f opens its sentence in the place of a garment's colour that the one before broke off with: "red... no,
// maroon, the logo vanishes on red".
func (s *scope) thought(st sentence, f int) bool {
	x := &s.r.facts[f]
	if !x.fix || f == 0 || f != st.f0 || !s.r.punct(int(x.i1), ',') && !s.r.punct(int(x.i1), '.') {
		return false
	}
	p := &s.r.facts[f-1]
	for i := int(p.i1); i < int(x.i0); i++ {
		if it := s.r.at(i); it.kind != iPunct && !it.is(cFix) && !it.is(cNo) && !it.is(cInterj) && it.word != wordSorry {
			return false
		}
	}
	return p.kind == fColour && p.m != inkFact && s.wearsColour(p.s)
}

// anyWords end a denial of whatever there might be.
var anyWords = internAll("anything", "nothing", "any", "print", "printing")
