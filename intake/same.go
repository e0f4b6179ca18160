package intake

import (
	"slices"

	"strikeoff/rules"
)

// sameAt judges what "same" at item i is said of: prints, sizes, or only the words that follow it.
func (s *scope) sameAt(st sentence, i int) {
	it := s.r.at(i)
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
	art := s.r.at(i+1).kind == iWord && i+1 < st.i1 // "the same bunny 8 cm"
	for k := i + 1; k <= i+5; k++ {
		n := s.r.at(k)
		switch {
		case n.word != 0 && n.is(cBlank):
			s.sameBlend(st)
			return
		case n.is(cBut) && k == i+1 && len(s.sp) > 0: // "left chest: same but 9 x 3 cm"
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
		case n.is(cBlendWord):
			s.sameBlend(st)
			return
		case n.is(cQty) && n.word != 0, n.is(cPcs) && n.word != 0:
			return
		case n.is(cColourWord) && k == i+1 && len(s.all) == 0 && len(s.sl) > 0 && s.alive() > 1:
			s.sameColour()
			if j := k + 1; s.r.at(j).word == wAnd && s.r.at(j+1).is(cBlendWord) || s.r.punct(j, '/') && s.r.at(j+1).is(cBlendWord) {
				s.sameBlend(st)
			}
			return
		case n.is(cInkWord), n.is(cColourWord) && len(s.all) > 0:
			s.sameInk = true
			return
		case n.word == wordMethod || n.word == wordMetodo:
			s.sameWay = true
			return
		case n.sense(sGarment) != nil && k == i+1 && s.npLine >= 0 && s.r.at(i-1).word == wOf && s.lines[s.npLine].Fabric == "" && s.lines[s.npLine].Fibres == nil && !s.fabricAhead(st, k): // "24 of the same tee in forest"
			s.sameBlend(st)
			return
		case n.sense(sMethod) != nil && k == i+1 && s.r.at(k+1).sense(sPlace) == nil:
			return
		case n.sense(sFibre) != nil && k == i+1 && len(s.sl) > 0 && s.r.at(k+1).sense(sGarment) != nil: // "40 volunteer tees, same cotton tee"
			s.sameBlend(st)
			return
		case n.sense(sGarment) != nil && k == i+1 && !s.prevAs(i), n.sense(sFabric) != nil, n.sense(sFibre) != nil, n.sense(sColour) != nil && !n.sense(sColour).weak, n.sense(sDay) != nil, n.is(cColourWord), n.is(cBlendWord), n.is(cDays):
			return
		case n.is(cSized) && n.word == wordSize && len(s.sp) > 0 && s.inPrint:
			s.sameDim()
			return
		case n.is(cSized):
			s.sameSize = true
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

func (s *scope) prevAs(i int) bool { return false }

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

// copyMethod gives the prints of the sentence the method of the prints before.
func (s *scope) copyMethod() {
	var m rules.Method
	for k := range s.lines {
		if slices.Contains(s.sl, k) {
			continue
		}
		for q := range s.lines[k].Prints {
			if w := s.lines[k].Prints[q].Method; w != "" {
				m = w
			}
		}
	}
	hs := s.all
	if len(hs) == 0 {
		hs = s.last
	}
	for _, h := range hs {
		if p := s.at(h); p.Method == "" {
			p.Method = m
		}
	}
}

// copyInks gives the prints in focus the inks of another print of their line.
func (s *scope) copyInks() {
	for _, h := range s.sp {
		p := s.at(h)
		if len(p.Inks) > 0 {
			continue
		}
		for q := range s.lines[h.line].Prints {
			if from := &s.lines[h.line].Prints[q]; q != h.print && len(from.Inks) > 0 {
				p.Inks = slices.Clone(from.Inks)
				if !p.InkCount.Known {
					p.InkCount = from.InkCount
				}
				break
			}
		}
	}
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
				var out []int
				for q := range s.lines {
					if string(s.lines[q].Garment) == g.val && !s.lines[q].drop {
						out = append(out, q)
					}
				}
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

// copyPlace gives the lines spoken of the print that another line has at these places.
func (s *scope) copyPlace(st sentence, places []rules.Place) {
	src := s.sources(st)
	targets := s.printLines()
	s.sp = s.sp[:0]
	for _, p := range places {
		var from *rules.Print
		for _, k := range src {
			for q := range s.lines[k].Prints {
				if s.lines[k].Prints[q].Place == p && from == nil {
					from = &s.lines[k].Prints[q]
				}
			}
		}
		for _, k := range targets {
			if slices.Contains(src, k) {
				continue
			}
			var keep rules.Print
			if from != nil {
				keep = copyPrints(rules.List[rules.Print]{*from})[0]
			}
			h := s.printAt(k, p, false)
			s.lines[k].printed = true
			if from != nil {
				pl := s.at(h)
				s.merge(pl, &keep, false)
				s.copied = true
			}
			s.noted(s.factAt(st, p), h)
			if s.pend.any {
				s.merge(s.at(h), &s.pend.p, true)
				s.arrive(&s.pend, h)
			}
			s.sp, s.all = append(s.sp, h), append(s.all, h)
		}
	}
	s.pend = pending{}
	s.last = append(s.last[:0], s.sp...)
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

// copyAll gives the lines spoken of the prints of the lines they are said to be the same as.
func (s *scope) copyAll(st sentence) {
	src := s.sources(st)
	if len(src) == 0 {
		for _, h := range s.sp { // "LC 1c white and the same on the left sleeve but 2 in"
			if h.print > 0 && len(s.all) > len(s.sp) {
				prev := s.lines[h.line].Prints[h.print-1]
				s.inherit(s.at(h), &prev)
			}
		}
		return
	}
	// "same again on the back": the print before, at another place of the same lines
	if len(s.sl) == 0 && len(s.all) > 0 {
		for _, h := range s.all {
			l := &s.lines[h.line]
			if h.print > 0 {
				prev := l.Prints[h.print-1]
				s.inherit(s.at(h), &prev)
			}
		}
		return
	}
	var hs []ref
	for _, k := range s.sl {
		if slices.Contains(src, k) || s.lines[k].drop {
			continue
		}
		l := &s.lines[k]
		if len(s.lines[src[0]].Prints) == 1 && len(s.all) == 1 && s.all[0].line == k && !s.addedAfter(s.sameItem) && s.at(s.all[0]).Place != s.lines[src[0]].Prints[0].Place {
			from := s.lines[src[0]].Prints[0] // "same print but on the front"
			s.inherit(s.at(s.all[0]), &from)
			continue
		}
		for _, p := range copyPrints(s.lines[src[0]].Prints) {
			have := -1
			for q := range l.Prints {
				if l.Prints[q].Place == p.Place {
					have = q
				}
			}
			if have >= 0 {
				s.inherit(&l.Prints[have], &p)
				continue
			}
			l.Prints = append(l.Prints, p)
			hs = append(hs, ref{k, len(l.Prints) - 1})
			if s.pend.any {
				s.merge(&l.Prints[len(l.Prints)-1], &s.pend.p, true)
			}
		}
		l.printed = true
		if l.method == "" {
			l.method = s.lines[src[0]].method
		}
	}
	if len(hs) > 0 {
		s.pend = pending{}
		s.last = hs
	}
}

// addedAfter reports whether "plus", "also" or the like stands in the sentence after item i.
func (s *scope) addedAfter(i int) bool {
	for k := i + 1; k < len(s.r.items) && k < i+12; k++ {
		it := s.r.at(k)
		if it.kind == iBreak || it.kind == iPart || s.r.punct(k, '.') {
			return false
		}
		if it.is(cAdd) && it.kind == iPhrase && it.word != wAnd || it.kind == iPunct && it.ch == '+' {
			return true
		}
	}
	return false
}

// inherit fills what a print lacks from another.
func (s *scope) inherit(p, from *rules.Print) {
	if !p.WidthMM.Known && !p.HeightMM.Known {
		p.WidthMM, p.HeightMM = from.WidthMM, from.HeightMM
	}
	if len(p.Inks) == 0 {
		p.Inks = slices.Clone(from.Inks)
		if !p.InkCount.Known {
			p.InkCount = from.InkCount
		}
	}
	if p.Method == "" {
		p.Method = from.Method
	}
	p.FullColour = p.FullColour || from.FullColour
	if len(p.Effects) == 0 {
		p.Effects = slices.Clone(from.Effects)
	}
}

// copySizes gives the lines spoken of the size run of the line before.
func (s *scope) copySizes(st sentence) {
	for _, k := range s.sl {
		if len(s.lines[k].Sizes) > 0 {
			continue
		}
		for q := k - 1; q >= 0; q-- {
			if len(s.lines[q].Sizes) == 0 {
				continue
			}
			m := make(rules.Sizes, len(s.lines[q].Sizes))
			for z, n := range s.lines[q].Sizes {
				m[z] = n
			}
			if t := s.lines[k].Quantity; !t.Known || t.Value == m.Total() {
				s.lines[k].Sizes = m
			}
			break
		}
	}
}
