package intake

import "strikeoff/rules"

// number takes in a number that may count pieces.
func (s *scope) number(st sentence, f int) {
	x := &s.r.facts[f]
	r := s.r
	if x.neg || x.dead {
		return
	}
	if s.amend && s.moreOf(st, f) || x.weak && x.sure == 3 && (s.sureQty || s.strong) || x.sure == 1 && x.n < 2 && s.took == 0 && !r.joined(int(x.i0)) {
		return
	}
	if s.inksNow(st, f) || s.apportion(st, f) {
		return
	}
	if x.sure == 0 && !x.fix && r.at(int(x.i1)).word == wordNow && s.alive() == 1 && len(s.seg) == 0 { // "they want 72 now"
		x.fix = true
	}
	if r.at(int(x.i1)).is(cEach) {
		s.each = x.n
		if x.sure < 2 && s.eachColour(st, f) {
			return
		}
		if x.sure == 0 && s.colourAhead(st, f) { // "20 each: coral, mint", "25 in each color maroon and grey"
			s.share(x)
			return
		}
	}
	if r.at(int(x.i0)).word == wX { // "tees x 40 black, tanks white x 20"
		g := f - 1
		for g >= st.f0 && (r.facts[g].kind == fColour || r.facts[g].kind == fHeather) && r.facts[g].i1 == r.facts[g+1].i0 {
			g--
		}
		if g >= st.f0 && r.facts[g].kind == fGarment && r.facts[g].i1 == r.facts[g+1].i0 && len(s.lines) > 0 {
			if k := s.newest(); !s.lines[k].Quantity.Known && string(s.lines[k].Garment) == r.facts[g].s {
				s.lines[k].Quantity, s.lines[k].counted, s.lines[k].noQty = rules.Said(x.n), x.id+1, false
				return
			}
		}
	}
	switch {
	case x.sure >= 2:
		g := s.garmentAhead(st, f)
		if x.n == 1 && g == "" && !s.counted() && s.strong && r.at(int(x.i0)).spelled && r.at(int(x.i1)).sense(sGarment) != nil { // "each one shirt, so 9 jerseys"
			return
		}
		if x.sure == 3 && g == "" && s.colourAhead(st, f) {
			s.share(x)
			return
		}
		if x.sure == 3 && g == "" {
			if s.kindsOf(f) {
				return
			}
			s.pieces(x)
			return
		}
		if g == "" && len(s.lines) > 0 && r.at(int(x.i1)).word != 0 && s.onesAhead(int(x.i1)) { // "6 adult ones"
			g = string(s.lines[s.newest()].Garment)
		}
		s.openLine(x, rules.Garment(g))
		if k := s.npLine; k >= 0 && s.lines[k].Garment == "" && s.onesAhead(int(x.i1)) {
			s.lines[k].Garment, s.npLine = rules.Garment(g), -1
			s.sameBlend(st)
		}
	case x.sure == 1 && s.amend && !s.added && s.parts == 1 && f+1 < st.f1 && r.facts[f+1].kind == fColour && s.lineOfColour(r.facts[f+1].s) >= 0: // "40 of the red"
		k := s.lineOfColour(r.facts[f+1].s)
		r.facts[f+1].done = true
		s.setQuantity(k, x)
		s.speakOf(k)
	case x.sure == 1:
		s.share(x)
	default:
		if x.weak {
			return
		}
		k := s.newest()
		l := &s.lines[k]
		alone := s.bare(x) || s.stays(st, f) || s.forWhomCount(st, f)
		switch {
		case s.comesTo(st, f):
			s.setQuantity(k, x)
		case x.fix && alone2(r, x) && (s.alive() == 1 || len(s.seg) == 1 || len(s.cur) == 1 && !s.amend || s.alive() == 0):
			if x.n > 0 && (!l.idle() || alone && x.n > 3 || s.qtyBefore(st, x)) {
				s.setQuantity(k, x)
				s.speakOf(k)
			}
		case alone && !l.Quantity.Known && len(l.Sizes) == 0 && (l.Garment != "" || l.idle() && f+1 < st.f1 && r.facts[f+1].kind == fGarment && int(r.facts[f+1].i0) == int(x.i1)+1 && r.punct(int(x.i1), ',')): // "16, tees, aqua"
			l.Quantity, l.counted = rules.Said(x.n), x.id+1
			l.open = false
		}
	}
}

