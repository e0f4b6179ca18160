package intake

import (
	"slices"
	"strings"

	"strikeoff/rules"
)

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
	stays := y.kind == fWish && last+2 < st.f1 && r.at(int(y.i0)).ntok > 1 && r.toks[r.at(int(y.i0)).tok+r.at(int(y.i0)).ntok-1].word == wOn // "gold stays on black"
	if (y.kind == fHeather || stays) && last+2 < st.f1 {
		y = &r.facts[last+2]
	}
	if y.kind != fColour {
		return false
	}
	on := false
	for i := int(r.facts[last].i1); i < int(y.i0); i++ {
		it := r.at(i)
		switch {
		case it.word == wOn || it.word == wFor || it.word == wordEn || it.word == wEl || stays && it.sense(sWish) != nil:
			on = true
		case it.word == wThe, it.is(cInkWord), it.is(cHeather), it.is(cPrintWord), it.is(cStill):
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
	if stays {
		r.facts[last+1].done = true
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
	if p := &r.facts[max(f, 1)-1]; f > st.f0 && p.kind == fGarment && int(p.i1) >= int(x.i0)-1 && s.lines[s.newest()].made == s.cl && !s.hasColours() { // "caps (navy): 48, beanies (navy): 36"
		return false
	}
	y := &r.facts[f+1]
	if many := r.text[r.at(int(x.i0)).end-1] == 's' && x.s[len(x.s)-1] != 's' && x.i1 == x.i0+1; (many || r.at(int(x.i0)-1).word == wThe && r.at(int(x.i0)-2).word == wOn && r.at(int(x.i1)).sense(sGarment) == nil && !r.at(int(x.i1)).is(cInkWord)) && (int(x.i0) <= st.i0+2 || r.punct(int(x.i0)-1, ',') || r.punct(int(x.i0)-3, ',')) { // "whites stay blank", "on the white it is printed in blue"
		if k := s.lineOfColour(x.s); k >= 0 {
			s.seg, s.sp = s.seg[:0], s.sp[:0]
			s.speakOf(k)
			return true
		}
	}
	if r.punct(int(x.i1), ':') && int(x.i0) == st.i0 && !s.rowAhead(st, f) && y.kind != fNumber { // "moss: cream ink"
		if k := s.lineOfColour(x.s); k >= 0 {
			s.seg = s.seg[:0]
			s.speakOf(k)
			return true
		}
	}
	if int(x.i0) == st.i0+1 && r.at(st.i0).word == wThe && alsoWords[r.lastWord(int(x.i1))] { // "the orange also say MARSHAL on the back"
		s.seg, s.sp = s.seg[:0], s.sp[:0]
		for _, k := range s.wearing(x.s) {
			s.speakOf(k)
		}
		return true
	}
	if s.leadsPrint(st, f) {
		hit := s.wearing(x.s)
		for _, k := range hit {
			s.settlePending(k)
		}
		if !s.pend.any {
			s.seg = s.seg[:0]
			for _, k := range hit {
				s.speakOf(k)
			}
			return true
		}
	}
	if hit := s.wearing(x.s); y.kind == fSizes && y.m > 1 && int(y.i0) <= int(x.i1)+1 && len(hit) == 1 && len(s.lines[hit[0]].Sizes) == 0 && s.lines[hit[0]].made != s.cl { // "black S 12 M 12, red M 18 L 18"
		s.seg = s.seg[:0]
		s.speakOf(hit[0])
		return true
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

// alsoWords follow goods that more is said of.
var alsoWords = internAll("also", "additionally", "just", "only", "have", "has", "say", "says", "carry", "additional", "too")

// leadsPrint reports whether a garment's colour in fact f leads to what is printed on it: "kelly gets white ink", "on the white it is printed in blue".
func (s *scope) leadsPrint(st sentence, f int) bool {
	r := s.r
	x, y := &r.facts[f], &r.facts[f+1]
	p, n := r.at(int(x.i0)-1), r.at(int(x.i1))
	if n.is(cWant) && n.kind == iPhrase && !n.is(cPrintWord) && (p.kind > iNum || p.word == wThe || p.word == wAnd || p.is(cBut)) && int(y.i0) <= int(x.i1)+3 {
		return y.kind == fColour || y.kind == fInks || y.kind == fEffect
	}
	if p.word != wThe || !r.at(int(x.i0)-2).is(cOn) || n.sense(sGarment) != nil || n.is(cOnes) || n.kind == iPunct || n.sense(sColour) != nil {
		return false
	}
	for k := f + 1; k < st.f1; k++ {
		switch z := &r.facts[k]; z.kind {
		case fColour:
			return !z.neg && !z.dead && (r.at(int(z.i0)-1).word == wIn || r.at(int(z.i0)-1).word == wIs || r.at(int(z.i1)).is(cInkWord))
		case fGarment, fNumber, fPlace:
			return false
		}
	}
	return false
}

// wearing are the lines in the colour c, by its full name where one has it.
func (s *scope) wearing(c string) []int {
	var full, part []int
	for k := range s.lines {
		if s.lines[k].drop {
			continue
		}
		if slices.Contains(s.lines[k].Colours, c) {
			full = append(full, k)
		} else if hasColour(s.lines[k].Colours, c) {
			part = append(part, k)
		}
	}
	if len(full) > 0 {
		return full
	}
	return part
}

// dropColour takes a colour back that was denied: "ash not white".
func (s *scope) dropColour(x *fact) {
	for k := range s.lines {
		if s.same && len(s.sl) > 0 && !slices.Contains(s.sl, k) { // "25 tees, same print but navy instead of gold": the first line keeps its gold
			continue
		}
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

// at is the print that a reference means.
func (s *scope) at(h ref) *rules.Print { return &s.lines[h.line].Prints[h.print] }

// inkColour gives an ink to the prints in focus, or keeps it for the place to come.
func (s *scope) inkColour(st sentence, f int) {
	x := &s.r.facts[f]
	if p := s.r.at(int(x.i0) - 1); p.is(cSame) || p.word == wThe && s.r.at(int(x.i0)-2).is(cOn) { // "safety green … same green"
		x.s = s.fuller(x.s)
	}
	if len(s.denied) > 0 && len(s.all) == 0 && !s.amend && !x.fix && !s.printFacts(st) && !s.coloursAre(st, f) && !s.r.at(int(x.i1)).is(cInkWord) && !s.laterPlace(st, f) {
		return // "no back print, nobody could agree on gold or silver"
	}
	more := s.listed(f) && s.colInk
	s.touch(x)
	give := func(p *rules.Print, fresh bool) {
		if old := s.replacedInk(st, f, p); x.fix && s.copied && old >= 0 { // "same print, but navy instead of the gold"
			p.Inks[old] = x.s
			return
		}
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
	if x.fix && s.added && !s.nowSaid(st) {
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
		if s.inkAll = !x.fix && s.inkForAll(st, f); s.inkAll {
			targets = s.all
		}
		if len(s.all) == 0 && len(s.seg) == 0 && !x.fix && (s.coloursAre(st, f) || s.wideHere(st, f)) {
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

// nowSaid reports whether the sentence says what is so from now on: "and the front is 2 colour now, white and lime".
func (s *scope) nowSaid(st sentence) bool {
	now := false
	for i := st.i0; i < st.i1; i++ {
		it := s.r.at(i)
		if it.is(cAdd) && it.kind == iPhrase && it.word != wAnd {
			return false
		}
		now = now || it.is(cFix) && it.kind == iPhrase
	}
	return now
}

// fuller is the ink named so far that ends in the colour c, c itself where there is none.
func (s *scope) fuller(c string) string {
	for _, h := range s.everyPrint() {
		for _, have := range s.at(h).Inks {
			if strings.HasSuffix(have, " "+c) {
				return have
			}
		}
	}
	return c
}
