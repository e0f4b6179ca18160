package intake

import (
	"fmt"
	"slices"

	"strikeoff/rules"
)

// garment takes in the name of a garment: a new line, or one spoken of again.
func (s *scope) garment(st sentence, f int) {
	x := &s.r.facts[f]
	g := rules.Garment(x.s)
	if s.bracketed(st, f) {
		return
	}
	if x.weak && s.strongGarment() && s.npLine < 0 && !s.againNamed(st, f, g) {
		return
	}
	if x.weak && s.strongGarment() && s.npLine >= 0 {
		if l := &s.lines[s.npLine]; l.Garment == "" { // "12 of the same shirts"
			l.Garment = s.npGarment
		}
		s.npLine = -1
		return
	}
	if x.neg || s.takesOver(st, f, g) {
		if x.neg && !s.successorGarment(st, f) {
			s.dropLines(g)
			s.reset = s.reset || s.amend && s.alive() == 1 && s.find(g) >= 0 && !s.ownCounts(st) // "forget the aprons, we want jackets"
		}
		return
	}
	if s.asGarment(x, g) || s.thatIs(st, f, g) || s.sortOf(st, f, g) || s.aside(st, f, g) {
		return
	}
	s.named = true
	if k := len(s.lines) - 1; s.npLine < 0 && k >= 0 && s.lines[k].sent == s.cl && finer[s.lines[k].Garment] == g && !s.parted(st, f) { // "40 tees black l/s"
		s.lines[k].Garment = g
		return
	}
	if k := s.npLine; k >= 0 {
		s.npLine = -1
		if s.lines[k].Garment == "" || s.lines[k].Garment == g || s.lines[k].noQty {
			s.lines[k].noQty = false
			s.lines[k].Garment = g
			s.lines[k].open = false
			return
		}
	}
	if k := s.freshLine(); k >= 0 {
		s.lines[k].Garment, s.lines[k].open = g, false
		return
	}
	if p := s.find(g); p >= 0 && !x.fix && f+1 < st.f1 && s.r.at(int(x.i0)-1).is(cSame) && s.r.at(int(x.i1)).word == wIn && s.r.facts[f+1].kind == fColour && int(s.r.facts[f+1].i0) <= int(x.i1)+2 &&
		len(s.lines[p].Colours) > 0 && !s.wearsColour(s.r.facts[f+1].s) { // "the same jerseys in white"
		l := line{Line: s.lines[p].Line, noQty: true}
		l.Quantity, l.Sizes, l.Colours, l.Heather, l.Prints = rules.Maybe[int]{}, nil, nil, false, nil
		l.Fibres = copyBlend(l.Fibres)
		s.seg, s.pend = s.seg[:0], pending{}
		s.newLine(l)
		s.inPrint = false
		return
	}
	found := false
	for k := range s.lines {
		if s.lines[k].drop || s.lines[k].Garment != g {
			continue
		}
		if !s.colourMatches(st, f, k) || s.another(st, f, k) {
			continue
		}
		if !found {
			s.settlePending(k)
		}
		s.speakOf(k)
		found = true
	}
	if found {
		return
	}
	if s.find(g) >= 0 && !s.colourClash(st, f, g) && !s.another(st, f, s.find(g)) {
		s.speakOf(s.find(g))
		return
	}
	if q := s.relative(g, s.r.items[x.i0].word, s.r.definite(int(x.i0)-1) || s.r.at(int(x.i0)-1).word == wordLas || s.r.at(int(x.i0)-1).is(cAs)); q >= 0 && s.find(g) < 0 && !x.fix && !s.added {
		if finer[s.lines[q].Garment] == g && s.replaces(st, f) { // "hoodies … not pullover, full zip"
			s.lines[q].Garment = g
		}
		s.speakOf(q)
		return
	}
	if x.fix && s.alive() == 1 && s.lines[s.newest()].Garment != "" && !s.added && s.replaces(st, f) {
		for i := st.i0; i < st.i1; i++ {
			if w := s.r.at(i).word; w == wordHalf || w == wordSome {
				s.r.oddity("some-of-them", linePath(0, 2), fmt.Sprintf("Only some of the pieces change to %s, and how many is not said. Nothing was changed. Type the numbers, for example: 20 t-shirts and 20 %s.", plural[g], plural[g]))
				return
			}
		}
		s.lines[s.newest()].Garment = g
		return
	}
	if k := s.newestOpen(); k >= 0 {
		for q := range s.lines {
			l := &s.lines[q]
			if q == k || !l.drop && l.Garment == "" && l.split {
				l.Garment = g
				l.open = false
				s.speakOf(q)
			}
		}
		return
	}
	l := line{noQty: s.listNumber(st.i0) == 0, definite: s.r.definite(int(x.i0) - 1)}
	l.Garment = g
	s.newLine(l)
}