// moreOf reads "20 more of the black" and "12 more hoodies" of an order that stands: the line that it names grows.
func (s *scope) moreOf(st sentence, f int) bool {
	x := &s.r.facts[f]
	switch w := s.r.at(int(x.i0) + 1).word; w {
	case 0:
		return false
	case wMore, wordExtra:
	case wordLess, wordFewer:
		x.n = -x.n
	default:
		return false
	}
	hit := -1
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		if y.kind == fColour && int(y.i0) > int(x.i1)+3 {
			break
		}
		if y.kind == fColour {
			q := s.lineOfColour(y.s)
			if q < 0 {
				hit = -1
				break
			}
			hit, y.done = q, true
		} else if y.kind == fGarment && hit < 0 {
			hit = s.find(rules.Garment(y.s))
		} else if y.kind != fGarment {
			break
		}
	}
	if hit < 0 && (f+1 >= st.f1 || int(s.r.facts[f+1].i0) > int(x.i1)+3) && s.alive() == 1 {
		hit = s.newest()
	}
	if hit < 0 && x.n > 0 && f+1 < st.f1 && s.r.facts[f+1].kind == fColour && !s.wearsColour(s.r.facts[f+1].s) { // "two dozen more, in black"
		s.added = true
	}
	if hit < 0 || !s.lines[hit].Quantity.Known || s.lines[hit].Quantity.Value+x.n <= 0 {
		x.n = max(x.n, -x.n)
		return false
	}
	sum := *x
	sum.n += s.lines[hit].Quantity.Value
	s.setQuantity(hit, &sum)
	s.seg = s.seg[:0]
	s.speakOf(hit)
	return true
}

// qtyBefore reports whether a word for quantity stands before a number in its sentence: "qty goes from 72 to 96".
func (s *scope) qtyBefore(st sentence, x *fact) bool {
	for i := st.i0; i < int(x.i0); i++ {
		if it := s.r.at(i); it.is(cQty) && it.kind == iPhrase {
			return true
		}
	}
	return false
}

// onesAhead reports whether "ones" stands for the garment within the next few items.
func (s *scope) onesAhead(i int) bool {
	for k := i; k < i+4; k++ {
		it := s.r.at(k)
		if it.word == wordOnes || s.r.oneAt(k) && k > i {
			return true
		}
		if it.kind != iPhrase && it.kind != iWord {
			return false
		}
	}
	return false
}

// eachColour splits the line spoken of into one a colour, where "25 each" is said of colours named before.
func (s *scope) eachColour(st sentence, f int) bool {
	x := &s.r.facts[f]
	if len(s.lines) == 0 || s.colourAhead(st, f) || f+1 < st.f1 && s.r.facts[f+1].kind == fColour {
		return false
	}
	k := s.newest()
	cs := s.lines[k].Colours
	if len(cs) < 2 || s.lines[k].Quantity.Or(x.n*len(cs)) != x.n*len(cs) {
		return false
	}
	s.lines[k].Quantity, s.lines[k].counted, s.lines[k].Colours = rules.Said(x.n), x.id+1, rules.List[string]{cs[0]}
	for _, c := range cs[1:] {
		q := s.clone(k, x.n)
		s.lines[q].Colours, s.lines[q].counted = rules.List[string]{c}, x.id+1
	}
	return true
}

// inksNow takes the bare number in fact f for the inks of a print that had another number of them: "it was going to be 3 colours, now it's 2".
func (s *scope) inksNow(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.sure > 0 || !x.fix || x.n > 12 {
		return false
	}
	for k := f - 1; k >= st.f0; k-- {
		switch y := &s.r.facts[k]; y.kind {
		case fInks:
			if y.dead {
				x.kind, x.weak = fInks, false
				s.attribute(st, f)
			}
			return y.dead
		case fNumber, fSizes, fGarment, fDate, fDim:
			return false
		}
	}
	return false
}

