package intake

import (
	"fmt"
	"slices"

	"strikeoff/rules"
)

// colour takes in a colour: of the garment or of an ink.
func (s *scope) colour(st sentence, f int) {
	x := &s.r.facts[f]
	if s.onGarment(st, f) || s.lineByColour(st, f) {
		return
	}
	if x.neg {
		if !(x.dead && s.successor(st, f)) {
			s.dropColour(x)
		}
		return
	}
	ink := s.isInk(st, f)
	if ink {
		x.m = inkFact
		s.inkColour(st, f)
		s.lastCol, s.colInk = int(x.i1), true
		return
	}
	if x.weak && !s.colourPlace(st, f) {
		return
	}
	if n := s.countAfter(st, f); n > 0 { // "ice blue 30, black 24"
		y := &s.r.facts[f+1]
		y.sure = 1
		s.share(y)
		y.dead = true
		s.lastCol = -1
	}
	s.garmentColour(st, f)
	if s.hthr && s.colLine >= 0 {
		s.lines[s.colLine].Heather = true
	}
	s.hthr = false
	s.lastCol, s.colInk = int(x.i1), false
}

// countAfter is the number of pieces that follows the colour in fact f at once, where it counts that colour: 0 for none.
func (s *scope) countAfter(st sentence, f int) int {
	r := s.r
	if f+1 >= st.f1 || s.amend {
		return 0
	}
	x, y := &r.facts[f], &r.facts[f+1]
	if y.kind != fNumber || y.sure != 0 || y.weak || y.dead || y.neg || r.at(int(x.i0)-1).kind == iNum {
		return 0
	}
	for i := int(x.i1); i < int(y.i0); i++ {
		if it := r.at(i); !(it.kind == iPunct && (it.ch == ':' || it.ch == '-' || it.ch == '=' || it.ch == '(' || it.ch == '|') || it.word == wX) {
			return 0
		}
	}
	n := r.at(int(y.i1))
	if n.kind != iPunct && n.kind != iBreak && n.kind != iPart && n.word != wAnd && n.word != wY {
		return 0
	}
	return y.n
}

// successor reports whether another colour of the sentence takes the place of the one in fact f.
func (s *scope) successor(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		if y := &s.r.facts[k]; y.kind == fColour && y.fix && !y.neg && !y.dead {
			return true
		}
	}
	return false
}

// listed reports whether the colour in fact f goes on the list that the last colour stands in: "red, gold and white".
func (s *scope) listed(f int) bool {
	x := &s.r.facts[f]
	if s.lastCol < 0 {
		return false
	}
	for i := s.lastCol; i < int(x.i0); i++ {
		it := s.r.at(i)
		switch {
		case it.kind == iPunct && (it.ch == ',' || it.ch == '/' || it.ch == '&' || it.ch == '+' || it.ch == '-'):
		case it.word == wAnd, it.word == wOr, it.word == wY, it.is(cHeather), it.is(cColourWord), it.word == wA, it.word == wThe, it.word == wWith, it.word == vocabE:
		case it.kind == iWord && it.word != 0 && (vocab.names[it.word] == "some" || vocab.names[it.word] == "half" || vocab.names[it.word] == "mix"), it.word == wIn && s.r.at(i-1).word != 0:
		default:
			return false
		}
	}
	return true
}

var vocabE = vocab.intern("e")