// againNamed reports whether a loose name in fact f speaks of a line that stands: "hoodie and crew are 80/20".
func (s *scope) againNamed(st sentence, f int, g rules.Garment) bool {
	if s.find(g) < 0 || f == st.f0 {
		return false
	}
	x, p := &s.r.facts[f], &s.r.facts[f-1]
	return p.kind == fGarment && int(p.i1) == int(x.i0)-1 && (s.r.at(int(p.i1)).word == wAnd || s.r.punct(int(p.i1), '&') || s.r.punct(int(p.i1), '/') || s.r.punct(int(p.i1), '+'))
}

// thatIs takes a garment that says which sort the one before it is: "hats are beanies", "sweatshirts, sorry, hoodies".
func (s *scope) thatIs(st sentence, f int, g rules.Garment) bool {
	x := &s.r.facts[f]
	if f == st.f0 || len(s.lines) == 0 || s.r.facts[f-1].kind != fGarment || s.r.facts[f-1].neg || s.r.facts[f-1].dead {
		return false
	}
	old := &s.r.facts[f-1]
	is := x.fix && !old.fix
	for i := int(old.i1); i < int(x.i0); i++ {
		it := s.r.at(i)
		switch {
		case it.word == wIs, it.word != 0 && vocab.names[it.word] == "are", it.word == wOr && s.r.at(i+1).word != 0 && vocab.names[s.r.at(i+1).word] == "rather":
			is = true
		case it.word != 0 && vocab.names[it.word] == "its" || s.r.text[it.start:it.end] == "its" || s.r.text[it.start:it.end] == "it's":
			is = true
		case it.is(cPrintWord) && it.word != 0 && i == int(old.i1):
		case it.kind == iPunct && it.ch != '/' && it.ch != '&' && it.ch != '+' && it.ch != '|', it.is(cFix), it.word == wordSorry, it.word == wThe, it.is(cAll), it.word == wordNo:
		default:
			return false
		}
	}
	k := s.newest()
	if old.weak {
		return false
	}
	if !is || s.lines[k].Garment != rules.Garment(old.s) || s.lines[k].sent != s.cl {
		return false
	}
	s.lines[k].Garment = g
	s.named = true
	return true
}

// definite reports whether a word before item i, colours aside, says that what follows is known already: "the bibs", "our black jackets".
func (r *reader) definite(i int) bool {
	for r.at(i).sense(sColour) != nil {
		i--
	}
	w := r.at(i).word
	if w == 0 {
		return false
	}
	switch vocab.names[w] {
	case "the", "our", "their", "your", "his", "her", "its", "my", "those":
		return true
	}
	return false
}

// another reports whether the garment in fact f, though line k is one, begins a line of its own: it comes with a size run while the line has
// one, or in another colour than the line and with a count.
func (s *scope) another(st sentence, f, k int) bool {
	x := &s.r.facts[f]
	if x.fix {
		return false
	}
	l := &s.lines[k]
	if s.nextItem(st, f, l) {
		return true
	}
	colour := false
	for q := f + 1; q < st.f1; q++ {
		y := &s.r.facts[q]
		switch y.kind {
		case fNumber:
			if l.Quantity.Known && y.sure == 0 && s.bars(st) >= 2 {
				return true
			}
		case fSizes:
			return len(l.Sizes) > 0 && y.m > 1 && (colour || s.listMark(st.i0))
		case fColour:
			if !y.weak && !y.neg && len(l.Colours) > 0 && !hasColour(l.Colours, y.s) && int(y.i0) <= int(x.i1)+2 {
				colour = true
			}
		case fPlace, fGarment, fInks, fDim:
			return false
		}
	}
	return false
}

// nextItem reports whether the garment in fact f heads an item of a list, with a count and a colour that line l, of an item before it, has not.
func (s *scope) nextItem(st sentence, f int, l *line) bool {
	x := &s.r.facts[f]
	if l.made == s.cl || !l.Quantity.Known || len(l.Colours) == 0 || f > st.f0 || s.amend || !s.listMark(st.i0) && int(x.i0) != st.i0 {
		return false
	}
	counted, other := false, false
	for q := f + 1; q < st.f1; q++ {
		switch y := &s.r.facts[q]; y.kind {
		case fNumber:
			counted = counted || !y.fix && !y.dead && (y.sure >= 2 || s.r.punct(int(y.i0)-1, ',') && s.r.punct(int(y.i1), ','))
		case fColour:
			if y.neg || y.fix || hasColour(l.Colours, y.s) {
				return false
			}
			other = true
		case fPlace, fInks, fDim, fGarment:
			return counted && other
		}
		if counted && other {
			return true
		}
	}
	return counted && other
}

// kin are garments that people call by one another's name once an order names one of them.
var kin = [][]rules.Garment{{"hoodie", "zip-hoodie"}, {"sweatpants", "other"}, {"hoodie", "sweatshirt"}, {"t-shirt", "long-sleeve"}, {"t-shirt", "long-sleeve", "tank", "polo", "jersey"}, {"cap", "beanie"}}

