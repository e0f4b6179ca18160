package intake

import (
	"slices"
	"strings"

	"strikeoff/rules"
)

// moves reports whether the place in fact f is where the print in focus goes to: "put the front print on the left chest instead". It is moved then.
func (s *scope) moves(st sentence, f int) bool {
	if f == st.f0 || len(s.all) == 0 || s.r.facts[f-1].kind != fPlace {
		return false
	}
	word := false
	for i := st.i0; i < st.i1; i++ {
		switch w := s.r.at(i).word; {
		case w == 0:
		case w == wordMove, w == wordInstead, w == wordBecomes, w == wordPut && s.amend:
			word = true
		case w == wAnd && i > int(s.r.facts[f-1].i1) && i < int(s.r.facts[f].i0):
			return false
		}
	}
	if !word {
		return false
	}
	p := s.placesOf(st, f)[0]
	for _, h := range s.all {
		if s.printOn(h.line, p) != nil {
			return false
		}
	}
	for _, h := range s.all {
		s.at(h).Place = p
		s.noted(f, h)
	}
	s.sp = append(s.sp[:0], s.all...)
	s.last = append(s.last[:0], s.all...)
	return true
}

// afterAnd reports whether "and" leads to the place in fact f.
func (s *scope) afterAnd(f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i > int(s.r.facts[f].i0)-4; i-- {
		if w := s.r.at(i).word; w != 0 && (w == wAnd || w == wY || w == wPlus) {
			return true
		}
	}
	return false
}

// aim makes the lines that a garment after the place names those that the print goes on: "full back gold on the hoodies only".
func (s *scope) aim(st sentence, f int) {
	if s.aimed(st, f) {
		return
	}
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		switch y.kind {
		case fPlace, fNumber, fSizes:
			return
		case fGarment:
		default:
			continue
		}
		i := int(y.i0) - 1
		for s.r.at(i).word == wThe || s.r.at(i).sense(sColour) != nil {
			i--
		}
		if !s.r.at(i).is(cOn) && !(s.amend && s.r.at(i).is(cTo)) || y.neg || y.dead || s.same || s.samePl {
			return
		}
		var hit []int
		for q := range s.lines {
			if !s.lines[q].drop && string(s.lines[q].Garment) == y.s && s.colourMatches(st, k, q) {
				hit = append(hit, q)
			}
		}
		if len(hit) == 0 {
			return
		}
		s.seg, s.wide = append(s.seg[:0], hit...), false
		for _, q := range hit {
			if !slices.Contains(s.sl, q) {
				s.sl = append(s.sl, q)
			}
		}
		s.cur = append(s.cur[:0], hit...)
		y.done = true
		return
	}
}

// aimed reports whether the place in fact f stands behind the garment that it is on, as the next one does: "on the aprons the front 20 cm, on the polos
// the left chest".
func (s *scope) aimed(st sentence, f int) bool {
	for k := f - 1; k >= st.f0; k-- {
		switch x := &s.r.facts[k]; x.kind {
		case fPlace, fNumber, fSizes:
			return false
		case fGarment:
			if x.done { // it was said of the place before it
				return false
			}
			i := int(x.i0) - 1
			for s.r.at(i).word == wThe || s.r.at(i).sense(sColour) != nil {
				i--
			}
			return s.r.at(i).is(cOn) || s.r.at(i).word == wFor
		}
	}
	return false
}

// movedFrom reports whether a correction names another place that the print leaves: "the back, not the front".
func (s *scope) movedFrom(st sentence, f int) bool {
	for i := st.i0; i < st.i1; i++ { // "right chest, not left"
		if it := s.r.at(i); it.is(cInsteadOf) && it.kind == iPhrase {
			switch n := s.r.at(i + 1); {
			case n.kind > iPhrase:
			case s.r.text[n.start:n.end] == "left", s.r.text[n.start:n.end] == "right":
				return true
			}
		}
	}
	for k := st.f0; k < st.f1; k++ {
		x := &s.r.facts[k]
		if k == f || x.kind != fPlace || !x.neg && !x.dead {
			continue
		}
		for q := range s.lines {
			for _, p := range s.lines[q].Prints {
				if string(p.Place) == x.s {
					return true
				}
			}
		}
	}
	return false
}

