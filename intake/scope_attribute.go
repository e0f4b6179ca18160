package intake

import (
	"slices"

	"strikeoff/rules"
)

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
	if x.kind == fMethod && s.methodOn(st, f) {
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
		if s.copied && x.kind == fDim { // "same front but 10 in wide"
			s.at(h).WidthMM, s.at(h).HeightMM = rules.Maybe[float64]{}, rules.Maybe[float64]{}
		}
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
		if !p.InkCount.Known || x.fix || len(p.Inks) == x.n {
			p.InkCount = rules.Said(x.n)
			p.FullColour = p.FullColour && !x.fix
			if x.fix && len(p.Inks) > x.n && !here {
				p.Inks = nil
			}
		}
	case fFull:
		if x.fix && !here {
			p.Inks, p.InkCount = nil, rules.Maybe[int]{}
		}
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
