package intake

import (
	"slices"

	"strikeoff/rules"
)

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

// copyAll gives the lines spoken of the prints of the lines they are said to be the same as.
func (s *scope) copyAll(st sentence) {
	src := s.sources(st)
	if len(src) == 0 {
		for _, h := range s.sp { // "LC 1c white and the same on the left sleeve but 2 in"
			if h.print > 0 && len(s.all) > len(s.sp) {
				s.inherit(s.at(h), s.printBefore(h))
			}
		}
		return
	}
	// "same again on the back": the print before, at another place of the same lines
	if len(s.sl) == 0 && len(s.all) > 0 {
		for _, h := range s.all {
			if h.print > 0 {
				s.inherit(s.at(h), s.printBefore(h))
			}
		}
		return
	}
	var hs []ref
	same := copyPrints(s.sameArt(st, src[0]))
	for k := range same {
		s.recolour(&same[k])
	}
	for _, k := range s.sl {
		if slices.Contains(src, k) || s.lines[k].drop {
			continue
		}
		l := &s.lines[k]
		if len(same) == 1 && len(s.all) == 1 && s.all[0].line == k && !s.addedAfter(s.sameItem) && s.at(s.all[0]).Place != same[0].Place {
			from := same[0] // "same print but on the front"
			s.inherit(s.at(s.all[0]), &from)
			continue
		}
		sole := len(l.Prints) > 0 && s.onlyHere(st)
		for _, p := range copyPrints(same) {
			if slices.Contains(s.denied, p.Place) { // "same but without the back"
				continue
			}
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
			if sole {
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

// onlyHere reports whether a place of the sentence is said to be the only one: "front only, same print as the tees".
func (s *scope) onlyHere(st sentence) bool {
	for k := st.f0; k < st.f1; k++ {
		if x := &s.r.facts[k]; x.kind == fPlace && !x.neg && !x.dead && (s.r.at(int(x.i1)).is(cOnly) || s.r.at(int(x.i0)-1).is(cOnly)) {
			return true
		}
	}
	return false
}

// printBefore is the print of its line before the one that h means, in the inks that the sentence gives it.
func (s *scope) printBefore(h ref) *rules.Print {
	p := copyPrints(s.lines[h.line].Prints[h.print-1 : h.print])[0]
	s.recolour(&p)
	return &p
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

// copyOnly gives the prints at a place that is all that some goods get of the prints of others, "15 polos with only the left chest", what stands there on
// the lines before.
func (s *scope) copyOnly(st sentence) {
	for k := st.f0; k < st.f1; k++ {
		x := &s.r.facts[k]
		i := int(x.i0) - 1
		if x.kind != fPlace || x.neg || x.dead || s.r.at(i).word != wThe {
			continue
		}
		if s.r.at(i-1).is(cOn) && s.r.at(i-2).word == wordIt && s.r.at(i-2).word != 0 && s.added { // "they'd like it on the back as well, 30 cm"
			s.copyIt()
			return
		}
		if !s.r.at(i-1).is(cOnly) && !(s.r.at(i-1).is(cWith) && s.r.at(int(x.i1)).is(cOnly)) {
			continue
		}
		for _, h := range s.all {
			p := s.at(h)
			if string(p.Place) != x.s || !onlyPlaced(p) {
				continue
			}
			for q := h.line - 1; q >= 0; q-- {
				if from := s.printOn(q, p.Place); from != nil && !s.lines[q].drop {
					s.inherit(p, from)
					break
				}
			}
		}
	}
}

// copyIt gives the prints of the sentence the inks of the only other print of their line.
func (s *scope) copyIt() {
	for _, h := range s.all {
		if ps := s.lines[h.line].Prints; len(ps) == 2 {
			p, from := s.at(h), ps[1-h.print]
			from.WidthMM, from.HeightMM = p.WidthMM, p.HeightMM
			s.inherit(p, &from)
		}
	}
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
	targets := s.sl
	if len(targets) == 0 && len(s.lines) > 0 {
		targets = append(targets, s.newest())
	}
	for _, k := range targets {
		if s.sizedLine >= 0 && k != s.sizedLine {
			continue
		}
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