// stays reports whether the number in fact f is what the garment before it stays at: "tanks stay 40", "the tees stay at 50".
func (s *scope) stays(st sentence, f int) bool {
	x := &s.r.facts[f]
	i := int(x.i0) - 1
	if w := s.r.wordAt(i); w == "at" || w == "on" {
		i--
	}
	switch s.r.wordAt(i) {
	case "stay", "stays", "remain", "remains", "stand", "stands", "still", "are", "is":
		return f > st.f0 && s.r.facts[f-1].kind == fGarment && int(s.r.facts[f-1].i1) == i && s.r.clauseEnds(int(x.i1))
	}
	return false
}

// forWhomCount reports whether the number in fact f closes a clause that names a garment and whom it is for: "hoodies for the coaches 5, gold".
func (s *scope) forWhomCount(st sentence, f int) bool {
	x := &s.r.facts[f]
	if !s.r.clauseEnds(int(x.i1)) {
		return false
	}
	whom := false
	for i := int(x.i0) - 1; i > int(x.i0)-6 && i >= st.i0; i-- {
		it := s.r.at(i)
		if it.sense(sGarment) != nil {
			return whom
		}
		if it.kind > iPhrase || it.sense(sPlace) != nil || it.is(cPrintWord) {
			return false
		}
		whom = it.word == wFor && it.word != 0
	}
	return false
}

// bare reports whether a number stands alone between marks.
func (s *scope) bare(x *fact) bool {
	p, n := s.r.at(int(x.i0)-1), s.r.at(int(x.i1))
	before := p.sense(sGarment) != nil || p.kind == iPunct && p.ch != '$' && (p.ch != '/' || n.kind == iPunct && n.ch == '/' && !n.glued && !s.r.at(int(x.i0)).glued) || p.kind == iBreak || p.kind == iPart || p.word == wordSo || p.is(cOrderVerb) || p.is(cQty)
	after := n.is(cSame) && n.kind == iPhrase || n.kind == iPunct && (n.ch != '/' || p.kind == iPunct && p.ch == '/' && !n.glued) && n.ch != '%' || n.kind == iBreak || n.kind == iPart || n.is(cOrderVerb) && n.kind == iPhrase && n.is(cSuits) || // "22 please"
		n.word == wMore && s.r.clauseEnds(int(x.i1)+1) // "same jacket in black, 20 more"
	return before && after
}

// alone2 reports whether nothing after a number says that it counts something other than pieces.
func alone2(r *reader, x *fact) bool {
	n := r.at(int(x.i1))
	return n.kind == iPunct && n.ch != '/' && n.ch != '%' && n.ch != '$' || n.kind == iBreak || n.kind == iPart || n.is(cNo) || n.is(cInsteadOf) || n.is(cFix) || n.is(cAll) || n.is(cOnly) ||
		n.word == wAnd || n.word == wIs || n.is(cOrderVerb) || n.is(cPast) || n.is(cBut) || n.is(cMovedFrom) || n.is(cAdd) || n.kind == iWord && n.word != 0 && vocab.names[n.word] == "then" || n.word == wThen
}

// colourAhead reports whether a colour follows fact f at once, with nothing but small words between.
func (s *scope) colourAhead(st sentence, f int) bool {
	x := &s.r.facts[f]
	for k := f + 1; k < st.f1; k++ {
		y := &s.r.facts[k]
		switch y.kind {
		case fColour:
			if y.i0-x.i1 > 4 || y.swatch {
				return false
			}
			for q := int(x.i1); q < int(y.i0); q++ {
				if it := s.r.at(q); it.kind == iPunct && !(it.ch == ':' && s.r.at(q-1).is(cEach)) && !(it.ch == '.' && it.glued && q == int(x.i1)) && !(it.ch == '(' && s.r.punct(q+2, ')')) || it.is(cInkWord) || it.is(cPrintWord) {
					return false
				}
			}
			n := s.r.at(int(y.i1))
			return !n.is(cPrintWord) && !n.is(cInkWord) && n.sense(sPlace) == nil
		case fHeather, fUse:
			continue
		}
		return false
	}
	return false
}

