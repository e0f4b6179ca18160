package intake

import (
	"slices"

	"strikeoff/rules"
)

// sameAt judges what "same" at item i is said of: prints, sizes, or only the words that follow it.
func (s *scope) sameAt(st sentence, i int) {
	it := s.r.at(i)
	if s.untold() && s.sameTraits(i-1, -1) { // "color & fabric same as item 1"
		return
	}
	if !s.same {
		s.sameItem = i
	}
	if it.ntok > 1 && s.r.toks[it.tok+it.ntok-1].word == wordItem || it.ntok > 1 && vocab.names[s.r.toks[it.tok+it.ntok-1].word] == "line" {
		if n := s.r.at(i + 1); n.kind == iNum && int(n.num) >= 1 && int(n.num) <= len(s.lines) {
			s.same, s.as = true, append(s.as, int(n.num)-1)
		}
		return
	}
	if it.ntok > 1 && s.r.toks[it.tok+it.ntok-1].word == wordAbove && len(s.sp) > 0 {
		for _, h := range s.sp { // "inside neck as above"
			p := s.at(h)
			for q := h.line - 1; q >= 0; q-- {
				if from := s.printOn(q, p.Place); from != nil && !s.lines[q].drop {
					s.inherit(p, from)
					break
				}
			}
		}
		return
	}
	if it.ntok > 1 && s.samePhrase(it) {
		s.same = true
		return
	}
	if s.r.sameAs(it) && s.garmentSoon(i+1) && (len(s.sp) > 0 || len(s.sl) > 0) { // "front same as the tees"
		s.same = true
		return
	}
	if s.cellOf(i) { // "2. Long sleeves - same - qty 20"
		s.sameBlend(st)
		s.sameColour()
		return
	}
	if s.bareSame(i) {
		s.same = true
		s.sameGoods()
		return
	}
	art := s.r.at(i+1).kind == iWord && i+1 < st.i1 // "the same bunny 8 cm"
	for k := i + 1; k <= i+5; k++ {
		n := s.r.at(k)
		switch {
		case n.word != 0 && n.is(cBlank):
			s.sameBlend(st)
			return
		case n.is(cBut) && k == i+1 && (len(s.sp) > 0 || len(s.sl) > 0 && n.kind == iPhrase): // "left chest: same but 9 x 3 cm", "20 white tees, same but in red"
			s.same = true
			return
		case s.r.inkCountAt(k): // "same two colours"
			s.sameInk = true
			return
		case n.kind == iNum && (art || s.r.at(k+1).is(cPrintWord)): // "same two prints as the vests"
			s.same = true
			return
		case k >= st.i1, n.kind == iPunct && n.ch != '-' && n.ch != '/':
			s.same = true
			return
		case n.is(cBlendWord), clothWords[n.word] && k == i+1:
			s.sameBlend(st)
			if len(s.all) == 0 {
				s.sameTraits(k, 1)
			}
			return
		case n.is(cQty) && n.word != 0, n.is(cPcs) && n.word != 0:
			return
		case n.is(cColourWord) && k == i+1 && len(s.all) == 0 && len(s.sl) > 0 && s.alive() > 1:
			s.sameTraits(k, 1)
			return
		case n.is(cInkWord), n.is(cColourWord) && len(s.all) > 0:
			s.sameInk = true
			return
		case n.word == wordMethod || n.word == wordMetodo:
			s.sameWay = true
			return
		case n.sense(sGarment) != nil && k == i+1 && s.npLine >= 0 && (s.r.at(i-1).word == wOf || s.r.at(i-1).kind == iNum) && s.lines[s.npLine].Fabric == "" && s.lines[s.npLine].Fibres == nil && !s.fabricAhead(st, k): // "24 of the same tee in forest"
			s.sameBlend(st)
			return
		case n.sense(sMethod) != nil && k == i+1 && s.r.at(k+1).sense(sPlace) == nil:
			return
		case n.sense(sFibre) != nil && k == i+1 && len(s.sl) > 0 && s.r.at(k+1).sense(sGarment) != nil: // "40 volunteer tees, same cotton tee"
			s.sameBlend(st)
			return
		case n.sense(sGarment) != nil && k == i+1, n.sense(sFabric) != nil, n.sense(sFibre) != nil, n.sense(sColour) != nil && !n.sense(sColour).weak, n.sense(sDay) != nil, n.is(cColourWord), n.is(cBlendWord), n.is(cDays):
			return
		case n.is(cSized) && n.word == wordSize && len(s.sp) > 0 && s.inPrint:
			s.sameDim()
			return
		case n.is(cSized):
			s.sameSize, s.sizedLine = true, -1
			if k := s.newest(); !s.wide && s.lines[k].made == s.cl {
				s.sizedLine = k
			}
			return
		case n.sense(sPlace) != nil && !(n.is(cOn)):
			if w := s.r.toks[n.tok].word; s.r.at(k-1).is(cOn) || s.r.at(k-2).is(cOn) || w != 0 && (w == wordAcross || w == wOn) {
				s.same = true // same again on the back
				return
			}
			s.samePl = true
			return
		case n.is(cAs), n.is(cOn), n.is(cPrintWord):
			s.same = true
			if n.is(cPrintWord) && s.r.at(k+1).sense(sPlace) == nil {
				return
			}
		case n.sense(sGarment) != nil:
			return
		case n.kind == iNum && !s.same:
			return
		}
	}
	if it.ntok > 1 {
		s.same = true
	}
}

