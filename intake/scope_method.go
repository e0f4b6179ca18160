package intake

import (
	"slices"

	"strikeoff/rules"
)

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
	if x.kind == fEffect && len(s.sp) > 0 && !x.fix && !s.amend { // "on the back white, here without puff"
		for _, h := range s.sp {
			clear(s.at(h))
		}
		clear(&s.pend.p)
		return
	}
	for k := range s.lines {
		for q := range s.lines[k].Prints {
			if !s.amend && len(s.all) > 0 && x.kind == fEffect && !slices.Contains(s.all, ref{k, q}) {
				continue // "… here without puff"
			}
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
	if s.wideHere(st, f) || s.allSuch(f) {
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
				if k < f && f == st.f1-1 && !s.butBefore(f) && len(s.all) > 1 && len(s.sp) < len(s.all) && s.cutBetween(int(s.r.facts[f-1].i1), int(s.r.facts[f].i0)) && s.ownClause(st, f) {
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

// butBefore reports whether "but" leads to fact f: what it says is an exception.
func (s *scope) butBefore(f int) bool {
	i := int(s.r.facts[f].i0)
	for k := i - 1; k > i-4; k-- {
		if it := s.r.at(k); it.is(cBut) {
			return true
		} else if it.kind >= iPunct {
			return false
		}
	}
	return false
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

// bothSoFar reports whether the method in fact f is said of both garments named so far.
func (s *scope) bothSoFar(st sentence, f int) bool {
	if s.alive() != 2 {
		return false
	}
	for i := int(s.r.facts[f].i1); i < st.i1 && i < int(s.r.facts[f].i1)+3; i++ {
		if s.r.at(i).is(cBoth) {
			return true
		}
	}
	return false
}

// allSuch reports whether "all" stands just before the method in fact f, with what it is said of after it: "all water based on the tees".
func (s *scope) allSuch(f int) bool {
	x := &s.r.facts[f]
	p := s.r.at(int(x.i0) - 1)
	return p.is(cAll) && p.kind == iPhrase && len(s.all) > 1 && s.ofThese(int(x.i1))
}

// ofThese reports whether item i leads to the goods that something is said of: "on the tees", "on those".
func (s *scope) ofThese(i int) bool {
	if !s.r.at(i).is(cOn) {
		return false
	}
	switch s.r.wordAt(i + 1) {
	case "these", "those", "this", "that", "them":
		return s.r.clauseEnds(i + 2)
	}
	return s.garmentSoon(i + 1)
}

// methodWide gives a method to the lines the sentence speaks of, else to the whole order.
func (s *scope) methodWide(st sentence, x *fact) {
	m := rules.Method(x.s)
	if hit := s.goodsAfter(st, x); len(hit) > 0 { // "water based on the tees, plastisol on the polos"
		for _, k := range hit {
			if s.lines[k].method = m; x.fix {
				for q := range s.lines[k].Prints {
					s.lines[k].Prints[q].Method = ""
				}
			}
		}
		return
	}
	over := func(have rules.Method) bool {
		return have == "" || x.fix || have == rules.Screen && m != rules.Screen
	}
	if s.bothSoFar(st, int(x.id)) { // "discharge on both of these"
		for k := range s.lines {
			if l := &s.lines[k]; !l.drop && over(l.method) {
				l.method = m
			}
		}
		return
	}
	if s.wideHere(st, int(x.id)) && !s.ofThese(int(x.i1)) || len(s.seg) == 0 || s.alive() <= 1 {
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
