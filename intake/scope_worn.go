package intake

import (
	"slices"

	"strikeoff/rules"
)

// isInk judges whether the colour in fact f is printed or worn.
func (s *scope) isInk(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if x.swatch {
		return true
	}
	if x.fix && s.lastCol >= 0 && r.corrective(s.lastCol, int(x.i0)) { // "red, no wait, maroon"
		return s.colInk
	}
	i, j := int(x.i0), int(x.i1)
	if c := r.at(j + 1).sense(sColour); r.at(j).is(cInsteadOf) && c != nil { // "white instead of gold": an ink where the gold is one
		if worn, printed := s.wearsColour(c.val), s.printsColour(c.val); worn != printed {
			return printed
		}
	}
	prev := r.at(i - 1)
	if n := r.at(j); prev.word == wIn && r.at(i-2).sense(sGarment) != nil && !r.at(i-2).sense(sGarment).weak && !s.hasColours() && (n.is(cFix) || n.is(cNo) || n.word == wAnd && !n.is(cColourWord) && r.at(j+1).word == wThe) { // "tees in black no sorry navy"
		return false
	}
	if !s.inPrint && s.countAfter(st, f) > 1 { // "room 14 gets blue 26"
		return false
	}
	if prev.word == wIn && !s.hasColours() && s.npLine < 0 && f > st.f0 && r.facts[f-1].kind == fGarment && int(r.facts[f-1].i1) == i-1 && r.at(int(r.facts[f-1].i0)-1).kind != iPunct && s.goodsBefore(f) { // "4 same polos in white LC black"
		return false
	}
	if (prev.word == wordGet || prev.word == wordGets) && len(s.seg) > 0 && s.hasColours() { // "royal ones get gold"
		return true
	}
	if prev.word == wIn && r.at(i-2).is(cPrintWord) && !r.at(i-2).is(cGarmentWord) && r.at(i-2).sense(sUse) == nil { // "our logo in gold"
		return true
	}
	// what follows at once decides best; a list is looked through to its end
	k := j
	for k < st.i1 {
		it := r.at(k)
		if it.kind == iPunct && (it.ch == '/' || it.ch == '&' || it.ch == '+' || it.ch == '-' && it.glued) || it.word == wAnd || it.word == wOr || it.is(cHeather) || it.sense(sColour) != nil {
			k++
			continue
		}
		break
	}
	next := r.at(k)
	if k > j && r.at(k-1).sense(sColour) == nil && !r.at(k-1).is(cHeather) {
		next = r.at(j)
		k = j
	}
	if g := next.sense(sGarment); g != nil && g.weak && f > st.f0 && r.facts[f-1].kind == fInks && int(r.facts[f-1].i1) == i && s.strongGarment() { // "1c white", and the crew on the next line
		return true
	}
	if next.sense(sGarment) != nil && (next.end-next.start > 2 || r.shortGarment(k)) {
		return false
	}
	if next.is(cWith) && next.word != wIn && next.kind == iPhrase && r.at(k+1).sense(sColour) != nil && (r.at(k+2).is(cInkWord) || r.at(k+2).is(cPrintWord)) && !prev.is(cInkWord) { // "should be black with white ink"
		return false
	}
	if next.kind == iPhrase || next.kind == iNum {
		switch {
		case next.sense(sFabric) != nil || next.sense(sFibre) != nil || next.is(cYouth) || next.is(cAdult) || next.is(cOnes) && next.kind != iNum:
			if !s.inPrint {
				return false
			}
		case next.is(cInkWord), next.sense(sMethod) != nil && r.at(k+1).sense(sGarment) == nil && s.hasColours():
			return true
		case next.is(cPrintWord) && next.sense(sUse) == nil:
			return true
		case next.sense(sEffect) != nil:
			return true
		case !s.hasColours() && next.sense(sPlace) != nil && s.named && !s.inPrint && (prev.sense(sFabric) != nil || prev.sense(sFibre) != nil || prev.is(cAll)): // "60 tees cotton maroon FF gold"
			return false
		case next.sense(sPlace) != nil && (!next.sense(sPlace).weak || next.ntok == 1):
			return s.hasColours() || prev.sense(sGarment) == nil && prev.kind != iNum && !prev.is(cPcs)
		case next.is(cOn) && r.placeSoon(k+1):
			return s.hasColours() || prev.sense(sGarment) == nil && prev.kind != iNum && !prev.is(cPcs)
		case r.inkCountAt(k):
			return s.hasColours() || prev.kind != iNum && prev.sense(sGarment) == nil && !prev.is(cPcs) && !r.punct(i-1, ',')
		}
	}
	if w := prev.word; w != 0 && (w == wIs || w == wordAre) && r.at(i-2).sense(sGarment) != nil { // "shirts are charcoal"
		return false
	}
	if x.weak && prev.kind == iPunct && prev.ch == ',' && r.at(i-2).kind == iWord && !r.at(i-2).upper && r.at(i-3).kind <= iPunct && (r.punct(i-3, ',') || r.at(i-3).word == wordSo) && next.kind == iPunct && next.ch == ',' && s.inPrint {
		return false // "flour, butter, the works"
	}
	if s.ofArtwork(i) {
		return true
	}
	if prev.is(cInkWord) || (prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=') && r.at(i-2).is(cInkWord)) {
		return true
	}
	if prev.sense(sGarment) != nil && (prev.end-prev.start > 2 || r.shortGarment(i-1)) {
		return false
	}
	if f > st.f0 {
		p := &r.facts[f-1]
		if p.kind == fHeather && f-1 > st.f0 && int(p.i1) == i { // "40 heather navy"
			p = &r.facts[f-2]
		}
		if p.kind == fNumber && p.sure >= 1 && (p.n > 1 || p.sure > 1) && int(p.i1) >= i-2 && !(s.inPrint && p.sure < 1) {
			return false
		}
		if p.kind == fInks && int(p.i1) >= i-2 {
			return true
		}
	}
	if r.punct(i-1, ',') && s.hasColours() && !s.inPrint { // "black, white 2.25\" front"
		if l := r.readLength(k); l.end > k && l.unit != 0 && next.kind == iNum {
			return true
		}
	}
	if s.inPrint && !s.hasColours() && s.r.punct(i-1, ',') && f > st.f0 && (r.facts[f-1].kind == fBlend || r.facts[f-1].kind == fFabric) && int(r.facts[f-1].i1) == i-1 { // "sublimated all over, 100% poly, white"
		return false
	}
	if s.lastCol >= 0 && s.listed(f) {
		return s.colInk
	}
	if s.inPrint && !s.hasColours() && s.finished(st, f) {
		return false
	}
	if s.inPrint {
		if s.garmentNear(st, f) && int(x.i1) < st.i1 && r.goods(i) == 2 {
			return false
		}
		return true
	}
	for q := i - 1; q >= st.i0 && q > i-6; q-- { // "the tees' ink should be dark brown"
		if it := r.at(q); it.is(cInkWord) {
			return true
		} else if it.kind == iPunct && it.ch != '\'' {
			break
		}
	}
	if n := r.at(j); prev.kind > iNum && n.kind > iNum && s.hasColours() && hasColour(s.lines[s.newest()].Colours, x.s) { // the garment's own colour, said again
		return false
	}
	// nothing printed was met yet in this sentence
	if !s.printFacts(st) {
		if x.fix {
			return s.fixesInk(st, f)
		}
		if s.hasColours() && len(s.sl) == 0 && len(s.last) > 0 && !s.garmentIn(st) {
			return len(s.unInked()) > 0 || !(prev.is(cColourWord) || prev.kind == iPunct && r.at(i-2).is(cColourWord))
		}
		return false
	}
	if s.samePhraseAhead(st, f) {
		return true
	}
	return s.hasColours() && s.npLine < 0 && !s.garmentIn2(st, f)
}