// colourPlace reports whether a word such as "sand" stands where a colour can stand.
func (s *scope) colourPlace(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	p, n := r.at(int(x.i0)-1), r.at(int(x.i1))
	if r.punct(int(x.i0)-1, ':') || r.punct(int(x.i0)-1, '=') || r.punct(int(x.i0)-1, '-') {
		if r.at(int(x.i0)-2).is(cColourWord) || r.at(int(x.i0)-2).is(cInkWord) || r.lineStart(int(x.i0)-2) {
			return true
		}
	}
	if x.fix && (n.is(cInsteadOf) || n.is(cFix) || n.kind == iPunct || n.kind == iBreak || n.kind == iPart) {
		return true
	}
	if s.rowAhead(st, f) && r.lineStart(int(x.i0)) {
		return true
	}
	switch {
	case p.word == wIn, p.is(cColourWord), p.is(cInkWord), p.kind == iNum, p.sense(sColour) != nil, p.sense(sGarment) != nil, p.is(cHeather), p.is(cEach), p.is(cPcs), p.is(cStill):
		return true
	case p.word == wDe, p.word == wordEn:
		return true
	case n.is(cColourWord) && n.word != 0:
		return true
	case n.sense(sGarment) != nil, n.is(cInkWord), n.is(cHeather), n.is(cPrintWord), n.sense(sFabric) != nil, n.sense(sFibre) != nil, n.is(cInsteadOf) && (r.at(int(x.i1)+1).sense(sColour) != nil || x.fix), n.sense(sColour) != nil, n.sense(sPlace) != nil, n.is(cOnes):
		return true
	case n.kind == iNum && s.r.punct(int(x.i0)-1, ','):
		return true
	case s.listed(f):
		return true
	}
	if q := r.at(int(x.i0) - 2); p.kind == iWord && !p.upper && (q.kind == iPunct || q.kind == iBreak) && (n.kind == iPunct && n.ch != '-' && n.ch != '&' || n.kind == iBreak || n.kind == iPart) && !s.inPrint && !s.hasColours() && len(s.lines) > 0 { // "undyed natural."
		return true
	}
	// a clause of its own between commas, or a list
	edgeL := p.kind == iPunct && (p.ch == '|' || p.ch == ',' || p.ch == '/' || p.ch == '(' || p.ch == '&') || p.kind == iBreak || p.sense(sFabric) != nil || p.sense(sFibre) != nil || p.kind == iPart
	edgeR := n.kind == iPunct && (n.ch == '|' || n.ch == ':' || n.ch == ',' || n.ch == '/' || n.ch == '.' || n.ch == ')' || n.ch == '&' || n.ch == ';') || n.kind == iBreak || n.kind == iPart || n.word == wAnd || n.word == wOn
	return edgeL && edgeR && !(p.kind == iBreak && r.punct(int(x.i1), ',') && r.at(int(x.i1)+1).upper)
}