// cellOf reports whether "same" at item i fills a place between marks where the fabric or colour of a line would stand, of which nothing was said yet.
func (s *scope) cellOf(i int) bool {
	bar := func(k int) bool {
		it := s.r.at(k)
		return it.kind == iPunct && (it.ch == '-' && !it.glued || it.ch == '|' || it.ch == ',')
	}
	return bar(i-1) && bar(i+1) && len(s.sl) == 1 && s.untold()
}

// untold reports whether the line spoken of is new, and neither its fabric nor its colour nor a print was said yet.
func (s *scope) untold() bool {
	if len(s.all) > 0 || s.pend.any || s.alive() < 2 {
		return false
	}
	l := &s.lines[s.newest()]
	return l.made == s.cl && l.Garment != "" && len(l.Colours) == 0 && l.Fabric == "" && l.Fibres == nil
}

// sameTraits gives the line spoken of the colour and the fabric of the line before, as far as they are named from item i on, in steps of d: "same
// fabric and color". It reports whether one was.
func (s *scope) sameTraits(i, d int) bool {
	named := false
	for ; ; i += d {
		switch it := s.r.at(i); {
		case it.kind > iPunct, it.kind == iPunct && it.ch != '/' && it.ch != '&' && !(it.ch == ',' && s.r.at(i+d).is(cSame)):
			return named
		case it.is(cBlendWord):
			s.sameBlend(sentence{})
			named = true
		case it.is(cColourWord) && it.word != 0:
			s.sameColour()
			named = true
		case it.kind == iPunct, it.word == wAnd, it.is(cSame):
		default:
			return named
		}
	}
}

// clothWords are names of cloths that say nothing of their fibres.
var clothWords = internAll("twill", "fleece", "knit", "pique", "drill", "terry", "mesh", "ripstop", "poplin", "interlock", "denim", "flannel")

// sameBlend gives the line spoken of the fabric of the line before it.
func (s *scope) sameBlend(st sentence) {
	k := s.newest()
	for q := k - 1; q >= 0; q-- {
		if l := &s.lines[q]; !l.drop && (l.Fabric != "" || l.Fibres != nil) {
			s.lines[k].Fibres, s.lines[k].Fabric = copyBlend(l.Fibres), l.Fabric
			return
		}
	}
}

// bareSame reports whether "same" at item i names nothing that is the same: "40 towels, same", "4 coach jerseys same but XL".
func (s *scope) bareSame(i int) bool {
	w, n := s.r.at(i), s.r.at(i+1)
	if w.ntok > 1 && w.word == 0 && s.r.toks[w.tok].word != wThe || len(s.sl) == 0 || len(s.sp) > 0 || s.inPrint {
		return false
	}
	return n.kind >= iBreak || n.kind == iPunct && (n.ch == '.' || n.ch == ';') || n.is(cBut) && n.ntok == 1
}