// pieces takes in a labelled number of pieces with no garment or colour after it.
func (s *scope) pieces(x *fact) {
	s.freshLine()
	k := s.newest()
	l := &s.lines[k]
	if l.Quantity.Known && !x.fix {
		if l.Quantity.Value == x.n || l.split {
			return
		}
		if len(l.Sizes) > 0 && l.Sizes.Total() == x.n {
			return
		}
		return
	}
	if l.Quantity.Known {
		s.setQuantity(k, x)
		return
	}
	l.Quantity, l.counted = rules.Said(x.n), x.id+1
	l.open = false
	s.speakOf(k)
}

// setQuantity replaces a line's quantity; a size run that no longer adds up is let go.
func (s *scope) setQuantity(k int, x *fact) {
	l, n := &s.lines[k], x.n
	l.Quantity, l.counted = rules.Said(n), x.id+1
	if len(l.Sizes) > 0 && l.Sizes.Total() != n {
		l.Sizes = nil
	}
}

// openLine begins the line that a number of garments says, or finds the line that it speaks of again.
func (s *scope) openLine(x *fact, g rules.Garment) {
	s.npGarment = g
	if k := s.freshLine(); k >= 0 {
		s.lines[k].Quantity, s.lines[k].open, s.lines[k].counted = rules.Said(x.n), false, x.id+1
		s.npLine = k
		return
	}
	if x.fix && (!s.added || s.r.at(int(x.i0)-1).word == wordSo || s.totalAhead(x)) {
		if k := s.find(g); k >= 0 && (s.alive() == 1 || g != "") && !s.same {
			s.setQuantity(k, x)
			s.speakOf(k)
			s.npLine = k
			return
		}
		if k := s.newest(); s.alive() == 1 && !s.same && s.lines[k].made != s.cl && s.lines[k].Garment != g && akin(s.lines[k].Garment, g) { // "40 hoodies … hang on: 45, zipped"
			s.lines[k].Garment = g
			s.setQuantity(k, x)
			s.speakOf(k)
			s.npLine = k
			return
		}
		if s.alive() == 1 && g == "" {
			k := s.newest()
			s.setQuantity(k, x)
			s.speakOf(k)
			return
		}
	}
	for k := range s.lines {
		l := &s.lines[k]
		if l.drop || l.Quantity.Known || len(l.Sizes) > 0 && !(l.Garment == "" && l.Sizes.Total() == x.n) || l.printed && !l.open && s.cl != l.made && l.Garment != g {
			continue
		}
		if l.Garment == g || l.Garment == "" && (l.open || len(s.lines) == 1) || l.noQty && akin(l.Garment, g) {
			if l.Garment == g && l.printed && len(l.Colours) > 0 && s.cl != l.made && s.distinctFrom(x, k) {
				continue
			}
			l.Quantity, l.open, l.counted = rules.Said(x.n), false, x.id+1
			if l.made == s.cl && l.Garment == g { // "caps and aprons: 20 caps"
				s.seg = s.seg[:0]
			}
			s.speakOf(k)
			s.npLine = k
			return
		}
	}
	for k := range s.lines { // said again: "apron each, so 26 aprons"
		l := &s.lines[k]
		if !l.drop && l.Quantity.Known && l.Quantity.Value == x.n && (l.Garment == g || l.Garment == "") && s.alive() == 1 && s.label == 0 && !s.distinct(x) {
			s.speakOf(k)
			s.npLine = k
			return
		}
	}
	if s.reset {
		for k := range s.lines {
			s.lines[k].drop = true
		}
		s.cur, s.seg, s.sl, s.last, s.reset = s.cur[:0], s.seg[:0], s.sl[:0], s.last[:0], false
	}
	if n := len(s.seg); n > 0 && s.pend.ink && !s.lines[s.seg[n-1]].drop { // "35 tees in cream with brown ink, 35 tees in brown with cream ink"
		s.flush(s.seg[n-1])
	}
	l := line{}
	l.Quantity, l.counted = rules.Said(x.n), x.id+1
	s.npLine = s.newLine(l)
}