// isInk judges whether the colour in fact f is printed or worn.
func (s *scope) isInk(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if x.swatch {
		return true
	}
	i, j := int(x.i0), int(x.i1)
	prev := r.at(i - 1)
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
	if next.sense(sGarment) != nil && (next.end-next.start > 2 || r.shortGarment(k)) {
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
		case next.sense(sPlace) != nil && (!next.sense(sPlace).weak || next.ntok == 1):
			return s.hasColours() || prev.sense(sGarment) == nil && prev.kind != iNum && !prev.is(cPcs)
		case next.is(cOn) && r.placeSoon(k+1):
			return s.hasColours() || prev.sense(sGarment) == nil && prev.kind != iNum && !prev.is(cPcs)
		case r.inkCountAt(k):
			return s.hasColours() || prev.kind != iNum && prev.sense(sGarment) == nil && !prev.is(cPcs) && !r.punct(i-1, ',')
		}
	}
	if prev.is(cInkWord) || (prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=') && r.at(i-2).is(cInkWord)) {
		return true
	}
	if prev.sense(sGarment) != nil && (prev.end-prev.start > 2 || r.shortGarment(i-1)) {
		return false
	}
	if f > st.f0 {
		p := &r.facts[f-1]
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

// colourless reports whether the line spoken of has no colour yet.
func (s *scope) colourless() bool { return !s.hasColours() }

// hasColours reports whether the line spoken of has a colour.
func (s *scope) hasColours() bool {
	if len(s.lines) == 0 {
		return false
	}
	return len(s.lines[s.newest()].Colours) > 0
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
		case fInks, fDim, fPair, fFull, fCover:
			return true
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
	if c := s.r.facts[f].s; s.lostInk || s.printsColour(c) && !s.wearsColour(c) {
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
	if s.hasColours() {
		return false
	}
	return len(s.last) > 0 && s.alive() > 0 && s.lines[s.newest()].printed && s.anyInk()
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

func (s *scope) wearsColour(c string) bool {
	for k := range s.lines {
		if hasColour(s.lines[k].Colours, c) {
			return true
		}
	}
	return false
}

func (s *scope) printsColour(c string) bool {
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			if hasColour(s.lines[k].Prints[q].Inks, c) {
				return true
			}
		}
	}
	return hasColour(s.pend.p.Inks, c)
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

// onGarment reads "white on black, black on grey" and "orange on the black ones": the ink for the lines of a colour.
func (s *scope) onGarment(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if f+1 >= st.f1 || x.neg {
		return false
	}
	last := f
	for last+1 < st.f1 && r.facts[last+1].kind == fColour && r.slashed(int(r.facts[last].i1), int(r.facts[last+1].i0)) { // "gold/white on black"
		last++
	}
	if last+1 >= st.f1 {
		return false
	}
	y := &r.facts[last+1]
	if y.kind == fHeather && last+2 < st.f1 {
		y = &r.facts[last+2]
	}
	if y.kind != fColour {
		return false
	}
	on := false
	for i := int(r.facts[last].i1); i < int(y.i0); i++ {
		it := r.at(i)
		switch {
		case it.word == wOn || it.word == wFor || it.word == wordEn || it.word == wEl:
			on = true
		case it.word == wThe, it.is(cInkWord), it.is(cHeather), it.is(cPrintWord), it.is(cStill), it.is(cGone) && false:
		case it.is(cOnes):
		default:
			return false
		}
	}
	if !on || !s.wearsColour(y.s) {
		return false
	}
	var hit []ref
	for k := range s.lines {
		if s.lines[k].drop || !hasColour(s.lines[k].Colours, y.s) {
			continue
		}
		l := &s.lines[k]
		if len(l.Prints) == 0 {
			l.Prints = append(l.Prints, rules.Print{})
			l.printed = true
		}
		for q := range l.Prints {
			hit = append(hit, ref{k, q})
		}
	}
	if len(s.sp) > 0 {
		kept := hit[:0:0]
		for _, h := range hit {
			if slices.Contains(s.sp, h) {
				kept = append(kept, h)
			}
		}
		if len(kept) > 0 {
			hit = kept
		}
	}
	for _, h := range hit {
		p := s.at(h)
		if s.amend || x.fix {
			p.Inks, p.InkCount = nil, rules.Maybe[int]{}
		}
		for k := f; k <= last; k++ {
			r.facts[k].m = inkFact
			s.noted(k, h)
			if c := r.facts[k].s; !slices.Contains(p.Inks, c) {
				p.Inks = append(p.Inks, c)
			}
		}
	}
	for k := f + 1; k <= last; k++ {
		r.facts[k].done = true
	}
	y.done = true // it names no colour of its own
	return true
}

// slashed reports whether nothing but a stroke, "and" or the like stands in items i to j.
func (r *reader) slashed(i, j int) bool {
	n := 0
	for ; i < j; i++ {
		it := r.at(i)
		if !(it.kind == iPunct && (it.ch == '/' || it.ch == '&' || it.ch == '+') || it.word == wAnd || it.word == wY) {
			return false
		}
		n++
	}
	return n > 0
}

// lineByColour takes a colour as the name of the line that is in it: "sand should be 40", "blue ones to 30".
func (s *scope) lineByColour(st sentence, f int) bool {
	r := s.r
	x := &r.facts[f]
	if s.alive() < 2 || !s.wearsColour(x.s) || x.neg || x.dead || f+1 >= st.f1 {
		return false
	}
	y := &r.facts[f+1]
	if r.punct(int(x.i1), ':') && int(x.i0) == st.i0 && !s.rowAhead(st, f) && y.kind != fNumber { // "moss: cream ink"
		if k := s.lineOfColour(x.s); k >= 0 {
			s.seg = s.seg[:0]
			s.speakOf(k)
			return true
		}
	}
	if y.kind != fNumber && y.kind != fSizes && !r.at(int(x.i1)).is(cOnes) || y.kind == fNumber && y.sure >= 2 || y.kind == fSizes && !(s.amend || x.fix || y.fix) {
		return false
	}
	if r.at(int(x.i0)-1).kind == iNum || !r.at(int(x.i1)).is(cOnes) && int(y.i0) > int(x.i1)+3 {
		return false
	}
	if int(y.i0) == int(x.i1) && !s.amend {
		return false
	}
	if k := s.lineOfColour(x.s); k >= 0 {
		s.seg = s.seg[:0]
		s.speakOf(k)
		y.fix = true
		return true
	}
	return false
}

// dropColour takes a colour back that was denied: "ash not white".
func (s *scope) dropColour(x *fact) {
	for k := range s.lines {
		l := &s.lines[k]
		l.Colours = slices.DeleteFunc(l.Colours, func(c string) bool { return c == x.s && len(l.Colours) > 1 })
		if s.amend || x.dead || x.fix {
			for q := range l.Prints {
				p := &l.Prints[q]
				n := len(p.Inks)
				if n > 0 && slices.Contains(p.Inks, x.s) && (n > 1 || !x.dead) && !slices.Contains(l.Colours, x.s) {
					p.Inks = slices.DeleteFunc(p.Inks, func(c string) bool { return c == x.s })
					s.lostInk = true
					if p.InkCount.Known && p.InkCount.Value == n {
						p.InkCount = rules.Maybe[int]{}
						if n > 1 {
							p.InkCount = rules.Said(n - 1)
						}
					}
				}
			}
		}
	}
}

// garmentColour gives a colour to the line spoken of.
func (s *scope) garmentColour(st sentence, f int) {
	x := &s.r.facts[f]
	if !(s.listed(f) && s.colLine >= 0) {
		s.freshLine()
	}
	k := s.newest()
	l := &s.lines[k]
	if s.listed(f) && s.colLine >= 0 && !s.colInk {
		if s.each > 0 {
			if len(s.lines[s.colLine].Colours) > 0 {
				k = s.clone(s.colLine, s.each)
				s.lines[k].Colours = append(s.lines[k].Colours, x.s)
				s.colLine = k
				return
			}
		}
		for _, k := range s.colTargets() {
			if l := &s.lines[k]; !slices.Contains(l.Colours, x.s) {
				l.Colours = append(l.Colours, x.s)
			}
		}
		return
	}
	// a colour at the head of a table row
	if f+1 < st.f1 && s.rowAhead(st, f) && (len(l.Colours) > 0 || len(l.Sizes) > 0) {
		if q := s.lineOfColour(x.s); q >= 0 && len(s.lines[q].Sizes) == 0 {
			s.speakOf(q)
			s.colLine = q
			return
		}
		if !hasColour(l.Colours, x.s) {
			k = s.clone(k, 0)
			l = &s.lines[k]
		}
	}
	if x.fix && len(l.Colours) > 0 {
		targets := []int{k}
		if old := s.replaced(st, f); old != "" {
			targets = targets[:0]
			for q := range s.lines {
				if hasColour(s.lines[q].Colours, old) {
					targets = append(targets, q)
				}
			}
		} else if s.alive() > 1 && !s.named && len(s.sl) == 0 {
			targets = targets[:0]
			for q := range s.lines {
				if !s.lines[q].drop && s.lines[q].Colours[:min(1, len(s.lines[q].Colours))] != nil {
					targets = append(targets, q)
				}
			}
		} else if len(s.sl) > 0 {
			targets = append(targets[:0], s.seg...)
		}
		old := s.replaced(st, f)
		for _, q := range targets {
			l := &s.lines[q]
			if old != "" && len(l.Colours) > 1 {
				for z := range l.Colours {
					if l.Colours[z] == old {
						l.Colours[z] = x.s
					}
				}
				continue
			}
			l.Colours = append(l.Colours[:0:0], x.s)
			if !s.heatherNear(f) {
				l.Heather = false
			}
		}
		s.colLine = k
		return
	}
	if len(l.Colours) > 0 {
		if !hasColour(l.Colours, x.s) && !x.weak && (s.named || s.colourSaid(int(x.i0))) && s.alive() == 1 && !s.amend {
			s.r.oddity("colours-contradict", linePath(0, 5), fmt.Sprintf("The message says %s and then %s for the same garment. %s was taken. Type which it is, for example: make it %s.", l.Colours[0], x.s, l.Colours[0], x.s))
		}
		return
	}
	l.open = false
	targets := s.shareTargets(st, f, k)
	for _, q := range targets {
		if q < len(s.lines) && len(s.lines[q].Colours) == 0 {
			s.lines[q].Colours = append(s.lines[q].Colours, x.s)
		}
	}
	s.colLine = k
}

// colourSaid reports whether "colour" stands just before item i.
func (s *scope) colourSaid(i int) bool {
	for k := i - 1; k > i-4 && k >= 0; k-- {
		if s.r.at(k).is(cColourWord) {
			return true
		}
	}
	return false
}

// heatherNear reports whether a word for heather stands by the colour in fact f.
func (s *scope) heatherNear(f int) bool {
	x := &s.r.facts[f]
	return s.r.at(int(x.i0)-1).is(cHeather) || s.r.at(int(x.i1)).is(cHeather)
}

// colTargets are the lines that the last colour went to.
func (s *scope) colTargets() []int {
	var out []int
	have := s.lines[s.colLine].Colours
	for _, k := range s.cur {
		if k == s.colLine || s.lines[k].sent == s.cl && slices.Equal(s.lines[k].Colours, have) && s.lines[k].made == s.lines[s.colLine].made {
			out = append(out, k)
		}
	}
	if len(out) == 0 {
		out = append(out, s.colLine)
	}
	return out
}

// shareTargets are the lines that a colour goes to: the newest, or every bare line named with it where the colour stands apart.
func (s *scope) shareTargets(st sentence, f, k int) []int {
	if s.wide || s.alone(f) && !s.clauseGarment(st, f) && s.npLine < 0 {
		out := []int{k}
		from := s.cur
		if s.wide && len(s.sl) == 0 {
			from = from[:0:0]
			for q := range s.lines {
				from = append(from, q)
			}
		}
		for _, q := range from {
			if q != k && len(s.lines[q].Colours) == 0 && !s.lines[q].drop {
				out = append(out, q)
			}
		}
		return out
	}
	return []int{k}
}

// alone reports whether the colour in fact f stands in a clause of its own.
func (s *scope) alone(f int) bool {
	x := &s.r.facts[f]
	p := s.r.at(int(x.i0) - 1)
	return p.kind == iPunct && p.ch == ',' || p.is(cAll) || p.kind == iBreak
}

// rowAhead reports whether a size run follows the colour in fact f at once.
func (s *scope) rowAhead(st sentence, f int) bool {
	for k := f + 1; k < st.f1; k++ {
		switch s.r.facts[k].kind {
		case fSizes:
			return true
		case fHeather:
			continue
		}
		return false
	}
	return false
}

func (s *scope) lineOfColour(c string) int {
	for k := range s.lines {
		if !s.lines[k].drop && hasColour(s.lines[k].Colours, c) {
			return k
		}
	}
	return -1
}

// replaced is the colour that the one in fact f takes the place of, where the sentence names it.
func (s *scope) replaced(st sentence, f int) string {
	for k := st.f0; k < st.f1; k++ {
		if y := &s.r.facts[k]; k != f && y.kind == fColour && (y.dead || y.neg) && s.wearsColour(y.s) {
			return y.s
		}
	}
	return ""
}

// at is the print that a reference means.
func (s *scope) at(h ref) *rules.Print { return &s.lines[h.line].Prints[h.print] }

// inkColour gives an ink to the prints in focus, or keeps it for the place to come.
func (s *scope) inkColour(st sentence, f int) {
	x := &s.r.facts[f]
	more := s.listed(f) && s.colInk
	s.touch(x)
	give := func(p *rules.Print, fresh bool) {
		if s.copied && !more && len(p.Inks) > 0 { // "same print in black"
			if p.InkCount.Known && p.InkCount.Value == len(p.Inks) {
				p.InkCount = rules.Maybe[int]{}
			}
			p.Inks, s.copied = nil, false
		}
		if x.fix && !more && len(p.Inks) > 0 {
			if old := s.replacedInk(st, f, p); old >= 0 && len(p.Inks) > 1 {
				p.Inks[old] = x.s
				return
			}
			if p.InkCount.Known && p.InkCount.Value == len(p.Inks) && !fresh {
				p.InkCount = rules.Maybe[int]{}
			}
			p.Inks = append(p.Inks[:0:0], x.s)
			return
		}
		if !slices.Contains(p.Inks, x.s) {
			p.Inks = append(p.Inks, x.s)
		}
	}
	if x.fix && s.added {
		x.fix = false
		if h := s.focus(st, f); h != nil && s.amend {
			for _, h := range h {
				give(s.at(h), false)
				s.noted(f, h)
			}
			return
		}
	}
	switch targets := s.focus(st, f); {
	case x.fix && s.oldInk(st, f) != nil:
		for _, h := range s.oldInk(st, f) {
			give(s.at(h), false)
			s.noted(f, h)
		}
	case targets == nil && len(s.all) == 0 && s.inkAlone(st, f):
		give(&s.common.p, false)
		s.common.wait(f)
		s.common.any = true
	case targets == nil && s.wideHere(st, f) && len(s.all) == 0:
		give(&s.common.p, false)
		s.common.wait(f)
		s.common.any = true
	case targets == nil:
		give(&s.pend.p, false)
		s.pend.wait(f)
		s.pend.any, s.pend.ink = true, true
	default:
		if len(s.all) == 0 && len(s.seg) == 0 && !x.fix && s.coloursAre(st, f) {
			if open := s.unInked(); len(open) > 0 {
				targets = open
				s.sp = append(s.sp[:0], open...)
			}
		}
		for _, h := range targets {
			p := s.at(h)
			if len(p.Inks) > 0 && !more && !x.fix && !slices.Contains(s.all, h) && len(p.Inks) >= p.InkCount.Or(len(p.Inks)) {
				continue // said in another sentence: it was read already
			}
			give(p, false)
			s.noted(f, h)
		}
	}
}

// inkAlone reports whether an ink stands in a clause of its own, named as ink, before the places of its sentence: "white ink, left chest and back".
func (s *scope) inkAlone(st sentence, f int) bool {
	x := &s.r.facts[f]
	i, j := int(x.i0), int(x.i1)
	return (i == st.i0 || s.r.at(i-1).kind == iPunct) && s.r.at(j).is(cInkWord) && (s.r.punct(j+1, ',') || s.r.punct(j+1, ':')) && s.laterPlace(st, f)
}

// coloursAre reports whether the sentence begins by speaking of colours or inks at large: "colours are black and orange".
func (s *scope) coloursAre(st sentence, f int) bool {
	for i := st.i0; i < int(s.r.facts[f].i0) && i < st.i0+5; i++ {
		if it := s.r.at(i); it.is(cColourWord) || it.is(cInkWord) {
			return true
		}
	}
	return false
}

// unInked are the prints that no ink was named for.
func (s *scope) unInked() []ref {
	var out []ref
	for _, h := range s.everyPrint() {
		if p := s.at(h); len(p.Inks) == 0 && !p.FullColour {
			out = append(out, h)
		}
	}
	return out
}

// oldInk are the prints that have the ink which the colour in fact f replaces, where the sentence names it and no place.
func (s *scope) oldInk(st sentence, f int) []ref {
	if len(s.all) > 0 || s.laterPlace(st, f) || s.pend.any && false {
		return nil
	}
	for k := st.f0; k < st.f1; k++ {
		y := &s.r.facts[k]
		if k == f || y.kind != fColour || !y.dead && !y.neg {
			continue
		}
		var out []ref
		for q := range s.lines {
			if s.lines[q].drop || len(s.seg) > 0 && !slices.Contains(s.seg, q) {
				continue
			}
			for z := range s.lines[q].Prints {
				if slices.Contains(s.lines[q].Prints[z].Inks, y.s) {
					out = append(out, ref{q, z})
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

func (s *scope) replacedInk(st sentence, f int, p *rules.Print) int {
	for k := st.f0; k < st.f1; k++ {
		if y := &s.r.facts[k]; k != f && y.kind == fColour && (y.dead || y.neg) {
			return slices.Index(p.Inks, y.s)
		}
	}
	return -1
}

// touch notes that the sentence speaks of prints.
func (s *scope) touch(x *fact) {
	s.inPrint = true
	s.attrAt = int(x.i1)
}

// focus are the prints that a fact about a print belongs to; nil where they are still to come.
func (s *scope) focus(st sentence, f int) []ref {
	x := &s.r.facts[f]
	if s.wide && len(s.all) > 1 && s.wideHere(st, f) {
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
	if s.wideHere(st, f) && len(s.spoke) > 1 && len(s.seg) == 0 {
		return s.spoke
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

// pickPrints chooses among several prints of a line those that lack what x says; nil where it cannot be told.
func (s *scope) pickPrints(h []ref, x *fact) []ref { return nil }

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
		if it.is(cAll) && !it.is(cPure) || it.is(cBoth) {
			return true
		}
	}
	return false
}

// placeAhead reports whether fact f stands in a clause that names its place only after it: "1c white on the back".
func (s *scope) placeAhead(st sentence, f int) bool {
	r := s.r
	i := int(r.facts[f].i0)
	// a place earlier in the clause takes the fact, unless another place follows and only it is free
	for k := f - 1; k >= st.f0; k-- {
		x := &r.facts[k]
		if cut := s.cutBetween(int(x.i1), i); cut {
			break
		}
		if x.kind == fPlace && !x.neg && (!x.weak || s.placed) {
			// "front 2c red back 1c": a fact after a place is that place's
			return false
		}
		i = int(x.i0)
	}
	i = int(r.facts[f].i1)
	for k := f + 1; k < st.f1; k++ {
		x := &r.facts[k]
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

// weakPlace reports whether a word such as "pocket" or "side" in fact k is where something is printed.
func (s *scope) weakPlace(st sentence, k int) bool {
	r := s.r
	x := &r.facts[k]
	p, n := r.at(int(x.i0)-1), r.at(int(x.i1))
	if p.word == wThe || p.word == wEl || p.word == wA || p.word != 0 && vocab.names[p.word] == "la" {
		q := r.at(int(x.i0) - 2)
		if q.is(cOn) || q.is(cNo) {
			return true
		}
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

// attribute gives a fact about a print to the prints it belongs to.
func (s *scope) attribute(st sentence, f int) {
	x := &s.r.facts[f]
	if x.neg {
		s.deny(x)
		return
	}
	if x.kind == fFull && x.weak && !s.printFacts(st) && !s.r.at(int(x.i1)).is(cPrintWord) {
		return
	}
	if hs := s.spokenOf(st, f); hs != nil {
		for _, h := range hs {
			apply(s.at(h), x, false)
			s.noted(f, h)
		}
		return
	}
	if x.kind == fMethod && s.methodSaid && !x.fix && len(s.sp) > 0 && s.onlyMethodsBack(st, f) {
		return // "sublimate if you can, otherwise transfer": the first is asked for
	}
	if x.kind == fMethod && s.methodForAll(st, f) {
		s.methodSaid = true
		s.methodWide(st, x)
		s.touch(x)
		return
	}
	targets := s.focus(st, f)
	s.touch(x)
	if targets == nil && s.wideHere(st, f) && len(s.all) == 0 && s.laterPlace(st, f) {
		apply(&s.common.p, x, false)
		s.common.wait(f)
		s.common.any = true
		return
	}
	if targets == nil {
		apply(&s.pend.p, x, false)
		s.pend.wait(f)
		s.pend.any, s.pend.sub = true, true
		return
	}
	for _, h := range targets {
		apply(s.at(h), x, slices.Contains(s.all, h))
		s.noted(f, h)
	}
}

// apply sets one fact of a print; one that stands is replaced only by a correction, or where both were said in one breath.
func apply(p *rules.Print, x *fact, here bool) {
	switch x.kind {
	case fDim:
		if x.fix && x.a > 0 && x.b > 0 {
			p.WidthMM, p.HeightMM = rules.Said(x.a), rules.Said(x.b)
			return
		}
		if x.a > 0 && (!p.WidthMM.Known || x.fix) {
			p.WidthMM = rules.Said(x.a)
		}
		if x.b > 0 && (!p.HeightMM.Known || x.fix) {
			p.HeightMM = rules.Said(x.b)
		}
	case fInks:
		if !p.InkCount.Known || x.fix {
			p.InkCount = rules.Said(x.n)
			if x.fix && len(p.Inks) > x.n && !here {
				p.Inks = nil
			}
		}
	case fFull:
		p.FullColour = true
	case fCover:
		if !p.Coverage.Known || x.fix {
			p.Coverage = rules.Said(x.a)
		}
	case fMethod:
		m := rules.Method(x.s)
		if p.Method == "" || x.fix || p.Method == rules.Screen {
			if !(m == rules.Screen && p.Method != "" && !x.fix) {
				p.Method = m
			}
		}
	case fEffect:
		e := rules.Effect(x.s)
		if x.fix && len(p.Effects) > 0 {
			p.Effects = append(p.Effects[:0:0], e)
			return
		}
		if !slices.Contains(p.Effects, e) {
			p.Effects = append(p.Effects, e)
		}
	}
}

// deny takes back a method, an effect or full colour.
func (s *scope) deny(x *fact) {
	clear := func(p *rules.Print) {
		switch x.kind {
		case fMethod:
			if string(p.Method) == x.s {
				p.Method = ""
			}
		case fEffect:
			p.Effects = slices.DeleteFunc(p.Effects, func(e rules.Effect) bool { return string(e) == x.s })
		case fFull:
			if x.fix {
				p.FullColour = false
			}
		}
	}
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			clear(&s.lines[k].Prints[q])
		}
		if x.kind == fMethod && string(s.lines[k].method) == x.s {
			s.lines[k].method = ""
		}
	}
	clear(&s.pend.p)
	if x.kind == fMethod && string(s.method) == x.s {
		s.method = ""
	}
}

// methodForAll reports whether the method in fact f is said of every print: it stands in a sentence, or at its end in a clause, of its own.
func (s *scope) methodForAll(st sentence, f int) bool {
	if s.wide && s.wideHere(st, f) {
		return true
	}
	for k := st.f0; k < st.f1; k++ {
		x := &s.r.facts[k]
		switch x.kind {
		case fPlace:
			if !x.neg && (!x.weak || s.weakPlace(st, k)) {
				// last clause, nothing else in it, several prints before
				if k > f && f == st.f0 && !s.inPrint && s.ownClause(st, f) && !s.r.punct(int(s.r.facts[f].i1), ':') && !s.garmentIn(st) {
					return true
				}
				if k < f && s.onlyMethods(st, f) && len(s.all) > 1 && len(s.sp) < len(s.all) && s.cutBetween(int(s.r.facts[f-1].i1), int(s.r.facts[f].i0)) {
					return true
				}
				if k < f && f == st.f1-1 && len(s.all) > 1 && len(s.sp) < len(s.all) && s.cutBetween(int(s.r.facts[f-1].i1), int(s.r.facts[f].i0)) && s.ownClause(st, f) {
					return true
				}
				return false
			}
		}
	}
	// no place in the sentence: all prints, unless it speaks of one print by other facts
	for k := st.f0; k < st.f1; k++ {
		switch s.r.facts[k].kind {
		case fDim, fInks:
			return len(s.last) == 0 && len(s.seg) == 0
		}
	}
	return true
}

// onlyMethodsBack reports whether the fact before f is a way to print as well.
func (s *scope) onlyMethodsBack(st sentence, f int) bool {
	return f > st.f0 && s.r.facts[f-1].kind == fMethod
}

// onlyMethods reports whether nothing but ways to print is named from fact f on.
func (s *scope) onlyMethods(st sentence, f int) bool {
	for k := f; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind != fMethod && x.kind != fWish && x.kind != fUse {
			return false
		}
	}
	return f < st.f1-1
}

func (s *scope) ownClause(st sentence, f int) bool {
	x := &s.r.facts[f]
	n := s.r.at(int(x.i1))
	return n.kind == iBreak || n.kind == iPart || n.kind == iPunct || int(x.i1) >= st.i1
}

// methodWide gives a method to the lines the sentence speaks of, else to the whole order.
func (s *scope) methodWide(st sentence, x *fact) {
	m := rules.Method(x.s)
	over := func(have rules.Method) bool {
		return have == "" || x.fix || have == rules.Screen && m != rules.Screen
	}
	if s.wide && s.wideHere(st, int(x.id)) || len(s.seg) == 0 || s.alive() <= 1 {
		if over(s.method) {
			s.method = m
		}
		if x.fix {
			for k := range s.lines {
				s.lines[k].method = ""
				for q := range s.lines[k].Prints {
					s.lines[k].Prints[q].Method = ""
				}
			}
		}
		return
	}
	for _, k := range s.seg {
		l := &s.lines[k]
		if over(l.method) {
			l.method = m
		}
		if x.fix {
			for q := range l.Prints {
				l.Prints[q].Method = ""
			}
		}
	}
}