// relocates reports whether the place in fact f is where the order's only print goes after all, though the place that it leaves is not named: "put it
// on the left chest instead", "no sorry, on the back".
func (s *scope) relocates(st sentence, f int) bool {
	if at := s.r.at(int(s.r.facts[f].i0) - 1); len(s.sp) > 0 && at.is(cFix) && at.kind == iPhrase && at.word != wordNow && len(s.sp) == len(s.all) { // "left chest, no sorry right chest"
		return true
	}
	if s.newPrint || len(s.all) > 0 || !s.single() {
		return false
	}
	if s.insteadAt(int(s.r.facts[f].i1)) && s.standing() { // "45 hoodies, so the print has to go on the back instead"
		return true
	}
	if s.r.facts[f].fix && s.standing() && s.mirrored(s.placesOf(st, f)[0]) { // "they're saying 26 polos now and right chest"
		return true
	}
	if s.added || len(s.seg) > 0 {
		return false
	}
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && len(l.Prints) == 1 && l.Prints[0].Place == "" {
			return false
		}
	}
	told, sole := false, true
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if k != f && (y.kind == fPlace && !y.weak || y.kind == fColour && !s.printsColour(y.s) || y.kind == fInks || y.kind == fFull || y.kind == fGarment || y.kind == fNumber && y.sure > 0 && k < f) {
			sole = false
		}
	}
	for i := st.i0; i < st.i1; i++ {
		it := s.r.at(i)
		if it.is(cAdd) && it.kind == iPhrase {
			return false
		}
		told = told || it.is(cFix) && it.kind == iPhrase && it.word != wordNow || i == st.i0 && it.word == wordNo
	}
	return told && sole
}

// insteadAt reports whether "instead" stands at item i and closes its clause.
func (s *scope) insteadAt(i int) bool {
	return s.r.at(i).word == wordInstead && s.r.clauseEnds(i+1)
}

// mirrored reports whether the lines spoken of are printed on the other side of place p.
func (s *scope) mirrored(p rules.Place) bool {
	part, left := strings.CutPrefix(string(p), "left-")
	other := "right-" + part
	if !left {
		if part, left = strings.CutPrefix(string(p), "right-"); !left {
			return false
		}
		other = "left-" + part
	}
	for _, k := range s.seg {
		if string(s.lines[k].Prints[0].Place) != other {
			return false
		}
	}
	return true
}

// standing reports whether the sentence speaks of lines that were there before it, each with one print.
func (s *scope) standing() bool {
	for _, k := range s.seg {
		if l := &s.lines[k]; l.made == s.cl || len(l.Prints) != 1 {
			return false
		}
	}
	return len(s.seg) > 0
}

// slips are words with which a speaker corrects what was just said.
var slips = internAll("sorry", "wait", "meant", "mean", "oops", "actually", "correction", "hang", "whoops", "oh", "perdon", "digo")

// corrects reports whether the place in fact f mends a slip of the tongue: "left chest cream, no sorry right chest".
func (s *scope) corrects(st sentence, f int) bool {
	r := s.r
	told := false
	for k := st.f0; k < f; k++ {
		told = told || r.facts[k].kind == fPlace && !r.facts[k].dead && !r.facts[k].neg
	}
	if !told || len(s.last) == 0 {
		return false
	}
	i := int(r.facts[f].i0) - 1
	for r.at(i).word == wThe || r.at(i).word == wordI || r.at(i).kind == iPhrase && r.at(i).is(cOn) || r.punct(i, ',') || r.punct(i, '-') {
		i--
	}
	it := r.at(i)
	for t := it.tok; i > st.i0 && it.kind < iPunct && t < it.tok+it.ntok; t++ {
		if slips[r.toks[t].word] {
			return true
		}
	}
	return false
}