// sameGoods gives the line that the sentence makes the fabric and the colours of the line before it, where it has none of its own.
func (s *scope) sameGoods() {
	k := s.newest()
	l := &s.lines[k]
	for q := k - 1; q >= 0 && l.made == s.cl; q-- {
		from := &s.lines[q]
		if from.drop {
			continue
		}
		if len(l.Colours) == 0 {
			l.Colours, l.Heather = slices.Clone(from.Colours), from.Heather
		}
		if l.Fibres == nil && l.Fabric == "" {
			l.Fibres, l.Fabric = copyBlend(from.Fibres), from.Fabric
		}
		return
	}
}

// sameColour gives the line spoken of the colours of the line before it.
func (s *scope) sameColour() {
	k := s.newest()
	for q := k - 1; q >= 0 && len(s.lines[k].Colours) == 0; q-- {
		if l := &s.lines[q]; !l.drop && len(l.Colours) > 0 {
			s.lines[k].Colours, s.lines[k].Heather = slices.Clone(l.Colours), l.Heather
		}
	}
}

// printOn is the print of line k at a place, nil for none.
func (s *scope) printOn(k int, place rules.Place) *rules.Print {
	for q := range s.lines[k].Prints {
		if s.lines[k].Prints[q].Place == place {
			return &s.lines[k].Prints[q]
		}
	}
	return nil
}

// fabricAhead reports whether the sentence names a fabric after item i.
func (s *scope) fabricAhead(st sentence, i int) bool {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; int(x.i0) > i && (x.kind == fFabric || x.kind == fBlend) {
			return true
		}
	}
	return false
}

// samePhrase reports whether a phrase of sameness names the prints by itself.
func (s *scope) samePhrase(it *item) bool {
	last := s.r.toks[it.tok+it.ntok-1].word
	switch vocab.names[last] {
	case "print", "prints", "design", "art", "artwork", "logo", "again", "deal", "everything", "spec", "specs", "printing", "estampado", "diseno":
		return true
	}
	return false
}

// sameDim gives the prints in focus the measures of the print before: at the same place of another line, else of the same line.
func (s *scope) sameDim() {
	for _, h := range s.sp {
		p := s.at(h)
		if p.WidthMM.Known || p.HeightMM.Known {
			continue
		}
		var from *rules.Print
		for k := h.line - 1; k >= 0 && from == nil; k-- {
			if !s.lines[k].drop {
				from = s.printOn(k, p.Place)
			}
		}
		if from == nil && h.print > 0 {
			from = &s.lines[h.line].Prints[h.print-1]
		}
		if from != nil {
			p.WidthMM, p.HeightMM = from.WidthMM, from.HeightMM
		}
	}
}

// sameBefore reports whether "same" stands before the place in fact f: "same back as the tees".
func (s *scope) sameBefore(st sentence, f int) bool {
	for i := int(s.r.facts[f].i0) - 1; i >= st.i0 && i > int(s.r.facts[f].i0)-5; i-- {
		if s.r.at(i).is(cSame) {
			return true
		}
		if it := s.r.at(i); it.kind == iPunct && it.ch == ',' || it.sense(sPlace) != nil {
			return false
		}
	}
	return false
}

// sources are the lines that "same" points at: those named after "as", else the ones before the lines spoken of.
func (s *scope) sources(st sentence) []int {
	if len(s.as) > 0 {
		return s.as
	}
	for i := st.i0; i < st.i1; i++ { // "as the tees" further on
		if !s.r.at(i).is(cAs) {
			continue
		}
		for k := i + 1; k < i+4; k++ {
			if g := s.r.at(k).sense(sGarment); g != nil {
				out := s.linesOf(rules.Garment(g.val))
				if len(out) > 0 {
					return out
				}
			}
		}
	}
	first := len(s.lines)
	targets := s.seg
	if len(targets) == 0 {
		targets = s.sl
	}
	for _, k := range targets {
		first = min(first, k)
	}
	for k := first - 1; k >= 0; k-- {
		if len(s.lines[k].Prints) > 0 && !s.lines[k].drop {
			return []int{k}
		}
	}
	for k := range s.lines {
		if len(s.lines[k].Prints) > 0 && !s.lines[k].drop && !slices.Contains(s.sl, k) {
			return []int{k}
		}
	}
	return nil
}

// factAt is the fact that names a place in the sentence.
func (s *scope) factAt(st sentence, p rules.Place) int {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fPlace && x.s == string(p) {
			return k
		}
	}
	return st.f0
}