// akin reports whether a heading such as "hoodies" can stand for lines of g.
func akin(a, g rules.Garment) bool {
	for _, set := range kin {
		if slices.Contains(set, a) && slices.Contains(set, g) {
			return true
		}
	}
	return false
}

// finer is what a garment is made by a word after it: tees, long sleeve.
var finer = map[rules.Garment]rules.Garment{"t-shirt": "long-sleeve", "other": "long-sleeve", "hoodie": "zip-hoodie"}

// parted reports whether a mark or a number stands between the garment in fact f and the garment before it.
func (s *scope) parted(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0; i-- {
		it := s.r.at(i)
		if it.kind == iPunct && it.ch != '-' && it.ch != '/' || it.kind == iNum || it.word == wAnd || it.is(cAdd) && it.kind == iPhrase || it.is(cSame) || it.is(cInsteadOf) || it.is(cOn) {
			return true
		}
		if it.sense(sGarment) != nil {
			return false
		}
	}
	return true
}

// relative is the line that a loose name of a garment ("pants", "hats", "hoodies") speaks of, which is known where "the" stands before it; -1 for none or several.
func (s *scope) relative(g rules.Garment, word int32, known bool) int {
	hit := -1
	sets := kin[:2]
	if known {
		sets = kin[:4]
	}
	for _, set := range sets {
		if !slices.Contains(set, g) || g == "other" && (word == 0 || vocab.names[word] != "pants") {
			continue
		}
		for k := range s.lines {
			if !s.lines[k].drop && s.lines[k].Garment != g && slices.Contains(set, s.lines[k].Garment) {
				if hit >= 0 {
					return -1
				}
				hit = k
			}
		}
	}
	return hit
}

// settlePending gives what was said of a print, before line k is spoken of, to the lines spoken of so far: "black tanks get white ink, white tanks
// get black ink".
func (s *scope) settlePending(k int) {
	if !s.pend.any || len(s.seg) == 0 || len(s.all) > 0 || slices.Contains(s.seg, k) {
		return
	}
	for _, q := range s.seg {
		l := &s.lines[q]
		if len(l.Prints) == 0 {
			l.Prints = append(l.Prints, copyPrints(rules.List[rules.Print]{s.pend.p})[0])
			l.printed = true
		} else if len(l.Prints) == 1 {
			s.merge(&l.Prints[0], &s.pend.p, true)
		} else {
			return
		}
		s.arrive(&s.pend, ref{q, 0})
		s.flushed = append(s.flushed, ref{q, 0})
	}
	s.pend = pending{}
	s.seg = s.seg[:0]
	s.inPrint = false
}

// replaces reports whether a garment without a number takes the place of the one that stands.
func (s *scope) replaces(st sentence, f int) bool {
	for k := st.f0; k < st.f1; k++ {
		if s.r.facts[k].kind == fNumber && s.r.facts[k].sure >= 2 {
			return false
		}
	}
	return true
}

// newestOpen is a line that still lacks a garment, -1 for none.
func (s *scope) newestOpen() int {
	for k := len(s.lines) - 1; k >= 0; k-- {
		l := &s.lines[k]
		if !l.drop && l.Garment == "" && (l.open || len(s.lines) == 1 || l.made == s.cl || l.Quantity.Known || len(l.Sizes) > 0) {
			return k
		}
	}
	return -1
}

// colourMatches reports whether line k is in the colour that stands just before the garment in fact f, if one does.
func (s *scope) colourMatches(st sentence, f, k int) bool {
	if f > st.f0 {
		if p := &s.r.facts[f-1]; p.kind == fColour && p.i1 == s.r.facts[f].i0 && len(s.lines[k].Colours) > 0 {
			return hasColour(s.lines[k].Colours, p.s) || p.fix && !s.wearsColour(p.s)
		}
	}
	return true
}

// colourClash reports whether the garment in fact f stands in a colour that no line of it has, and so is a new line.
func (s *scope) colourClash(st sentence, f int, g rules.Garment) bool {
	for k := range s.lines {
		if s.lines[k].Garment == g && s.colourMatches(st, f, k) {
			return false
		}
	}
	return true
}

// dropLines takes the lines of a garment off the order.
func (s *scope) dropLines(g rules.Garment) {
	for k := range s.lines {
		if s.lines[k].Garment == g && s.alive() > 1 {
			s.lines[k].drop = true
		}
	}
	s.cur = slices.DeleteFunc(s.cur, func(k int) bool { return s.lines[k].drop })
}

// asGarment takes "as the tees" as the line that something is the same as.
func (s *scope) asGarment(x *fact, g rules.Garment) bool {
	if !s.same && !s.samePl && !s.sameSize {
		return false
	}
	for k := int(x.i0) - 1; k > int(x.i0)-5; k-- {
		it := s.r.at(k)
		if it.is(cAs) || s.r.sameAs(it) && it.is(cSame) {
			s.as = append(s.as, s.linesOf(g)...)
			return true
		}
		if it.kind != iWord && it.kind != iPhrase {
			return false
		}
	}
	return false
}