// joins reports whether the place in fact f is named in one breath with the place before it, so that what follows is said of both.
func (s *scope) joins(st sentence, f int) bool {
	if f == st.f0 || len(s.sp) == 0 {
		return false
	}
	p := &s.r.facts[f-1]
	if p.kind != fPlace || p.neg {
		return false
	}
	for i := int(p.i1); i < int(s.r.facts[f].i0); i++ {
		it := s.r.at(i)
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+' || it.ch == '/' || it.ch == ',') || it.word == wAnd || it.word == wY || it.word == wThe || it.word == wEl || it.is(cOn) || it.word == wordPrint && s.r.at(i-1).kind != iPunct {
			continue
		}
		return false
	}
	// what was given to the place before belongs to it alone
	return true
}

// flip moves the print in focus to the other side: "right chest 1c, hang on, they want that on the left".
func (s *scope) flip(st sentence, i int) {
	r := s.r
	if r.at(i-1).word != wThe || !r.at(i-2).is(cOn) && !r.at(i-2).is(cTo) || r.at(i+1).kind <= iNum && !r.at(i+1).is(cInsteadOf) {
		return
	}
	told := s.amend
	for k := st.i0; k < i && !told; k++ {
		told = r.at(k).is(cFix) && r.at(k).kind == iPhrase
	}
	for k := st.f0; k < st.f1; k++ { // "the right chest instead, they have a pocket on the left"
		if x := &r.facts[k]; x.kind == fPlace && x.fix && int(x.i1) < i {
			return
		}
	}
	if !told {
		return
	}
	side, other := "left-", "right-"
	if r.at(i).word == wordRight {
		side, other = other, side
	}
	hs := s.sp
	if len(hs) == 0 {
		hs = s.last
	}
	for _, h := range hs {
		p := s.at(h)
		if part, ok := strings.CutPrefix(string(p.Place), other); ok && s.printOn(h.line, rules.Place(side+part)) == nil {
			p.Place = rules.Place(side + part)
		}
	}
}

// unsay takes the prints of the sentence before back.
func (s *scope) unsay() {
	seg := s.seg
	for len(s.spoke) > 0 {
		h := s.spoke[0]
		s.seg = []int{h.line}
		n := len(s.spoke)
		s.unprint(s.at(h).Place, &fact{kind: fPlace, neg: true})
		if len(s.spoke) >= n {
			break
		}
	}
	s.seg = seg
}

// unprint takes the print at a place off the lines spoken of.
func (s *scope) unprint(p rules.Place, x *fact) {
	lines := s.seg
	if len(lines) == 0 && !s.amend { // the lines spoken of last, if they have such a print or nothing is taken back
		for _, k := range s.cur {
			for q := range s.lines[k].Prints {
				if s.lines[k].Prints[q].Place == p {
					lines = s.cur
				}
			}
		}
		if len(lines) == 0 && !x.fix && s.alive() > 1 {
			return
		}
	}
	if len(lines) == 0 {
		lines = lines[:0:0]
		for k := range s.lines {
			lines = append(lines, k)
		}
	}
	moving := x.dead || x.fix && s.replacedPlace(x)
	if moving {
		return
	}
	for _, k := range lines {
		l := &s.lines[k]
		for q := len(l.Prints) - 1; q >= 0; q-- {
			if l.Prints[q].Place != p {
				continue
			}
			l.Prints = slices.Delete(l.Prints, q, q+1)
			fix := func(hs []ref) []ref {
				out := hs[:0]
				for _, h := range hs {
					if h.line == k && h.print == q {
						continue
					}
					if h.line == k && h.print > q {
						h.print--
					}
					out = append(out, h)
				}
				return out
			}
			s.last, s.sp, s.all, s.spoke, s.led, s.flushed = fix(s.last), fix(s.sp), fix(s.all), fix(s.spoke), fix(s.led), fix(s.flushed)
		}
	}
}

// replacedPlace reports whether another place in the sentence of x takes its print over.
func (s *scope) replacedPlace(x *fact) bool {
	k := int(x.id)
	for q := k - 1; q >= 0 && q > k-4; q-- {
		y := &s.r.facts[q]
		if y.kind == fPlace && !y.neg && !y.dead && y.fix && int(x.i0)-int(y.i1) < 6 {
			return true
		}
	}
	return false
}