// goodsBefore reports whether a number counts the garment that stands just before the colour in fact f.
func (s *scope) goodsBefore(f int) bool {
	return f > 1 && s.r.facts[f-2].kind == fNumber && s.r.facts[f-2].sure >= 2 && !s.r.at(int(s.r.facts[f].i1)).is(cInkWord) && !s.r.at(int(s.r.facts[f].i1)).is(cPrintWord)
}

// ofArtwork reports whether the colour at item i is said of what a print shows: "the kiln is cream".
func (s *scope) ofArtwork(i int) bool {
	k := i - 1
	if w := s.r.at(k).word; w != 0 && w == wordNow {
		k--
	}
	if w := s.r.at(k).word; w == 0 || w != wIs && w != wordAre {
		return false
	}
	n := s.r.at(k - 1)
	return n.kind == iWord && !n.upper && determiners[s.r.at(k-2).word] && len(s.everyPrint()) > 0
}

// finished reports whether the colour in fact f stands in a clause of its own after a print that needs no ink: "glow print on the back, black, for".
func (s *scope) finished(st sentence, f int) bool {
	x := &s.r.facts[f]
	n := s.r.at(int(x.i1))
	if !s.r.punct(int(x.i0)-1, ',') || n.kind != iPunct && n.kind != iBreak && n.kind != iPart || len(s.sp) == 0 {
		return false
	}
	p := s.at(s.sp[0])
	return !p.InkCount.Known && len(p.Inks) == 0 && (p.FullColour || slices.Contains(p.Effects, rules.Glow) || slices.Contains(p.Effects, rules.Reflective))
}

