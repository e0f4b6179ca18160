package intake

import (
	"slices"

	"strikeoff/rules"
)

// onNamed reads what is said of a print for some garments only: "11 in wide on the tees and 10 in wide on the hoodies", "white on the tees, navy on
// the totes". It reports whether fact f was such and has been given.
func (s *scope) onNamed(st sentence, f int) bool {
	x := &s.r.facts[f]
	if x.neg || s.alive() < 2 || s.pend.any {
		return false
	}
	switch x.kind {
	case fDim, fInks, fFull, fEffect, fColour:
	case fNumber:
		if !s.bareDim(st, f) {
			return false
		}
	default:
		return false
	}
	last := f
	for last+1 < st.f1 && s.runsOn(last) {
		last++
	}
	lines, end := s.namedAfter(st, last)
	if len(lines) == 0 || len(lines) == s.alive() {
		return false
	}
	base := s.sp
	if len(base) == 0 {
		base = s.last
	}
	if len(base) == 0 {
		return false
	}
	var places []rules.Place
	for _, h := range base {
		if p := s.at(h).Place; !slices.Contains(places, p) {
			places = append(places, p)
		}
	}
	from := copyPrints(rules.List[rules.Print]{*s.at(base[0])})[0]
	for _, k := range lines {
		for _, p := range places {
			n := len(s.lines[k].Prints)
			h := s.printAt(k, p, false)
			s.lines[k].printed = true
			to := s.at(h)
			if len(s.lines[k].Prints) > n && from.Place == p {
				s.inherit(to, &from)
			}
			s.giveRun(f, last, to, h)
		}
	}
	for k := f + 1; k <= end; k++ {
		s.r.facts[k].done = true
	}
	s.inPrint = true
	return true
}

// giveRun gives facts f to last to one print, whatever it had of their sort from elsewhere.
func (s *scope) giveRun(f, last int, to *rules.Print, h ref) {
	inked := false
	for k := f; k <= last; k++ {
		y := &s.r.facts[k]
		s.noted(k, h)
		switch y.kind {
		case fColour:
			if !inked {
				if to.InkCount.Known && to.InkCount.Value == len(to.Inks) {
					to.InkCount = rules.Maybe[int]{}
				}
				to.Inks = nil
			}
			inked = true
			y.m = inkFact
			if !slices.Contains(to.Inks, y.s) {
				to.Inks = append(to.Inks, y.s)
			}
		case fDim:
			to.WidthMM, to.HeightMM = rules.Maybe[float64]{}, rules.Maybe[float64]{}
			apply(to, y, true)
		case fInks:
			to.InkCount = rules.Said(y.n)
		default:
			apply(to, y, true)
		}
	}
}

// runsOn reports whether the fact after fact f is said of the same print in the same breath.
func (s *scope) runsOn(f int) bool {
	x, y := &s.r.facts[f], &s.r.facts[f+1]
	switch y.kind {
	case fDim, fInks, fFull, fEffect, fColour:
	default:
		return false
	}
	return !y.neg && !y.dead && (int(x.i1) == int(y.i0) || s.r.slashed(int(x.i1), int(y.i0)) && x.kind == fColour && y.kind == fColour ||
		int(x.i1)+1 == int(y.i0) && (s.r.at(int(x.i1)).word == wIn || s.r.at(int(x.i1)).is(cInkWord)))
}

// namedAfter are the lines whose garment "on the …" or "for the …" right after fact f names, and the last fact that names them.
func (s *scope) namedAfter(st sentence, f int) ([]int, int) {
	r := s.r
	i := int(r.facts[f].i1)
	for r.at(i).is(cInkWord) || r.at(i).is(cPrintWord) && r.at(i).sense(sPlace) == nil {
		i++
	}
	if o := r.at(i); !o.is(cOn) || o.kind != iPhrase || o.ntok > 1 || o.sense(sPlace) != nil || o.word == wordAcross {
		return nil, f
	}
	i++
	for w := r.at(i).word; w != 0 && (w == wThe || w == wEl || w == wordLos || w == wordLas || w == wordOur); w = r.at(i).word {
		i++
	}
	g, colour := f+1, ""
	if g < st.f1 && r.facts[g].kind == fColour && int(r.facts[g].i0) == i && g+1 < st.f1 {
		colour = r.facts[g].s
		i = int(r.facts[g].i1)
		g++
	}
	if g >= st.f1 || r.facts[g].kind != fGarment || int(r.facts[g].i0) != i || r.facts[g].neg {
		return nil, f
	}
	var hit []int
	for k := range s.lines {
		if l := &s.lines[k]; !l.drop && string(l.Garment) == r.facts[g].s && (colour == "" || hasColour(l.Colours, colour)) {
			hit = append(hit, k)
		}
	}
	for g+1 < st.f1 && len(hit) > 0 && r.facts[g+1].kind == fGarment && s.afterAnd(g+1) && int(r.facts[g+1].i0) <= int(r.facts[g].i1)+2 { // "… and the aprons"
		g++
		for k := range s.lines {
			if l := &s.lines[k]; !l.drop && string(l.Garment) == r.facts[g].s && !slices.Contains(hit, k) {
				hit = append(hit, k)
			}
		}
	}
	return hit, g
}

// bareDim makes a measure of the number in fact f where one with its unit was said before in the sentence, and a garment follows: "11 inches wide on the
// tees and 9 on the hoodies".
func (s *scope) bareDim(st sentence, f int) bool {
	x := &s.r.facts[f]
	if lines, _ := s.namedAfter(st, f); len(lines) == 0 {
		return false
	}
	for k := f - 1; k >= st.f0; k-- {
		y := &s.r.facts[k]
		n := s.r.at(int(y.i0))
		if y.kind != fDim || n.kind != iNum || n.num <= 0 || y.a > 0 && y.b > 0 {
			continue
		}
		x.kind, x.a, x.b = fDim, tenth(y.a/n.num*float64(x.n)), tenth(y.b/n.num*float64(x.n))
		return true
	}
	return false
}

// methodOn gives the method in fact f to the garments that it is said of: "water based on the tees, plastisol on the polos".
func (s *scope) methodOn(st sentence, f int) bool {
	if s.alive() < 2 {
		return false
	}
	lines, end := s.namedAfter(st, f)
	if len(lines) == 0 || len(lines) == s.alive() {
		return false
	}
	for _, k := range lines {
		s.lines[k].method = rules.Method(s.r.facts[f].s)
		for q := range s.lines[k].Prints {
			s.lines[k].Prints[q].Method = s.lines[k].method
		}
	}
	for k := f + 1; k <= end; k++ {
		s.r.facts[k].done = true
	}
	return true
}