// samePhraseAhead reports whether a print fact stands in the same clause after the colour, with no garment between.
func (s *scope) samePhraseAhead(st sentence, f int) bool {
	x := &s.r.facts[f]
	if s.r.at(int(x.i0)-1).kind == iNum {
		return false
	}
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		for i := int(s.r.facts[k-1].i1); i < int(y.i0); i++ {
			if it := s.r.at(i); it.is(cWith) && it.kind == iPhrase && it.word != wIn && !s.hasColours() { // "red w/ white print"
				return false
			}
			if it := s.r.at(i); it.kind == iPunct && (it.ch == ',' || it.ch == '-' || it.ch == ':' || it.ch == '(') {
				return false
			}
		}
		switch y.kind {
		case fGarment, fNumber, fFabric, fBlend, fSizes:
			return false
		case fPlace:
			if y.weak {
				continue
			}
			return !s.colourless() || s.r.at(int(x.i1)).kind != iPunct
		case fInks, fEffect, fDim:
			return !s.colourless()
		}
	}
	return false
}

// garmentIn reports whether the sentence names a garment.
func (s *scope) garmentIn(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fGarment && !x.dead {
			return true
		}
	}
	return false
}

// garmentIn2 reports whether a garment follows fact f in the sentence.
func (s *scope) garmentIn2(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		switch s.r.facts[k].kind {
		case fGarment:
			return true
		case fPlace, fInks, fDim:
			return false
		}
	}
	return false
}

// printFacts reports whether the sentence says anything about a print.
func (s *scope) printFacts(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		switch x := &s.r.facts[k]; x.kind {
		case fPlace:
			if !x.weak && !x.neg {
				return true
			}
		case fInks, fDim, fPair, fCover:
			return true
		case fFull:
			if !x.weak {
				return true
			}
		case fMethod, fEffect:
			if !x.neg {
				return true
			}
		}
	}
	for i := st.i0; i < st.i1; i++ {
		if it := s.r.at(i); it.is(cInkWord) || it.is(cPrintWord) && it.word != 0 && (it.word == wordPrint || vocab.names[it.word] == "logo") {
			return true
		}
	}
	return false
}

// fixesInk judges whether a replaced colour is an ink: the old value is named and is one, or only prints have colours.
func (s *scope) fixesInk(st sentence, f int) bool {
	if s.anyInk() && s.r.subjectUnknown(int(s.r.facts[f].i0)-1, st.i0) || s.lostInk {
		return true
	}
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if k != f && y.kind == fColour && (y.dead || y.neg) {
			if s.wearsColour(y.s) {
				return false
			}
			return s.printsColour(y.s)
		}
	}
	if c := s.r.facts[f].s; s.printsColour(c) && !s.wearsColour(c) {
		return true
	}
	if s.hasColours() {
		return false
	}
	return len(s.last) > 0 && s.alive() > 0 && s.lines[s.newest()].printed && s.anyInk()
}

// subjectUnknown reports whether what is said to be something at item i has a name that is no word of clothes: "the kiln is cream".
func (r *reader) subjectUnknown(i, first int) bool {
	is := false
	for ; i > first; i-- {
		it := r.at(i)
		if it.word == wIs || it.is(cFix) || it.word != 0 && vocab.names[it.word] == "are" {
			is = true
			continue
		}
		return is && it.kind == iWord && it.word == 0 && !it.upper && r.at(i-1).word == wThe
	}
	return false
}

func (s *scope) anyInk() bool {
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			if len(s.lines[k].Prints[q].Inks) > 0 {
				return true
			}
		}
	}
	return false
}

// placeSoon reports whether a place of a print begins at item i, small words aside.
func (r *reader) placeSoon(i int) bool {
	for r.at(i).word == wThe || r.at(i).word == wEl || r.at(i).word == wA || r.at(i).is(cBoth) || r.at(i).is(cOn) && r.at(i).sense(sPlace) == nil {
		i++
	}
	return r.at(i).sense(sPlace) != nil
}

// inkCountAt reports whether a number of inks begins at item i.
func (r *reader) inkCountAt(i int) bool {
	it := r.at(i)
	if it.kind != iNum || it.frac || it.num > 12 {
		return false
	}
	n := r.at(i + 1)
	if n.kind == iPunct && n.ch == '-' {
		n = r.at(i + 2)
	}
	return n.is(cColourWord) || n.word == wC
}

// corrective reports whether items i to j hold nothing but words that take back what was said before them.
func (r *reader) corrective(i, j int) bool {
	told := false
	for ; i < j; i++ {
		it := r.at(i)
		switch {
		case it.is(cFix) && it.kind == iPhrase, it.is(cNo) && it.kind == iPhrase, it.word == wordSorry && it.word != 0:
			told = true
		case it.kind == iPunct && it.ch != '(' && it.ch != ':' && it.ch != '|', it.word == wIn, it.word == wThe, it.is(cInterj), it.is(cHeather), it.word == wordI:
		default:
			return false
		}
	}
	return told
}
